"""What is read of one animal alone is what is read of it among all."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.plugins.feeding.reading.animals import Reading
from warmside.testing import Keeper

DAY = date(2026, 3, 5)


def test_weighings_are_the_same_and_the_oldest_comes_first(room: Keeper) -> None:
    for grams, day in (("1190g", "2026-03-01"), ("1300g", "2025-12-01"), ("1280g", "2026-02-20")):
        room.run("record", "weighed", f"EMB={grams}", "--at", day, "--confirm")
    with room.ask() as ask:
        ember = ask.book.animal("EMB").id
        for days in (3, 30, 120, 400):
            since = DAY - timedelta(days=days)
            alone = Reading(ask, DAY, alone=True).weighings(ember, since)
            assert Reading(ask, DAY).weighings(ember, since) == alone
            assert [w.day for w in alone] == sorted(w.day for w in alone if w.day >= since)
        newest = Reading(ask, DAY, alone=True).weighing(ember)
    assert newest and newest.mass_g == 1190 and newest == alone[-1]
    assert [w.mass_g for w in alone] == [1300, 1240, 1280, 1190]
