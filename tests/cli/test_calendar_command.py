"""`warmside calendar` on a collection with tasks, read back by an independent parser."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from ics import Calendar, Event

from warmside.api import About, Basis, Task
from warmside.testing import Keeper, new_keeper, throw_away_plugin


@pytest.fixture
def room(keeper: Keeper) -> Keeper:
    """One animal, weighed 20 days ago, to be weighed every 30 days."""
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run(
        *("animal", "add", "Ember", "--species", "leopard gecko"),
        *("--enclosure", "LOW", "--since", "2025-01-01"),
    )
    keeper.run("plugin", "enable", "rhythm")
    keeper.run("rhythm", "set", "weighed", "--every", "30")
    keeper.run("record", "weighed", "EMB=50g", "--at", "20 days ago")
    return keeper


def written(keeper: Keeper, path: Path, *options: str) -> Calendar:
    keeper.run("calendar", str(path), *options)
    return Calendar(path.read_bytes().decode())


def first(calendar: Calendar) -> Event:
    return min(calendar.events, key=lambda e: e.begin)


def test_a_task_stands_on_the_day_it_becomes_due(room: Keeper, tmp_path: Path) -> None:
    (event,) = written(room, tmp_path / "r.ics", "--weeks", "4").events
    assert event.all_day and event.begin.date() == date(2026, 3, 15)
    assert event.name == "Ember (EMB): weigh in LOW"
    assert "every 30 days" in event.description


def test_the_end_of_a_span_is_told_while_it_is_to_come(room: Keeper, tmp_path: Path) -> None:
    basis = Basis("now and then")
    ends = {"by": date(2026, 3, 9)}

    def spans(on: date) -> list[Task]:
        return [Task("look", date(2026, 3, 1), basis, About(1), "observed", **ends)]

    with throw_away_plugin("spans", warmside_tasks=spans):
        room.run("plugin", "enable", "spans")
        for days, told in ((0, True), (10, False)):
            room.pass_days(days)
            events = written(room, tmp_path / f"{days}.ics", "--weeks", "1").events
            (look,) = (e for e in events if "look" in (e.name or ""))
            assert ("until 2026-03-09" in (look.description or "")) is told


def test_importing_again_moves_a_task_instead_of_doubling_it(room: Keeper, tmp_path: Path) -> None:
    before = first(written(room, tmp_path / "a.ics"))
    room.run("record", "weighed", "EMB=51g")
    after = first(written(room, tmp_path / "b.ics"))
    assert before.uid == after.uid
    assert after.begin.date() == date(2026, 4, 4)


def test_a_repeating_task_stands_on_each_of_its_days(room: Keeper, tmp_path: Path) -> None:
    """Every 30 days, eleven weeks ahead: 15 March, 14 April, 14 May, each with its own identity."""
    events = written(room, tmp_path / "r.ics", "--weeks", "11").events
    assert sorted(e.begin.date() for e in events) == [
        date(2026, 3, 15),
        date(2026, 4, 14),
        date(2026, 5, 14),
    ]
    assert len({e.uid for e in events}) == 3


def test_a_local_time_holds_across_the_clock_change(room: Keeper, tmp_path: Path) -> None:
    """Vienna leaves winter time on 29 March 2026: 19:00 is 18:00 UTC before, 17:00 UTC after."""
    before = first(written(room, tmp_path / "a.ics", "--time", "19:00"))
    room.run("record", "weighed", "EMB=51g")
    after = first(written(room, tmp_path / "b.ics", "--time", "19:00"))
    assert [e.begin.to("UTC").format("MM-DD HH:mm") for e in (before, after)] == [
        "03-15 18:00",
        "04-04 17:00",
    ]


@pytest.mark.parametrize(
    "options",
    [
        *(("x.txt",), ("x.ics", "--weeks", "0")),
        *(("x.ics", "--time", "25:00"), ("x.ics", "--time", "19:00+05:00")),
    ],
)
def test_bad_input(room: Keeper, options: tuple[str, ...]) -> None:
    result = room.run("calendar", *options, ok=False)
    assert result.code == 2 and result.stderr.count("\n") == 1


def test_the_looks_for_mites_are_all_there_and_stay_when_one_is_done(
    tmp_path: Path,
) -> None:
    keeper = new_keeper(tmp_path, plugins=["quarantine"])
    keeper.run("enclosure", "add", "Tub", "--room", "Spare")
    keeper.run("arrive", "Pebble", "--species", "leopard gecko", "--enclosure", "TUB")
    keeper.run("quarantine", "check", "PEB", "mites", "--found")
    looks = looks_for_mites(keeper, tmp_path / "a.ics")
    first = date(2026, 3, 18)
    assert [day for _, day in looks] == [first + timedelta(days=3 * n) for n in range(10)]
    keeper.pass_days(13)
    keeper.run("quarantine", "check", "PEB", "mites")
    assert looks_for_mites(keeper, tmp_path / "b.ics") == looks[1:]


def looks_for_mites(keeper: Keeper, target: Path) -> list[tuple[str, date]]:
    events = sorted(written(keeper, target).events, key=lambda e: e.begin)
    return [(e.uid, e.begin.date()) for e in events if "look for mites again" in e.name]
