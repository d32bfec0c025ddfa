"""Appointments, samples and vaccinations in the round, and the yearly faecal check."""

from __future__ import annotations

from datetime import date

from warmside.api import About, Task
from warmside.testing import Keeper

APPOINTED = ("health", "appointment", "EMB", "2026-03-12", "--clock", "10:30", "--by", "Dr. Reed")
SAMPLE = ("health", "sample", "EMB", "faeces", "--lab", "Laboratory A", "--number", "17")


def tasks(keeper: Keeper, on: date) -> list[Task]:
    with keeper.ask() as ask:
        return [task for _, task in ask.tasks(on)]


def whats(keeper: Keeper, on: date) -> list[str]:
    return [task.what for task in tasks(keeper, on)]


def test_an_appointment_is_a_task_on_its_day_until_the_visit_is_on_record(ill: Keeper) -> None:
    ill.run(*APPOINTED)
    assert tasks(ill, date(2026, 3, 11)) == []
    (task,) = tasks(ill, date(2026, 3, 12))
    assert task.what == "vet appointment at 10:30, Dr. Reed"
    assert (task.settles, task.about, task.keepers) == ("examined", About(1), True)
    ill.pass_days(7)
    ill.run("today")
    bare = ill.run("done", "1", ok=False)
    assert bare.code == 2 and "needs a word on what the vet said" in bare.stderr
    ill.run("done", "1=all is well")
    assert whats(ill, date(2026, 3, 12)) == []
    assert ill.json("health", "awaited")["appointments"] == []


def test_an_appointment_that_is_off_is_no_task(ill: Keeper) -> None:
    ill.run(*APPOINTED)
    ill.run("health", "appointment", "EMB", "2026-03-12", "--cancelled")
    assert tasks(ill, date(2026, 3, 12)) == []
    none = ill.run("health", "appointment", "EMB", "2026-03-12", "--cancelled", ok=False)
    assert none.code == 2 and "has no appointment on 2026-03-12" in none.stderr


def test_a_recheck_waits_for_the_appointment_that_was_made_for_it(ill: Keeper) -> None:
    ill.run("health", "visit", "EMB", "--told", "come again", "--recheck", "2026-03-10")
    assert whats(ill, date(2026, 3, 10)) == ["recheck by the vet"]
    ill.run(*APPOINTED)
    assert whats(ill, date(2026, 3, 10)) == []
    assert whats(ill, date(2026, 3, 12)) == ["vet appointment at 10:30, Dr. Reed"]


def test_a_result_is_asked_for_once_in_time_and_its_words_settle_it(ill: Keeper) -> None:
    ill.run(*SAMPLE, "--expected", "2026-03-09")
    assert tasks(ill, date(2026, 3, 8)) == []
    for day in (9, 20):
        (task,) = tasks(ill, date(2026, 3, day))
        assert task.what == "ask for the result: faeces, Laboratory A, number 17"
        assert task.due == date(2026, 3, 9)
    ill.pass_days(5)
    ill.run("today")
    ill.run("done", "1=no eggs, no oocysts seen")
    assert tasks(ill, date(2026, 3, 20)) == []
    (_, row) = ill.json("report", "EMB")["sections"][0]["samples"]
    assert (row["says"], row["ref"]) == ("no eggs, no oocysts seen", "17")


def test_days_before_their_entry_are_refused(ill: Keeper) -> None:
    late = ill.run(*SAMPLE, "--expected", "2026-03-01", ok=False)
    assert late.code == 2 and "the day for the result, 2026-03-01, is before" in late.stderr
    over = ill.run("health", "appointment", "EMB", "2026-03-01", ok=False)
    assert over.code == 2 and "2026-03-01 is over" in over.stderr
    typed = ("record", "health.appointment", "EMB", "--due", "2026-03-01")
    assert ill.run(*typed, ok=False).code == 2
    again = ("health", "vaccinated", "EMB", "vaccine Q", "--again", "2026-03-01")
    assert ill.run(*again, ok=False).code == 2


def test_a_vaccination_is_told_of_on_the_day_that_the_vet_named_and_never_else(ill: Keeper) -> None:
    assert whats(ill, date(2026, 9, 5)) == []
    ill.run("health", "vaccinated", "EMB", "vaccine Q", "--by", "Dr. Reed", "--again", "2026-09-05")
    assert whats(ill, date(2026, 9, 4)) == []
    assert whats(ill, date(2026, 9, 5)) == ["ask the vet for the vaccination with vaccine Q"]


def test_droppings_are_looked_at_a_year_after_the_animal_was_entered(ill: Keeper) -> None:
    assert tasks(ill, date(2027, 3, 4)) == [], "it came in February, and was entered on 5 March"
    both = tasks(ill, date(2027, 3, 5))
    assert [t.about for t in both] == [About(1), About(2)]
    assert {t.what for t in both} == {"faecal check: hand in a fresh dropping"}
    assert both[0].basis.source.mark == "secondary" and both[0].every_days == 365
    ill.run(*SAMPLE, "--at", "2026-03-05")
    ill.run("health", "result", "EMB", "faeces", "--says", "nothing seen")
    ill.run("plugin", "set", "health", "faecal_days", "0", "--animal", "MOS")
    assert tasks(ill, date(2027, 3, 4)) == []
    assert [t.about for t in tasks(ill, date(2027, 3, 5))] == [About(1)]
    ill.run("plugin", "set", "health", "faecal_days", "0")
    assert tasks(ill, date(2028, 3, 5)) == []


def test_the_round_settles_a_faecal_check_as_a_sample(ill: Keeper) -> None:
    ill.pass_days(365)
    ill.run("today")
    ill.run("done", "1")
    (row,) = ill.json("health", "awaited")["results"]
    assert row["what"] == "faeces"
    assert [t.about for t in tasks(ill, date(2027, 3, 6))] == [About(2)]
