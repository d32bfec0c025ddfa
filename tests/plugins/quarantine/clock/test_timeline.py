"""The state of a quarantine from its events: the clock, what is missing, release, mistakes."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest
from msgspec.structs import replace

from warmside.core.values.errors import BadInput, NotFound
from warmside.plugins.quarantine.clock.events import (
    Checked,
    Died,
    DiedBeside,
    Edited,
    Examined,
    Newcomer,
    Outcome,
    Released,
    Restarted,
    Resulted,
    Returned,
    Sampled,
    Started,
)
from warmside.plugins.quarantine.clock.timeline import quarantines, running
from warmside.plugins.quarantine.protocol.flat import with_overrides
from warmside.plugins.quarantine.protocol.parsing import shipped_protocols
from warmside.plugins.quarantine.protocol.terms import Cause
from warmside.plugins.quarantine.telling.wording import READY, standing

PROTOCOLS = shipped_protocols()
BLOOD = "blood test for reptarenavirus"
DAY0 = datetime(2026, 3, 1, 10)


def at(days: float) -> datetime:
    return DAY0 + timedelta(days=days)


def on(days: int) -> date:
    return at(days).date()


def start(**more) -> Started:
    return Started(1, DAY0, "general", "new arrival", **more)


def negative(i: int, day: float, method: str = "flotation", test: str = "faecal", wait: int = 2):
    return [
        Sampled(i, at(day), test, method),
        Resulted(i + 1, at(day + wait), i, Outcome.NEGATIVE),
    ]


def looks(*days: int, first_id: int = 500, found: bool = False) -> list[Checked]:
    return [Checked(first_id + d, at(d), "mites", found) for d in days]


def all_checks(until: int) -> list[Checked]:
    return [
        Checked(1000 + 10 * d + n, at(d), name)
        for d in range(0, until + 1, 7)
        for n, name in enumerate(("mites", "weight", "droppings", "breathing"))
    ]


THREE = [*negative(10, 5), *negative(20, 20), *negative(30, 40)]


def state_on(day: int, *events, protocols=PROTOCOLS):
    return quarantines([start(), *events], protocols, on(day))[-1]


def waits_for(state) -> set[str]:
    return {m.what for m in state.missing}


def test_the_day_of_the_start_is_day_0_and_the_last_day_is_day_m():
    assert state_on(0).day == 0
    state = state_on(90, *THREE, *all_checks(90))
    assert (state.day, state.protocol.days) == (90, 90)
    assert state.earliest_end == on(90)
    assert state.ready


def test_a_day_too_early_it_is_not_ready():
    state = state_on(89, *THREE, *all_checks(89))
    assert waits_for(state) == {"days"}
    assert state.missing[0].possible_on == on(90)
    assert state.missing[0].words.startswith("1 more day,")


def test_nothing_happened_yet_everything_is_missing_with_its_day():
    state = state_on(0)
    assert waits_for(state) == {"days", "tests.faecal"}
    by_what = {m.what: m for m in state.missing}
    assert by_what["tests.faecal"].next_on == on(0)
    assert by_what["tests.faecal"].possible_on == on(28)
    assert state.earliest_release == on(90)


def test_two_samples_three_days_apart_count_once():
    state = state_on(60, *negative(10, 5), *negative(20, 8), *negative(30, 19))
    assert [s.id for s in state.tests[0].counted] == [10, 30]
    assert state.tests[0].next_sample == on(60)


def test_the_next_sample_waits_for_the_spacing():
    progress = state_on(21, *negative(10, 5), *negative(20, 19)).tests[0]
    assert progress.next_sample == progress.last_sample == on(33)


def test_a_method_that_the_protocol_does_not_take_does_not_count():
    assert state_on(60, *negative(10, 5, method="oral-swab-pcr")).tests[0].counted == ()
    assert len(state_on(60, *negative(10, 5, method="")).tests[0].counted) == 1


def test_a_sample_from_before_the_quarantine_does_not_count():
    assert state_on(60, *negative(10, -5, wait=10)).tests[0].counted == ()


def test_an_unclear_result_does_not_count_and_does_not_restart():
    sample = [Sampled(10, at(5), "faecal"), Resulted(11, at(6), 10, Outcome.UNCLEAR)]
    state = state_on(60, *sample)
    assert state.tests[0].counted == () and state.restarts == () and state.waiting == ()


def test_a_sample_told_both_negative_and_positive_does_not_count():
    state = state_on(60, *negative(10, 5), Resulted(12, at(7), 10, Outcome.POSITIVE))
    assert state.tests[0].counted == ()
    assert state.restarts[0].cause is Cause.POSITIVE


def test_a_sample_without_result_is_awaited_and_then_too_long():
    sample = Sampled(10, at(5), "faecal", "flotation")
    early, late = state_on(26, sample), state_on(27, sample)
    assert [(w.days, w.too_long) for w in early.waiting] == [(21, False)]
    assert [(w.days, w.too_long) for w in late.waiting] == [(22, True)]
    assert "result awaited" in next(m.words for m in early.missing if m.what == "tests.faecal")


def test_awaited_results_may_fill_what_is_missing():
    samples = [Sampled(10 + n, at(day), "faecal") for n, day in enumerate((5, 20, 40))]
    missing = next(m for m in state_on(45, *samples).missing if m.what == "tests.faecal")
    assert missing.next_on == missing.possible_on == on(45)


def test_the_next_sample_also_keeps_its_distance_from_an_awaited_one():
    progress = state_on(21, *negative(10, 5), Sampled(20, at(20), "faecal")).tests[0]
    assert len(progress.counted) == 1
    assert progress.next_sample == progress.last_sample == on(34)


def test_a_test_with_no_negatives_wanted_is_not_missed():
    state = state_on(10)
    assert {p.test.name for p in state.tests if p.missing} == {"faecal"}
    edited = quarantines(
        [start(edits=(("tests.serpentovirus.negatives", "2"),))], PROTOCOLS, on(10)
    )[0]
    assert {p.test.name for p in edited.tests if p.missing} == {"faecal", "serpentovirus"}


@pytest.mark.parametrize(
    ("event", "cause", "words"),
    [
        (Newcomer(7, at(30), "GK-02"), Cause.NEWCOMER, "GK-02"),
        (Returned(7, at(30), "show"), Cause.RETURN, "show"),
        (Restarted(7, at(30), "door left open"), Cause.KEEPER, "door left open"),
        (Checked(7, at(30), "mites", found=True), Cause.MITES, "mite"),
        (Started(7, at(30), "long", "loan"), Cause.STARTED_AGAIN, "loan"),
    ],
)
def test_a_restart_names_its_cause_and_event(event, cause, words):
    state = state_on(40, event)
    assert [(r.day, r.cause, r.event_id) for r in state.restarts] == [(on(30), cause, 7)]
    assert words in state.restarts[0].words
    assert state.clock_start == on(30)
    assert state.day == 10
    assert state.started == on(0)


def test_a_positive_test_restarts_from_the_day_it_was_told():
    state = state_on(40, Sampled(7, at(20), "blood"), Resulted(8, at(33), 7, Outcome.POSITIVE))
    assert state.clock_start == on(33)
    assert state.restarts[0].words == f"{BLOOD} positive, sampled {on(20)}"


def test_a_positive_of_a_sample_from_before_the_start_restarts_too():
    state = state_on(40, Sampled(7, at(-9), "blood"), Resulted(8, at(3), 7, Outcome.POSITIVE))
    assert state.clock_start == on(3)


def test_samples_up_to_the_day_of_a_restart_do_not_count():
    state = state_on(60, *negative(10, 5), *negative(20, 30), Newcomer(7, at(30.2), "GK-02"))
    assert state.tests[0].counted == ()
    state = state_on(60, *negative(20, 31), Newcomer(7, at(30), "GK-02"))
    assert len(state.tests[0].counted) == 1


def test_who_came_on_the_first_day_came_together():
    state = state_on(5, Newcomer(7, at(0.2), "GK-02"), Returned(8, at(0), "loan"))
    assert state.restarts == ()


def test_a_protocol_can_switch_a_restart_off():
    lax = {"general": with_overrides(PROTOCOLS["general"], {"restarts.newcomer_in_room": "no"})}
    assert state_on(40, Newcomer(7, at(30), "GK-02"), protocols=lax).restarts == ()


def test_starting_again_takes_the_new_protocol():
    state = state_on(40, Started(7, at(30), "long"))
    assert state.protocol.name == "long"
    assert state.earliest_end == on(30 + 180)


def test_edits_for_one_animal_hold_for_its_whole_quarantine():
    state = state_on(40, Edited(7, at(30), (("days", "120"),)))
    assert state.earliest_end == on(120)
    assert state_on(20, Edited(7, at(30), (("days", "120"),))).earliest_end == on(90)


def test_mite_rechecks_run_from_the_first_adults_to_the_longest_life():
    state = state_on(35, *looks(20, found=True))
    assert [r.day for r in state.rechecks] == [on(20 + n) for n in range(13, 41, 3)]
    assert [r.overdue for r in state.rechecks[:3]] == [True, False, False]
    assert "rechecks" in waits_for(state)


def test_a_clean_look_settles_the_days_before_it():
    state = state_on(40, *looks(20, found=True), *looks(37))
    assert [r.done for r in state.rechecks[:3]] == [537, 537, None]
    state = state_on(61, *looks(20, found=True), *looks(60))
    assert "rechecks" not in waits_for(state)


def test_a_second_sighting_begins_the_rechecks_anew():
    state = state_on(40, *looks(20, 36, found=True))
    assert state.rechecks[0].day == on(36 + 13)
    assert state.clock_start == on(36)


def test_checks_are_due_from_the_first_day_and_then_every_few_days():
    due = {c.check.name: c for c in state_on(3).checks}
    assert due["mites"].due == on(0) and due["mites"].overdue_days == 3
    due = {c.check.name: c for c in state_on(10, *looks(0)).checks}
    assert due["mites"].due == on(7) and due["mites"].overdue_days == 3


def test_an_overdue_check_holds_release_unless_the_protocol_says_otherwise():
    late = [*THREE, *all_checks(70)]
    assert waits_for(state_on(90, *late)) == {
        "checks.mites",
        "checks.weight",
        "checks.droppings",
        "checks.breathing",
    }
    lax = {"general": with_overrides(PROTOCOLS["general"], {"ends.checks_up_to_date": "no"})}
    assert state_on(90, *late, protocols=lax).ready


def test_something_found_at_the_last_check_holds_release():
    events = [*THREE, *all_checks(84), Checked(900, at(88), "breathing", True, "bubbles")]
    missing = state_on(90, *events).missing
    assert [m.what for m in missing] == ["checks.breathing"]
    assert "ask a vet" in missing[0].words
    assert state_on(90, *events, Checked(901, at(89), "breathing")).ready


def test_a_release_ends_it_and_a_later_start_begins_a_new_one():
    events = [start(), *THREE, *all_checks(90), Released(70, at(90.1), to="rack")]
    again = Started(80, at(200), "short", "return from a show")
    first, second = quarantines([*events, again], PROTOCOLS, on(210))
    assert first.release.to == "rack" and first.ready and not first.overridden
    assert first.as_of == on(90)
    assert (second.protocol.name, second.day, second.cause) == ("short", 10, "return from a show")
    assert running((first, second)) is second
    assert running((first,)) is None


def test_an_override_stays_visible_with_what_was_missing():
    state = state_on(300, Released(70, at(40), reason="moved house"))
    assert state.overridden
    assert {"days", "tests.faecal"} <= waits_for(state)
    assert "moved house" in standing(state) and "while missing" in standing(state)


def test_correcting_an_old_event_changes_the_answer():
    mites = Checked(7, at(30), "mites", found=True)
    events = [*THREE, *all_checks(90), mites]
    assert state_on(90, *events).earliest_end == on(120)
    corrected = [*events[:-1], replace(mites, found=False)]
    assert state_on(90, *corrected).ready


def test_correcting_an_old_event_changes_a_released_quarantine_too():
    released = [*THREE, *all_checks(90), Released(70, at(90.1))]
    assert not state_on(200, *released).overridden
    assert state_on(200, *released, Newcomer(8, at(60), "GK-02")).overridden


def test_a_positive_after_release_is_not_lost():
    events = [*THREE, *all_checks(90), Sampled(60, at(85), "blood"), Released(70, at(90.1))]
    state = state_on(120, *events, Resulted(71, at(100), 60, Outcome.POSITIVE))
    assert [p.id for p in state.late_positives] == [71]
    assert "POSITIVE RESULT CAME AFTER RELEASE" in standing(state)


def test_a_positive_told_later_on_the_day_of_release_is_late():
    events = [*THREE, *all_checks(90), Sampled(60, at(85), "blood"), Released(70, at(90.1))]
    state = state_on(120, *events, Resulted(71, at(90.2), 60, Outcome.POSITIVE))
    assert [p.id for p in state.late_positives] == [71] and state.restarts == ()


def test_a_positive_from_before_the_quarantine_is_not_late():
    old = [Sampled(2, at(-60), "blood"), Resulted(3, at(-50), 2, Outcome.POSITIVE)]
    assert state_on(120, *old, Released(70, at(90.1))).late_positives == ()


def test_a_positive_in_the_next_quarantine_belongs_to_that_one():
    events = [Sampled(60, at(85), "blood"), Released(70, at(90.1)), Started(80, at(95), "long")]
    first, second = quarantines(
        [start(), *events, Resulted(81, at(100), 60, Outcome.POSITIVE)], PROTOCOLS, on(120)
    )
    assert first.late_positives == ()
    assert second.clock_start == on(100)


def positive(i: int, day: float) -> list:
    return [Sampled(i, at(day - 2), "blood"), Resulted(i + 1, at(day), i, Outcome.POSITIVE)]


def test_while_a_positive_stands_there_is_no_end_date():
    state = state_on(40, *positive(60, 30))
    assert state.earliest_end is state.earliest_release is state.days_left is None
    assert [p.words for p in state.positives] == [f"{BLOOD} positive, told {on(30)}"]
    assert "positive" in waits_for(state) and "days" not in waits_for(state)
    assert standing(state).startswith("a positive result stands")


@pytest.mark.parametrize(("day", "stands"), [(29, True), (30, False), (33, False)])
def test_a_positive_stands_until_a_vet_visit(day: int, stands: bool):
    visit = Examined(7, datetime.combine(on(day), time()))
    state = state_on(40, *positive(60, 30), visit)
    assert bool(state.positives) is stands
    assert state.earliest_end == (None if stands else on(30 + 90))


def test_a_visit_before_the_result_on_its_day_is_not_about_it():
    state = state_on(40, *positive(60, 30), Examined(7, at(29.9)))
    assert state.positives != ()
    assert state_on(40, *positive(60, 30), Examined(7, at(30.1))).positives == ()


def test_a_positive_told_after_the_release_stands_in_the_next_quarantine():
    events = [Sampled(60, at(85), "blood"), Released(70, at(90.1))]
    late = Resulted(71, at(95), 60, Outcome.POSITIVE)
    first, second = quarantines(
        [start(), *events, late, Started(80, at(100), "long")], PROTOCOLS, on(120)
    )
    assert [p.id for p in first.late_positives] == [p.id for p in second.positives] == [71]
    assert second.earliest_end is None and second.clock_start == on(100)


def test_a_death_beside_it_starts_the_clock_again():
    state = state_on(40, DiedBeside(7, at(20), "Fern (FER)"))
    assert state.clock_start == on(20)
    assert [(r.cause, r.words) for r in state.restarts] == [
        (Cause.DEATH, "Fern (FER) died beside it")
    ]


def test_its_own_death_ends_a_quarantine():
    state = state_on(40, Died(7, at(20)), Checked(8, at(30), "mites"))
    assert not state.running and state.died == state.as_of == on(20)
    assert standing(state) == f"died {on(20)}, day 20 of 90 of its quarantine"
    assert not state.overridden


def test_a_release_dated_only_by_day_takes_in_that_day():
    midnight = datetime(2026, 5, 30)
    state = state_on(120, Checked(7, at(90), "mites"), Released(70, midnight))
    assert state.release.day == on(90)
    assert state.checks[0].last.id == 7


def test_released_and_started_again_on_one_day_splits_by_the_hour():
    events = [
        Checked(6, at(90), "mites"),
        Released(70, at(90.1)),
        Started(71, at(90.2), "short"),
        Checked(72, at(90.3), "weight"),
    ]
    first, second = quarantines([start(), *events], PROTOCOLS, on(95))
    assert next(c.last for c in first.checks if c.check.name == "mites").id == 6
    assert next(c.last for c in second.checks if c.check.name == "weight").id == 72
    assert next(c.last for c in second.checks if c.check.name == "mites") is None


def test_the_future_is_not_looked_at():
    assert state_on(20, Newcomer(7, at(30), "GK-02")).restarts == ()
    assert quarantines([start()], PROTOCOLS, on(-1)) == ()


def test_events_without_a_quarantine_make_none():
    events = [Released(1, at(0)), *negative(10, 5), *looks(3)]
    assert quarantines(events, PROTOCOLS, on(50)) == ()


def test_a_result_before_its_sample_is_a_problem_and_does_not_count():
    state = state_on(60, *negative(10, 5, wait=-2))
    assert state.tests[0].counted == ()
    assert "dated before its sample" in state.problems[0]


def test_a_result_of_an_unknown_sample_is_a_problem_but_a_positive_restarts():
    state = state_on(60, Resulted(9, at(5), 99, Outcome.POSITIVE))
    assert "not on record" in state.problems[0]
    assert state.clock_start == on(5)


def test_an_unknown_protocol_is_named_with_a_near_miss():
    with pytest.raises(NotFound, match=r"no protocol genral .did you mean 'general'"):
        quarantines([Started(1, DAY0, "genral")], PROTOCOLS, on(1))


def test_an_absurd_edit_is_refused():
    with pytest.raises(BadInput, match="days is from"):
        quarantines([start(edits=(("days", "-1"),))], PROTOCOLS, on(1))


def test_ready_is_said_in_words_that_promise_nothing():
    said = standing(state_on(90, *THREE, *all_checks(90)))
    assert READY in said and "healthy" not in said
    assert "2 things missing" in standing(state_on(0))
