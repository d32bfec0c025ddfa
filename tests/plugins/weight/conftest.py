"""A keeper with two boas and a gecko that were weighed for a year and a half."""

from __future__ import annotations

import math
from datetime import date, timedelta
from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper

HATCHED = date(2024, 6, 10)
LAST = date(2026, 3, 1)


def mass_on(day: date, adult: float = 520.0) -> float:
    """An invented growth without scatter, in g."""
    age = (day - HATCHED).days
    return 20 + adult * (1 - math.exp(-age / 500)) ** 2


def weighings_csv(*animals: tuple[str, float], every: int = 14) -> str:
    """Weighings of animals by code and adult mass, up to LAST."""
    rows = ["date,kind,animal,mass_g"]
    for code, adult in animals:
        day = LAST
        while day > HATCHED + timedelta(days=20):
            rows.append(f"{day},weighed,{code},{mass_on(day, adult):.1f}")
            day -= timedelta(days=every)
    return "\n".join(rows) + "\n"


@pytest.fixture(scope="session")
def weighed_before(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `weigher` copies, made once."""
    folder = tmp_path_factory.mktemp("weigher")
    keeper = new_keeper(folder, plugins=["weight"])
    keeper.run("enclosure", "add", "Shelf")
    for name, species, sex, hatched in (
        ("Tup", "Kenyan sand boa", "female", "2024-06-10"),
        ("Bex", "Kenyan sand boa", "male", "2024-06-10"),
        ("Moth", "leopard gecko", "male", "2023"),
    ):
        about = ("--species", species, "--sex", sex, "--hatched", hatched)
        keeper.run("animal", "add", name, *about, "--enclosure", "SHE", "--since", "2024-07-01")
    file = folder / "weighings.csv"
    file.write_text(weighings_csv(("TUP", 520), ("BEX", 300)), encoding="utf-8")
    keeper.run("import", str(file), "--confirm")
    return keeper


@pytest.fixture
def weigher(weighed_before: Keeper, tmp_path: Path) -> Keeper:
    """The plugin enabled; Tup and Bex hatched on one day, Moth in an unknown month of 2023."""
    return copy_of(weighed_before, tmp_path)
