"""What ten thousand ancestors on record add to the round: at most a tenth of what it costs.

The ancestors are those of a random pedigree of the hobby kind; the last seven are the parents of
the animals kept. The rounds are those of the demo with all plugins, by what earlier ones kept.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from tests.bench.measured import hold, medians

from random_pedigrees import clutches
from warmside.core.asking.rounds.round_told import told_round
from warmside.core.record.derived import Kept
from warmside.core.session.collection import Collection
from warmside.testing import Keeper

ANCESTORS, MORE = 10_000, 1.1
ALL = ("feeding", "genes", "habitat", "health", "labels", "lineage", "quarantine", "rhythm")


def test_the_round_with_ten_thousand_ancestors(demo: Keeper, tmp_path: Path) -> None:
    few, many = (_copy(demo, tmp_path / name) for name in ("few", "many"))
    _write_ancestors(many.path)
    few_s, many_s = medians(_round_of(few), _round_of(many), runs=31)
    words = f"{1000 * many_s:.1f} ms, without them {1000 * few_s:.1f} ms"
    hold("the round with 10,000 ancestors", many_s / few_s, MORE, words)


def _copy(demo: Keeper, folder: Path) -> Keeper:
    folder.mkdir()
    path = folder / "demo.warmside"
    with closing(sqlite3.connect(demo.path)) as old, closing(sqlite3.connect(path)) as new:
        old.backup(new)
    keeper = Keeper(path, demo.now)
    for name in ALL:
        keeper.run("plugin", "enable", name, ok=False)  # some are at work already
    return keeper


def _round_of(keeper: Keeper) -> Callable[[], object]:
    """A round as a run of its own would make it, after what earlier ones kept."""
    host = keeper.open().host
    kept = keeper.path.with_name("kept")

    def told() -> object:
        with Collection(keeper.path, host, Kept(lambda: kept)).ask(keeper.now) as ask:
            return told_round(ask, ask.book.today)

    told()
    return told


def _write_ancestors(path: Path) -> None:
    known = clutches(ANCESTORS)
    with closing(sqlite3.connect(path)) as connection:
        (first,) = connection.execute("SELECT max(id) + 1 FROM animal").fetchone()
        kept = [id for (id,) in connection.execute("SELECT id FROM animal")]
        connection.executemany(
            "INSERT INTO animal (id, code, name, species_id, sex, sex_known_by, hatched, origin, "
            "note) VALUES (?, ?, ?, 1, ?, 'seller', '', '', '')",
            [
                (first + n, f"OLD{n}", f"Ancestor {n}", "female" if n % 2 else "male")
                for n in range(ANCESTORS)
            ],
        )
        parents = [*zip(range(first, first + ANCESTORS), known.dam, known.sire, strict=True)]
        last = ANCESTORS - ANCESTORS % 2 - 1  # an odd one, so a female
        parents += [(id, last - 2 * n, last - 2 * n - 1) for n, id in enumerate(kept)]
        connection.executemany(
            "INSERT OR IGNORE INTO parentage (child_id, role, parent_id, certainty) "
            "VALUES (?, ?, ?, 'seller')",
            [
                (child, role, first + parent)
                for child, *both in parents
                for role, parent in zip(("dam", "sire"), both, strict=True)
                if parent >= 0
            ],
        )
        connection.commit()
