"""The round: tasks in the order of care, and what is said between its groups."""

from __future__ import annotations

import random
from datetime import date, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.core.asking.rounds.round import Pace, Stop, before_each, ordered
from warmside.core.asking.rounds.round_told import when_words
from warmside.core.plugins.hook_values import CareRank, Task
from warmside.core.values.about import About
from warmside.core.values.basis import Basis

TODAY = date(2026, 3, 5)
PLACES = {1: 10, 2: 20, 3: 30}
ROOMS = {10: "attic", 20: "cellar", 30: "attic"}


def task(what: str, days_ago: int = 0, animal: int | None = None, place: int | None = None) -> Task:
    return Task(what, TODAY - timedelta(days=days_ago), Basis("a rule"), About(animal, place))


def told(stops: list[Stop]) -> list[str]:
    return [s.task.what for s in stops]


def test_what_is_not_due_yet_is_left_out() -> None:
    tasks = [("p", task("today", 0, 1)), ("p", task("tomorrow", -1, 1))]
    assert told(ordered(tasks, PLACES, ROOMS, [], TODAY)) == ["today"]
    later = ordered(tasks, PLACES, ROOMS, [], TODAY + timedelta(days=1))
    assert told(later) == ["today", "tomorrow"]


def test_of_tasks_that_one_event_settles_the_shortest_interval_and_the_earliest_day_count() -> None:
    weekly = replace(task("weigh", 3, 1), settles="weighed", every_days=7)
    monthly = replace(task("weighing", 1, 1), settles="weighed", every_days=30)
    (stop,) = ordered([("p", monthly), ("q", weekly)], PLACES, ROOMS, [], TODAY)
    assert stop.every_days == 7 and stop.late_days(TODAY) == 3
    once = replace(monthly, every_days=None)
    (stop,) = ordered([("p", once), ("q", weekly)], PLACES, ROOMS, [], TODAY)
    assert stop.every_days == 7


def test_care_order_comes_before_lateness_and_lateness_before_the_room() -> None:
    tasks = [
        ("p", task("sick, long due", 90, 1)),
        ("p", task("cellar, long due", 30, 2)),
        ("p", task("attic, due today", 0, 3)),
        ("p", task("attic, long due", 9, 3)),
        ("p", task("nowhere", 99, 7)),
    ]
    ranks = [CareRank(10, 5, "in quarantine", "quarantine", "wash your hands")]
    assert told(ordered(tasks, PLACES, ROOMS, ranks, TODAY)) == [
        "nowhere",
        "attic, long due",
        "cellar, long due",
        "attic, due today",
        "sick, long due",
    ]


def test_a_task_is_done_where_it_says_or_where_the_animal_lives() -> None:
    stops = ordered(
        [("p", task("feed", 0, 1)), ("p", task("at the tub", 0, 1, 20)), ("p", task("read"))],
        PLACES,
        ROOMS,
        [],
        TODAY,
    )
    assert {s.task.what: (s.enclosure_id, s.room) for s in stops} == {
        "feed": (10, "attic"),
        "at the tub": (20, "cellar"),
        "read": (None, ""),
    }


def test_of_several_ranks_the_latest_in_the_round_counts() -> None:
    ranks = [CareRank(10, 3, "quarantine", "q"), CareRank(10, 1, "young ones", "y")]
    for given_ranks in (ranks, ranks[::-1]):
        (stop,) = ordered([("p", task("feed", 0, 1))], PLACES, ROOMS, given_ranks, TODAY)
        assert (stop.rank.rank, stop.rank.reason) == (3, "quarantine")


def test_words_stand_before_each_group_that_has_some() -> None:
    ranks = [
        CareRank(20, 4, "ill", "ill", "change clothes"),
        CareRank(30, 4, "quarantine", "quarantine", "wash your hands"),
    ]
    tasks = [("p", task(w, 0, a)) for w, a in (("a", 1), ("b", 2), ("c", 2), ("d", 3))]
    stops = ordered(tasks, PLACES, ROOMS, ranks, TODAY)
    assert told(stops) == ["a", "b", "c", "d"]
    assert before_each(stops) == ((1, "change clothes"), (3, "wash your hands"))
    assert before_each([]) == ()


tasks_of_plugins = st.lists(
    st.tuples(
        st.sampled_from(["p", "q"]),
        st.builds(
            task,
            st.sampled_from(["feed", "weigh"]),
            st.integers(0, 2),
            st.none() | st.integers(1, 4),
            st.none() | st.sampled_from([10, 20]),
        ),
    ),
    unique_by=lambda t: (t[0], t[1].what, t[1].due, t[1].about),
    max_size=8,
)
some_ranks = st.lists(
    st.builds(
        CareRank,
        st.sampled_from([10, 20, 30]),
        st.integers(0, 2),
        st.just(""),
        st.sampled_from(["", "g", "h"]),
    ),
    max_size=4,
)


@given(tasks_of_plugins, some_ranks, st.randoms(use_true_random=False))
def test_the_order_in_which_plugins_answer_never_matters(
    tasks: list[tuple[str, Task]], ranks: list[CareRank], chance: random.Random
) -> None:
    one = ordered(tasks, PLACES, ROOMS, ranks, TODAY)
    other_tasks, other_ranks = list(tasks), list(ranks)
    chance.shuffle(other_tasks)
    chance.shuffle(other_ranks)
    assert ordered(other_tasks, PLACES, ROOMS, other_ranks, TODAY) == one


def test_a_task_keeps_its_key_when_it_becomes_more_urgent() -> None:
    today, later = (
        ordered([("p", task("feed", days, 1))], PLACES, ROOMS, [], TODAY)[0].key for days in (0, 5)
    )
    assert today == later


def test_tasks_that_one_event_settles_are_one_stop() -> None:
    """Two plugins ask to weigh the same animal: one line, both reasons, longest due first."""
    basis = Basis("every 7 days")
    early = Task("weighing", TODAY, basis, About(1), settles="weighed")
    known = Task("weigh", TODAY, basis, About(1), settles="weighed", data={"mass_g": 5})
    other = Task("weigh", TODAY, basis, About(2), settles="weighed")
    unlike = Task("weigh", TODAY, basis, About(1), settles="weighed", data={"mass_g": 6})
    stops = ordered([("p", early), ("q", known), ("r", other)], PLACES, ROOMS, [], TODAY)
    assert [(s.plugin, [p for p, _ in s.also]) for s in stops] == [("q", ["p"]), ("r", [])]
    assert len(ordered([("q", known), ("r", unlike)], PLACES, ROOMS, [], TODAY)) == 2


def test_a_task_is_late_only_after_its_last_day() -> None:
    """A meal that may be offered for days is not late on the first of them."""
    basis = Basis("a rule")
    span = Task("feed", TODAY - timedelta(days=5), basis, About(1), by=TODAY + timedelta(days=2))
    (stop,) = ordered([("p", span)], PLACES, ROOMS, [], TODAY)
    said = [
        (stop.pace(day), stop.late_days(day))
        for day in (TODAY, TODAY + timedelta(days=2), TODAY + timedelta(days=6))
    ]
    assert said == [(Pace.MAY, 0), (Pace.TODAY, 0), (Pace.OVERDUE, 4)]
    possible = Task("sample", TODAY - timedelta(days=90), basis, About(1), may=True)
    (never_late,) = ordered([("p", possible)], PLACES, ROOMS, [], TODAY)
    assert (never_late.pace(TODAY), never_late.late_days(TODAY)) == (Pace.MAY, 0)


@given(tasks_of_plugins, some_ranks)
def test_nothing_that_presses_breaks_the_order_of_care(
    tasks: list[tuple[str, Task]], ranks: list[CareRank]
) -> None:
    stops = ordered(tasks, PLACES, ROOMS, ranks, TODAY)
    assert [s.rank.rank for s in stops] == sorted(s.rank.rank for s in stops)
    for one, two in pairwise(stops):
        if one.rank == two.rank:
            assert list(Pace).index(one.pace(TODAY)) <= list(Pace).index(two.pace(TODAY))


def test_nobody_is_told_how_late_that_is_which_was_never_recorded() -> None:
    def words(days_ago: int, *events: int) -> str:
        (stop,) = ordered(
            [("p", Task("weigh", TODAY - timedelta(days=days_ago), Basis("", events=events)))],
            PLACES,
            ROOMS,
            [],
            TODAY,
        )
        return when_words(stop, TODAY)

    assert words(2385) == "! none on record"
    assert words(12) == "! 12 days late", "a newcomer's first weighing is late by so much"
    assert words(120, 7) == "! 120 days late"
