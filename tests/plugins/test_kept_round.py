"""What a round keeps from one run to the next never shows: it says what one without it says."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from itertools import product
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.round_told import told_round
from warmside.core.record.derived import Kept
from warmside.core.session.collection import Collection
from warmside.core.values.about import About
from warmside.testing import Keeper, copy_of, new_keeper

CODES = ("EMB", "SLA", "MOS")
SPECIES = ("ball python", "corn snake", "leopard gecko")
KINDS = ("weighed", "fed", "shed", "shedding", "cooling", "gravid", "laid", "measured")


def row(kind: str, by: Random) -> dict[str, object]:
    """What a keeper might type of an event of a kind."""
    return {
        "weighed": {"mass": f"{by.choice((380, 400, 412, 430, 4100))}g"},
        "fed": {"item": "adult mouse", "outcome": by.choice(("taken", "refused", "regurgitated"))},
        "shed": {"retained": by.choice(("", "toes"))},
        "shedding": {"stage": by.choice(("dull", "opaque", "clear"))},
        "cooling": {"state": by.choice(("begun", "ended"))},
        "gravid": {"state": by.choice(("suspected", "over"))},
        "laid": {},
        "measured": by.choice(({"total": "98cm"}, {"girth": "9cm"})),
    }[kind]


def record(keeper: Keeper, by: Random) -> None:
    kind, code, ago = by.choice(KINDS), by.choice(CODES), by.choice((0, 0, 1, 3, 20, 200))
    typed = [f"--{name}={value}" for name, value in row(kind, by).items() if value]
    keeper.run("record", kind, code, *typed, "--at", f"{ago} days ago", "--confirm", ok=False)


def correct(keeper: Keeper, by: Random) -> None:
    with keeper.book() as book:
        known = book.events(*KINDS[:4])
    if not known:  # the year was undone
        return
    event = by.choice(known)
    typed = [f"{name}={value}" for name, value in row(event.kind, by).items()]
    other = ("--subject", by.choice(CODES)) if by.random() < 0.3 else ()
    keeper.run("correct", event.id, *typed, *other, "--confirm", ok=False)


def undo(keeper: Keeper, by: Random) -> None:
    keeper.run("undo", ok=False)


def redo(keeper: Keeper, by: Random) -> None:
    keeper.run("redo", ok=False)


def import_csv(keeper: Keeper, by: Random) -> None:
    day = keeper.now.date() - timedelta(days=by.randrange(30))
    table = keeper.path.parent / "weights.csv"
    table.write_text(f"date,animal,mass_g\n{day},EMB,{by.randrange(380, 420)}\n{day},SLA,401\n")
    keeper.run("import", table, "--kind", "weighed", "--confirm", ok=False)


def set_the_clock(keeper: Keeper, by: Random) -> None:
    keeper.pass_days(by.choice((-40, -1, 1, 1, 7, 45)))


def set_a_value(keeper: Keeper, by: Random) -> None:
    plugin, name, values = by.choice(
        (
            ("shed", "recheck_every", ("2", "9")),
            ("weight", "digestion_days", ("1", "9")),
            ("weight", "lizard_digestion_days", ("1", "9")),
            ("feeding", "refused_is_used", ("yes", "no")),
        )
    )
    keeper.run("plugin", "set", plugin, name, by.choice(values))


def change_an_animal(keeper: Keeper, by: Random) -> None:
    hatched = by.choice(("2016", "2024-07", "2025-09-01"))
    keeper.run("animal", "change", by.choice(CODES), "--hatched", hatched)


def restore(keeper: Keeper, by: Random) -> None:
    keeper.run("file", "restore", keeper.path.parent / "backup.warmside", "--yes")


DEEDS: tuple[Callable[[Keeper, Random], None], ...] = (
    *(record, record, record, correct, undo, redo, import_csv),
    *(set_the_clock, set_a_value, change_an_animal, restore),
)


@pytest.fixture(scope="module")
def herd(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Three animals with a year of meals, weighings and sheds."""
    keeper = new_keeper(tmp_path_factory.mktemp("herd"), plugins=["feeding", "shed", "weight"])
    rows = []
    for n, (code, species) in enumerate(zip(CODES, SPECIES, strict=True)):
        name = {"EMB": "Ember", "SLA": "Slate", "MOS": "Moss"}[code]
        since = ("--since", "2024-12-01")
        keeper.run("animal", "add", name, "--species", species, "--hatched", "2022-06", *since)
        for ago in range(380 - n, 0, -14):
            day = keeper.now.date() - timedelta(days=ago)
            rows += [
                (day, code, "weighed", 400 + ago % 3, "", ""),
                (day, code, "fed", "", "adult mouse", 1),
            ]
            if ago % 3 == 0:
                rows.append((day, code, "shed", "", "", ""))
    table = keeper.path.parent / "year.csv"
    lines = ["date,animal,kind,mass_g,item,count", *(",".join(map(str, r)) for r in rows)]
    table.write_text("\n".join(lines) + "\n")
    fields = ("--field", "item=item", "--field", "count=count", "--confirm")
    keeper.run("import", table, *fields)
    return keeper


@settings(max_examples=6, deadline=None)
@given(st.integers(0, 10**6))
def test_a_round_from_what_is_kept_says_what_one_without_it_says(
    herd: Keeper, tmp_path_factory: pytest.TempPathFactory, seed: int
) -> None:
    by = Random(seed)  # drawn evenly: what matters is that each deed follows each
    keeper = copy_of(herd, tmp_path_factory.mktemp("one"))
    keeper.run("file", "backup", keeper.path.parent / "backup.warmside")
    check(keeper)
    for deed in by.sample(DEEDS, k=8):
        deed(keeper, by)
        check(keeper)


def check(keeper: Keeper) -> None:
    opened = keeper.open()
    kept = Kept(lambda: keeper.path.parent / "kept")
    found = []
    for memory in (kept, None):
        collection = Collection(keeper.path, opened.host.renewed(), memory)
        with collection.ask(keeper.now) as ask:
            days = [ask.book.today + timedelta(days=n) for n in (-3, 0, 1)]
            found.append([(told_round(ask, day), answers(ask, day)) for day in days])
            assert not ask.host.failures
    assert found[0] == found[1]


def answers(ask: Ask, day: date) -> list[object]:
    """What the plugins answer of each animal: a round shows it of few."""
    asked = product(("days to slough", "mass"), ask.book.animals)
    return [ask.answers(what, About(animal), day) for what, animal in asked]
