"""The last event of a kind up to a day: by day, by time, by number; never a corrected one.

What all commands call the newest weighing rests on it.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper

DAY = date(2026, 3, 5)


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Ember was weighed on three days, entered out of order, on one of them twice by the clock."""
    keeper = new_keeper(tmp_path_factory.mktemp("latest"))
    keeper.run("enclosure", "add", "Low")
    for name in ("Ember", "Moss"):
        where = ("--enclosure", "LOW", "--since", "2026-01-01")
        keeper.run("animal", "add", name, "--species", "ball python", *where)
    for grams, at in (
        (400, "2026-03-03 18:00"),
        (390, "2026-03-03 08:00"),
        (380, "2026-03-01"),
        (410, "2026-03-05"),
        (370, "2026-02-01"),
    ):
        keeper.run("record", "weighed", f"EMB={grams}g", "--at", at, "--confirm")
    keeper.run("record", "weighed", "MOS=900g", "--at", "2026-02-20")
    keeper.run("record", "watered", "LOW", "--at", "2026-03-01")
    keeper.run("record", "watered", "LOW", "--at", "2026-02-01")
    return keeper


@pytest.fixture
def weighed(once: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(once, tmp_path)


@pytest.mark.parametrize(
    ("day", "grams"),
    [(1, 380), (2, 380), (3, 400), (4, 400), (5, 410), (6, 410)],
)
def test_it_is_the_newest_up_to_that_day_for_one_and_for_all(
    weighed: Keeper, day: int, grams: int
) -> None:
    on = date(2026, 3, day)
    with weighed.book() as book:
        ember, moss = book.animal("EMB").id, book.animal("MOS").id
        one = book.latest_of(ember, "weighed", on=on)["weighed"]
        assert one.data["mass_g"] == grams
        every = book.latest("weighed", on=on)["weighed"]
        assert {a: e.data["mass_g"] for a, e in every.items()} == {ember: grams, moss: 900}
        newest = next(iter(book.newest("weighed", [ember], on, 1)))
        assert (newest[0], newest[3]) == (ember, one.id)


def test_before_its_first_there_is_none_and_a_corrected_one_is_none(weighed: Keeper) -> None:
    with weighed.book() as book:
        ember = book.animal("EMB").id
        assert "weighed" not in book.latest_of(ember, "weighed", on=date(2026, 1, 31))
        last = book.latest_of(ember, "weighed", on=DAY)["weighed"]
    weighed.run("correct", last.id, "--at", "2026-02-02", "--confirm")
    with weighed.book() as book:
        assert book.latest_of(ember, "weighed", on=DAY)["weighed"].data["mass_g"] == 400


def test_of_an_enclosure_too_the_newest_counts(weighed: Keeper) -> None:
    with weighed.book() as book:
        low = book.enclosure("LOW").id
        days = [date(2026, 1, 31), date(2026, 2, 28), DAY]
        found = [book.latest_in("watered", on=day)["watered"].get(low) for day in days]
    assert [e and e.day for e in found] == [None, date(2026, 2, 1), date(2026, 3, 1)]
