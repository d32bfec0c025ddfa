"""How long the weight findings of a whole collection take, against reading the weighings by SQL.

300 animals with 500 weighings and as many meals each, held to a reference. The floor is a
hand-written query an animal that gives the same weighings as (number, day, mass).
"""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from importlib.resources import files
from pathlib import Path

from tests.bench.measured import hold_ratio

from warmside.testing import NOON, Keeper, new_keeper

ANIMALS, WEIGHINGS, EVERY_DAYS = 300, 500, 7
MOST_RATIO = 5.0
RUNS = 5
TODAY = NOON.date()
EXAMPLE = files("warmside.plugins.weight") / "data" / "example_reference.csv"
IMPORT = ("weight", "reference", "import", str(EXAMPLE), "--species", "Antaresia childreni")
EVENT = "INSERT INTO event (kind, animal_id, day, data, note, step_id) VALUES (?, ?, ?, ?, '', 1)"
SPECIES = "SELECT id FROM species WHERE scientific = 'Antaresia childreni'"
FLOOR = (
    "SELECT id, day, json_extract(data, '$.mass_g') FROM event WHERE animal_id = ? "
    "AND kind = 'weighed' AND replaced_by IS NULL ORDER BY day, at"
)


def fill(keeper: Keeper) -> None:
    """Animals of one species with weighings and meals, written past the program."""
    hatched = TODAY - timedelta(days=EVERY_DAYS * WEIGHINGS + 30)
    with closing(sqlite3.connect(keeper.path)) as db, db:
        (species,) = db.execute(SPECIES).fetchone()
        db.executemany(
            "INSERT INTO animal (id, code, name, species_id, sex, sex_known_by, hatched, origin, "
            "note) VALUES (?, ?, ?, ?, 'female', 'probed', ?, '', '')",
            [(a, f"A{a}", f"Animal {a}", species, hatched.isoformat()) for a in _ids()],
        )
        db.executemany(EVENT, _events())


def _ids() -> range:
    return range(1, ANIMALS + 1)


def _events() -> list[tuple[str, int, str, str]]:
    rng = random.Random(1)
    rows = []
    for animal in _ids():
        mass = rng.uniform(30, 300)
        start = TODAY - timedelta(days=EVERY_DAYS * WEIGHINGS)
        rows.append(("kept", animal, start.isoformat(), '{"source":""}'))
        for i in range(WEIGHINGS):
            mass *= 1 + rng.gauss(0.002, 0.02)
            day = start + timedelta(days=EVERY_DAYS * i)
            rows.append(("weighed", animal, day.isoformat(), f'{{"mass_g":{mass:.1f}}}'))
            rows.append(("fed", animal, _after(day), _meal(mass)))
    return rows


def _after(day: date) -> str:
    return (day + timedelta(days=2)).isoformat()


def _meal(mass: float) -> str:
    return (
        f'{{"item":"mouse","count":1,"mass_g":{mass / 10:.1f},"form":"thawed","outcome":"taken"}}'
    )


def by_hand(path: Path) -> int:
    """All weighings by one query an animal."""
    with closing(sqlite3.connect(path)) as db:
        return sum(len(db.execute(FLOOR, (animal,)).fetchall()) for animal in _ids())


def through_the_hook(keeper: Keeper) -> int:
    """The findings of the real hook, on a new snapshot."""
    with keeper.ask() as ask:
        found = ask.findings(ask.book.today)
        assert not ask.host.failures, ask.host.failures
        return len(found)


def test_the_findings_of_the_real_hook(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path, plugins=["weight"])
    keeper.run("enclosure", "add", "Shelf")  # the step that the events belong to
    fill(keeper)
    keeper.run(*IMPORT)
    assert by_hand(keeper.path) == ANIMALS * WEIGHINGS

    def ours() -> object:
        return through_the_hook(keeper)

    name = "weight findings of 300 to reading by SQL"
    hold_ratio(name, ours, lambda: by_hand(keeper.path), MOST_RATIO, RUNS)
