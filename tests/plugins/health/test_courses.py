"""Courses in the round, at the border, and in what is told of them (all invented)."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from warmside.api import About, Finding, Task
from warmside.testing import Keeper, copy_of

VIENNA = ZoneInfo("Europe/Vienna")
ORDER = (
    *("health", "order", "EMB", "medicine A", "--dose", "0.1 ml", "--amount", "0.1ml"),
    *("--by", "Dr. Reed", "--every", "12 hours", "--clock", "08:00"),
)
GIVEN = ("record", "treated", "EMB", "--what", "medicine A")


@pytest.fixture(scope="session")
def all_in_treatment(all_of_ill: Keeper, tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `treated` copies, made once."""
    keeper = copy_of(all_of_ill, tmp_path_factory.mktemp("treated"))
    keeper.run("record", "weighed", "EMB=400g", "--at", "2026-03-01")
    when = ("--from", "2026-03-05", "--at", "2026-03-04")
    keeper.run(*ORDER, "--doses", "6", "--feeding", "as usual", *when)
    return keeper


@pytest.fixture
def treated(all_in_treatment: Keeper, tmp_path: Path) -> Keeper:
    """Ember gets a dose at 08:00 and 20:00 from today, 5 March, to the 7th; it is 13:00."""
    return copy_of(all_in_treatment, tmp_path)


def tasks(keeper: Keeper, on: date) -> list[Task]:
    with keeper.ask() as ask:
        return [task for _, task in ask.tasks(on)]


def found(keeper: Keeper, on: date | None = None) -> list[Finding]:
    with keeper.ask() as ask:
        return [
            f for f in ask.findings(on or ask.book.today, About(1)) if f.code.startswith("health.")
        ]


def later(keeper: Keeper, day: int, hour: int, minute: int = 0) -> Keeper:
    keeper.now = datetime(2026, 3, day, hour, minute, tzinfo=VIENNA)
    return keeper


def test_the_doses_of_the_day_are_tasks_at_their_time(treated: Keeper) -> None:
    morning, evening = tasks(treated, date(2026, 3, 5))
    assert morning.what == "give medicine A at 08:00, 0.1 ml"
    assert evening.what == "give medicine A at 20:00, 0.1 ml"
    assert "its time is over" in morning.note and "in time until 23:00" in evening.note
    assert len(tasks(treated, date(2026, 3, 7))) == 2
    assert tasks(treated, date(2026, 3, 8)) == [], "six doses are three days"


def test_a_dose_is_done_by_its_number_and_its_course_says_so(treated: Keeper) -> None:
    later(treated, 5, 8, 30)
    treated.run("today")
    treated.run("done", "1")
    (evening,) = tasks(treated, date(2026, 3, 5))
    assert "20:00" in evening.what
    (course,) = treated.json("health", "courses", "EMB")["courses"]
    assert (course["doses"], course["next"]) == ("1 given", "2026-03-05 20:00")


def test_of_a_course_to_come_the_first_dose_is_the_next(ill: Keeper) -> None:
    ill.run(*ORDER, "--doses", "6", "--from", "2026-03-20")
    (course,) = ill.json("health", "courses", "EMB")["courses"]
    assert (course["state"], course["next"]) == ("to come", "2026-03-20 08:00")


def test_what_is_left_in_the_bottle_is_told_with_its_day_and_its_storage(ill: Keeper) -> None:
    bottle = ("--bottle", "5ml", "--expires", "2026-08-01", "--storage", "cool, dark")
    ill.run(*ORDER, "--doses", "6", *bottle)
    ill.run(*GIVEN, "--at", "2026-03-05 08:05")
    (course,) = ill.json("health", "courses", "EMB")["courses"]
    left = "at most 4.9 ml left of 5 ml; use until 2026-08-01; keep it cool, dark"
    assert course["bottle"] == left


def test_a_late_dose_a_second_one_and_one_out_of_time_are_asked_about(treated: Keeper) -> None:
    treated.run("today")
    late = treated.run("done", "1", ok=False)
    assert late.code == 4
    assert "due on 2026-03-05 08:00, this is 5 hours after that: ask the vet" in late.stderr
    later(treated, 5, 8, 10).run(*GIVEN)
    second = later(treated, 5, 10).run(*GIVEN, ok=False)
    assert second.code == 4
    assert "more than was ordered, after one on 2026-03-05 08:10: ask the vet" in second.stderr
    later(treated, 5, 10).run(*GIVEN, "--confirm")
    early = later(treated, 5, 15).run(*GIVEN, ok=False)
    assert "this is 5 hours before that: ask the vet" in early.stderr


@pytest.mark.parametrize("outcome", ["missed", "refused", "vomited", "part given"])
def test_a_dose_that_did_not_go_in_stands_until_the_next_is_given(
    treated: Keeper, outcome: str
) -> None:
    later(treated, 5, 8).run(*GIVEN, "--outcome", outcome)
    (one,) = found(treated)
    assert one.code == "health.not_taken"
    assert f"was {outcome}: ask Dr. Reed how it goes on" in one.words
    later(treated, 5, 20).run(*GIVEN)
    assert found(treated) == []


def test_doses_of_days_before_want_their_record(treated: Keeper) -> None:
    (one,) = found(later(treated, 6, 9))
    assert one.code == "health.unrecorded"
    assert "no record of 2 doses of medicine A (2026-03-05 08:00, 2026-03-05 20:00)" in one.words
    assert found(later(treated, 26, 9)) == [], "two weeks after its end nobody asks"


def test_a_vet_stops_it_and_a_dose_after_that_is_refused(treated: Keeper) -> None:
    later(treated, 5, 8).run(*GIVEN)
    later(treated, 5, 12).run("health", "stop", "EMB", "medicine a", "--by", "Dr. Reed")
    assert tasks(treated, date(2026, 3, 5)) == []
    after = later(treated, 6, 8).run(*GIVEN, ok=False)
    assert after.code == 2
    assert "was stopped by the vet on 2026-03-05" in after.stderr
    said = treated.run("health", "courses", "EMB").stdout
    assert "medicine A, 0.1 ml, every 12 hours, 2026-03-05 to 2026-03-05" in " ".join(said.split())
    treated.run("undo")
    assert len(tasks(later(treated, 5, 12), date(2026, 3, 5))) == 1


@pytest.mark.parametrize("often", ["daily", "every 2 days", "2 days"])
def test_history_says_how_often_in_the_words_of_the_order(treated: Keeper, often: str) -> None:
    treated.run(
        *("health", "order", "EMB", "medicine B", "--dose", "one", "--by", "Dr. Reed"),
        *("--every", often, "--doses", "3", "--confirm"),
    )
    told = treated.run("history", "EMB").stdout
    assert f"how often: {often}," in " ".join(told.split())


def test_a_dose_after_the_end_is_refused_in_a_line(treated: Keeper) -> None:
    refused = later(treated, 12, 8).run(*GIVEN, ok=False)
    assert refused.code == 2
    assert "the course of medicine A ended on 2026-03-07" in refused.stderr


def test_a_slip_in_the_name_is_asked_about_and_another_treatment_is_not(treated: Keeper) -> None:
    slip = treated.run("record", "treated", "EMB", "--what", "medicin A", ok=False)
    assert slip.code == 4 and "did you mean 'medicine A'?" in slip.stderr
    treated.run("record", "treated", "EMB", "--what", "bath in warm water")


def test_the_vet_is_asked_where_the_weight_of_the_order_is_not_the_animals(treated: Keeper) -> None:
    by_weight = ("--dose", "5 mg/kg")
    treated.run(*ORDER[:3], "medicine B", *by_weight, *ORDER[8:], "--doses", "6")
    treated.run("record", "weighed", "EMB=365g")
    assert found(treated) == []
    treated.run("record", "weighed", "EMB=360g")
    (one,) = found(treated)
    assert one.code == "health.other_weight"
    assert "medicine B was ordered for a weight of 400 g, on 2026-03-05 it was 360 g, 10 % less: "
    assert "ask Dr. Reed whether the dose still holds" in one.words
    assert len(one.basis.events) == 2


def test_a_bottle_is_told_of_when_it_will_not_last_or_is_past_its_day(treated: Keeper) -> None:
    bottle = ("record", "health.bottle", "EMB", "--of", "Medicine A")
    treated.run(*bottle, "--holds", "0.5 ml", "--storage", "cool", "--at", "2026-03-05")
    (one,) = found(treated)
    assert "about 0.5 ml of medicine A left, 5 doses of 6 still to give" in one.words
    treated.run(*bottle, "--holds", "1 ml", "--expires", "2026-03-05")
    assert found(treated) == []
    (gone,) = (f for f in found(later(treated, 6, 7)) if f.code == "health.bottle")
    assert "was to be used until 2026-03-05: ask Dr. Reed before the next dose" in gone.words


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("--every", "0 hours"), "there must be time between two doses"),
        (("--every", "24 times a day"), "too often for an order at home"),
        (("--every", "8h"), "needs the time of its first dose: --clock 08:00"),
        (("--every", "daily", "--until", "2026-03-01"), "until 2026-03-01 is before its first"),
        (("--every", "daily", "--doses", "0"), "doses"),
        (("--every", "daily", "--doses", "3", "--until", "2026-04-01"), "not both"),
        (("--doses", "3", "--amount", "1 cc"), "write ml"),
        (("--doses", "3", "--window", "20h"), "fits two doses"),
        (("--doses", "3", "--bottle", "5 ml", "--expires", "2026-01-01"), "was over on"),
        (("--doses", "3", "--storage", "cool"), "say what the bottle holds"),
        (("--doses", "3", "--by", ""), "needs --by: the vet who ordered it"),
        (("--doses", "3", "--dose", ""), "needs --dose: the dose as the vet wrote it"),
    ],
)
def test_an_order_that_cannot_be_is_refused_and_nothing_is_kept(
    ill: Keeper, typed: tuple[str, ...], said: str
) -> None:
    order = ("health", "order", "MOS", "medicine C", "--dose", "1 ml", "--by", "Dr. Reed")
    refused = ill.run(*order, *typed, ok=False)
    assert refused.code == 2
    assert said in refused.stderr
    assert ill.json("health", "courses", "MOS")["courses"] == []


def test_an_order_without_an_end_or_with_many_doses_a_day_is_asked_about(ill: Keeper) -> None:
    order = ("health", "order", "MOS", "medicine C", "--dose", "1 ml", "--by", "Dr. Reed")
    asked = ill.run(*order, "--every", "daily", ok=False)
    assert asked.code == 4 and "until the vet stops it?" in asked.stderr
    often = ("--every", "4h", "--clock", "06:00", "--doses", "9")
    assert "is 6 doses a day" in ill.run(*order, *often, ok=False).stderr
    ill.run(*order, "--every", "daily", "--confirm")
    assert [t.settles for t in tasks(ill, date(2027, 2, 5))] == ["treated"]


def test_a_dose_that_the_clock_jumps_over_is_shown_at_the_time_after_it(ill: Keeper) -> None:
    ill.run(
        *("health", "order", "MOS", "medicine C", "--dose", "1 ml", "--by", "Dr. Reed"),
        *("--every", "daily", "--clock", "02:30", "--from", "2026-03-28", "--doses", "3"),
    )
    days = [tasks(ill, date(2026, 3, day))[0].what for day in (28, 29, 30)]
    assert [w.split(" at ")[1][:5] for w in days] == ["02:30", "03:30", "02:30"]


def test_an_animal_without_a_course_is_asked_nothing(ill: Keeper) -> None:
    assert found(ill) == [] and tasks(ill, date(2026, 3, 5)) == []
    ill.run("record", "treated", "EMB", "--what", "a salve")
    assert found(ill) == []
