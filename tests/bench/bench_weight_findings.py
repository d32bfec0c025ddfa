"""How long the weight findings of a whole collection take, against reading the weighings by SQL.

Run: python tests/bench/bench_weight_findings.py. 300 animals with 500 weighings and as many meals
each, held to a reference. The floor is a hand-written query an animal that gives the same weighings
as (number, day, mass). Exit code 1 where the bound is broken.
"""

from __future__ import annotations

import random
import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable
from contextlib import closing
from datetime import date, timedelta
from importlib.resources import files
from pathlib import Path

from warmside.testing import NOON, Keeper, new_keeper

ANIMALS, WEIGHINGS, EVERY_DAYS = 300, 500, 7
MOST_RATIO = 5.0
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


def best(work: Callable[[], object], times: int = 5) -> float:
    """The shortest of some runs, in seconds."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return min(taken)


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


def main() -> int:
    """Print the figures; 1 where the bound is broken."""
    with tempfile.TemporaryDirectory() as folder:
        keeper = new_keeper(Path(folder), plugins=["weight"])
        keeper.run("enclosure", "add", "Shelf")  # the step that the events belong to
        fill(keeper)
        keeper.run(*IMPORT)
        assert by_hand(keeper.path) == ANIMALS * WEIGHINGS
        floor, ours = best(lambda: by_hand(keeper.path)), best(lambda: through_the_hook(keeper))
        count = through_the_hook(keeper)
    print(f"{count} findings of {ANIMALS} animals with {WEIGHINGS} weighings: {ours * 1e3:.0f} ms; "
          f"reading by hand {floor * 1e3:.0f} ms, ratio {ours / floor:.2f}")  # fmt: skip
    return int(ours / floor > MOST_RATIO)


if __name__ == "__main__":
    sys.exit(main())
