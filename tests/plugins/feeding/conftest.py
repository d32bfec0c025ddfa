"""A keeper with the feeding plugin and an invented collection: two pythons, two geckos."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper

ANIMALS = (
    ("Ember", "ball python", "2025-01-01"),
    ("Kestrel", "carpet python", "2025-01-01"),
    ("Basil", "leopard gecko", "2025-01-01"),
    ("Moss", "crested gecko", "2025-01-01"),
)


@pytest.fixture(scope="session")
def furnished_room(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `room` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("room"), plugins=["feeding"])
    for name, species, since in ANIMALS:
        keeper.run("enclosure", "add", f"{name}'s")
        code = name[:3].upper()
        where = ("--enclosure", code, "--since", since)
        keeper.run("animal", "add", name, "--species", species, *where)
    keeper.run("record", "weighed", "EMB=1240g", "KES=980g", "BAS=58g", "--at", "2026-02-20")
    return keeper


@pytest.fixture
def room(furnished_room: Keeper, tmp_path: Path) -> Keeper:
    """Noon of 5 March 2026; EMB 1240 g, KES 980 g and BAS 58 g were weighed on 20 February."""
    return copy_of(furnished_room, tmp_path)


@pytest.fixture
def evening(room: Keeper) -> Keeper:
    """Ember and Kestrel are due tomorrow, the others today."""
    for code in ("EMB", "KES"):
        room.run("feeding", "set", code, "--interval", "10-14")
        room.run("record", "fed", code, "--item", "small rat", "--at", "2026-02-24")
    return room
