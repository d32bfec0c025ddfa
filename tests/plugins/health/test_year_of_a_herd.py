"""A year of a herd through the real hooks: who is well, or treated in time, is left alone.

Invented: five healthy animals with a yearly check, six in treatment as their vet ordered it, one of
which a dose was missed, one with a dose of which nobody wrote anything, one that was ill and is
well again.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest

from warmside.api import Level, NewEvent, entering
from warmside.testing import Keeper, new_keeper

START, DAYS = date(2025, 6, 1), 365
HEALTHY = ("Ash", "Birch", "Cedar", "Elder", "Fern")
ON_TIME = {  # how often, first dose, number of doses, minutes off, counted from the last dose
    "Daily": ("daily", None, 14, 0, False),
    "Twice": ("12 hours", "08:00", 40, 25, False),  # over the night of 26 October, clocks set back
    "Spring": ("12 hours", "08:00", 40, -20, False),  # over 29 March, clocks set forward
    "Third": ("3 days", "19:00", 6, 60, False),
    "Moving": ("2 days", None, 7, 0, True),
    "Once": ("once", None, 1, 0, False),
}
FIRST = {"Spring": date(2026, 3, 20), "Twice": date(2025, 10, 15)}
COURSE, MISSED, UNWRITTEN, WELL = date(2025, 9, 1), "Missed", "Unwritten", "Well again"


@pytest.fixture(scope="module")
def herd(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """The record of the whole year, written in one step."""
    keeper = new_keeper(tmp_path_factory.mktemp("herd"), plugins=["health"])
    keeper.pass_days((START + timedelta(days=DAYS + 60) - keeper.now.date()).days)
    names = [*HEALTHY, *ON_TIME, MISSED, UNWRITTEN, WELL]
    collection = keeper.open()
    with collection.step("the herd", keeper.now, confirmed=True) as writer:
        young = [entering.Newcomer(name, "ball python", f"H{n:02}") for n, name in enumerate(names)]
        for id, name in zip(entering.enter(writer, young), names, strict=True):
            writer.record_checked(list(_life(keeper, id, name)))
    return keeper


def _life(keeper: Keeper, id: int, name: str) -> Iterator[NewEvent]:
    yield NewEvent("kept", START, {}, id)
    for month in range(12):
        mass = {"mass_g": 1000.0 + 5 * month}
        yield NewEvent("weighed", START + timedelta(days=30 * month), mass, id)
    if name in HEALTHY:
        yield from _yearly_check(id, START + timedelta(days=100 + id))
    elif name == WELL:
        yield from _ill_and_well(id)
    else:
        yield from _treated(keeper, id, name)


def _yearly_check(id: int, day: date) -> Iterator[NewEvent]:
    sample = {"what": "faeces", "lab": "Laboratory A", "ref": str(id)}
    yield NewEvent("examined", day, {"told": "all is well"}, id)
    yield NewEvent("health.sample", day, sample, id)
    told = {**sample, "state": "result", "says": "nothing seen"}
    yield NewEvent("health.sample", day + timedelta(days=6), told, id)


def _ill_and_well(id: int) -> Iterator[NewEvent]:
    begun = {"state": "open", "what": "noisy breathing seen", "recheck": "2025-09-15"}
    yield NewEvent("health.case", COURSE, begun, id)
    seen = COURSE + timedelta(days=14)
    yield NewEvent("examined", seen, {"told": "well again"}, id)
    yield NewEvent("health.case", seen, {"state": "closed", "what": "well again"}, id)


def _treated(keeper: Keeper, id: int, name: str) -> Iterator[NewEvent]:
    every, clock, count, off, from_last = ON_TIME.get(name, ("daily", None, 10, 0, False))
    first = FIRST.get(name, COURSE)
    order: dict[str, Any] = {
        "what": "medicine A",
        "dose": "5 mg/kg",
        "amount": "0.1 ml",
        "every": every,
        "clock": clock,
        "doses": count if count > 1 else None,
        "counted": "last dose" if from_last else None,
        "by": "Dr. Reed",
    }
    yield NewEvent("health.course", first, order, id)
    yield NewEvent("health.bottle", first, {"of": "medicine A", "holds": "5 ml"}, id)
    yield NewEvent("health.food", first, {"says": "as usual"}, id)
    hours = {"12 hours": 12, "2 days": 48, "3 days": 72}.get(every, 24)
    for number in range(count):
        wall = datetime.combine(first, time.fromisoformat(clock or "12:00"))
        wall += timedelta(hours=hours * number, minutes=off)
        at = wall.replace(tzinfo=keeper.now.tzinfo).astimezone(UTC) if clock else None
        outcome = "missed" if (name, number) == (MISSED, 4) else None
        if (name, number) != (UNWRITTEN, 4):
            said = {"what": "medicine A", "outcome": outcome}
            yield NewEvent("treated", wall.date(), said, id, at=at)


@pytest.fixture(scope="module")
def told(herd: Keeper) -> dict[str, list[tuple[date, str]]]:
    """Of each animal the findings of the year, and the tasks, by day."""
    found: dict[str, list[tuple[date, str]]] = {}
    with herd.ask() as ask:
        for number in range(DAYS):
            on = START + timedelta(days=number)
            for one in ask.findings(on):
                assert one.level is not Level.ACT_NOW, one.words
                name = ask.book.animals[one.about.animal_id or 0].name
                found.setdefault(name, []).append((on, one.code))
            for _, task in ask.tasks(on):
                name = ask.book.animals[task.about.animal_id or 0].name
                found.setdefault(name, []).append((on, task.what))
    return found


@pytest.mark.parametrize("name", [*HEALTHY, *ON_TIME])
def test_of_the_healthy_and_of_those_treated_in_time_nothing_is_said(
    told: dict[str, list[tuple[date, str]]], name: str
) -> None:
    assert told.get(name, []) == []


def test_a_missed_dose_is_said_until_the_next_one_is_given(
    told: dict[str, list[tuple[date, str]]],
) -> None:
    assert told[MISSED] == [(COURSE + timedelta(days=4), "health.not_taken")]


def test_a_dose_without_a_record_is_one_question_for_two_weeks_after_the_end(
    told: dict[str, list[tuple[date, str]]],
) -> None:
    due = COURSE + timedelta(days=4)
    (first, what), *rest = told[UNWRITTEN]
    assert (first, what) == (due, "give medicine A, 5 mg/kg"), "a task on its day"
    days = [day for day, code in rest if code == "health.unrecorded"]
    assert days == [due + timedelta(days=1 + n) for n in range(5 + 14)]
    assert len(rest) == len(days), "and nothing else"


def test_a_case_is_told_of_until_it_is_closed_and_never_again(
    told: dict[str, list[tuple[date, str]]],
) -> None:
    said = told[WELL]
    assert [day for day, _ in said] == [COURSE + timedelta(days=n) for n in range(14)]
    assert {code for _, code in said} == {"health.case"}
