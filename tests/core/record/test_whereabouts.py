"""Who holds an animal and where it lives is computed from its events, on any day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.record.entities import Event
from warmside.core.record.whereabouts import (
    NEVER,
    WHEREABOUTS_KINDS,
    Custody,
    Whereabouts,
    history,
    latest,
)
from warmside.testing import Keeper

START = date(2026, 1, 1)


def event(number: int, kind: str, place: int | None = None, **data: str) -> Event:
    """The event of that day number."""
    day = START + timedelta(days=number)
    return Event(number, kind, 1, place, day, None, data, "", 1, None)


def test_an_animal_without_events_was_never_here() -> None:
    assert latest([]) == NEVER
    assert history([event(1, "weighed")]) == []


def test_every_change_of_hands_and_enclosures_is_kept() -> None:
    story = [
        event(0, "arrived", 1, how="on loan here", source="Dr. Noon", terms="one season"),
        event(5, "moved", 2),
        event(6, "weighed"),
        event(9, "returned", 1, after="vet stay"),
        event(20, "departed", how="back to its owner", to="Dr. Noon"),
    ]
    told = [(w.custody, w.enclosure_id, w.counterpart, w.terms) for w in history(story)]
    assert told == [
        (Custody.ON_LOAN_HERE, 1, "Dr. Noon", "one season"),
        (Custody.ON_LOAN_HERE, 2, "Dr. Noon", "one season"),
        (Custody.ON_LOAN_HERE, 1, "", ""),
        (Custody.DEPARTED, None, "Dr. Noon", ""),
    ]


@pytest.mark.parametrize(
    ("last", "custody", "here"),
    [
        (event(9, "kept", 1), Custody.HERE, True),
        (event(9, "arrived", 1, how="bought"), Custody.HERE, True),
        (event(9, "arrived", 1, how="on loan here"), Custody.ON_LOAN_HERE, True),
        (event(9, "returned", 1, after="loan"), Custody.HERE, True),
        (event(9, "moved", 1), Custody.HERE, True),
        (event(9, "lent", to="the zoo"), Custody.LENT_OUT, False),
        (event(9, "departed", how="sold"), Custody.DEPARTED, False),
        (event(9, "died"), Custody.DEAD, False),
    ],
)
def test_the_last_event_decides(last: Event, custody: Custody, here: bool) -> None:
    found = latest([event(0, "kept", 3), last])
    assert (found.custody, found.custody.is_here) == (custody, here)
    assert found.enclosure_id == (1 if here else None)
    assert (found.since, found.events) == (last.day, (9,))


@pytest.mark.parametrize("gone", [event(5, "lent", to="the zoo"), event(5, "departed", how="sold")])
def test_what_is_put_into_an_enclosure_is_here_again_though_no_return_was_written(
    gone: Event,
) -> None:
    assert latest([event(0, "kept", 3), gone, event(9, "moved", 1)]).custody is Custody.HERE
    lent_here = event(0, "arrived", 3, how="on loan here", source="Dr. Noon")
    assert latest([lent_here, event(9, "moved", 1)]).custody is Custody.ON_LOAN_HERE


def test_the_order_of_the_events_does_not_matter() -> None:
    story = [event(0, "kept", 1), event(3, "lent", to="a friend"), event(7, "returned", 2)]
    assert latest(reversed(story)) == latest(story)


stories = st.lists(
    st.builds(
        lambda kind, place, how: (kind, place, how),
        st.sampled_from(WHEREABOUTS_KINDS),
        st.integers(1, 2),
        st.sampled_from(["bought", "on loan here"]),
    ),
    max_size=9,
)


@given(stories)
def test_the_last_event_of_each_kind_is_enough(story: Sequence[tuple[str, int, str]]) -> None:
    """The round asks only for the last event of each kind; the whole story says the same."""
    events = [
        event(n, kind, place, how=how, source=f"source {n}", to=f"buyer {n}", terms=f"terms {n}")
        for n, (kind, place, how) in enumerate(story)
    ]
    last = {e.kind: e for e in events}
    assert latest(last.values()) == latest(events)


def whereabouts(keeper: Keeper, on: date) -> Whereabouts:
    with keeper.book() as book:
        return book.whereabouts(on)[book.animal("EMB").id]


def test_a_collection_knows_the_place_of_an_animal_on_any_day(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("enclosure", "add", "Tower")
    add = ("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    keeper.run(*add, "--since", "2026-01-10")
    keeper.run("move", "EMB", "--to", "TOW", "--at", "2026-02-01")
    keeper.run("lend", "EMB", "--to", "a friend", "--terms", "till May", "--at", "2026-03-01")
    found = [whereabouts(keeper, d) for d in (date(2026, 1, 9), date(2026, 1, 31))]
    assert [w.custody for w in found] == [Custody.NEVER_HERE, Custody.HERE]
    with keeper.book() as book:
        assert found[1].enclosure_id == book.enclosure("SHE").id
        assert book.occupants(date(2026, 2, 1)) == {book.enclosure("TOW").id: (1,)}
        assert book.occupants() == {}
        assert book.animals_here() == {}
    now = whereabouts(keeper, date(2026, 3, 5))
    assert (now.custody, now.counterpart, now.terms) == (Custody.LENT_OUT, "a friend", "till May")


def test_a_corrected_or_undone_move_was_never_made(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("enclosure", "add", "Tower")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    keeper.run("move", "EMB", "--to", "TOW")
    keeper.run("correct", "2", "--subject", "SHE")
    assert keeper.json("animal", "show", "EMB")["enclosure"] == "SHE"
    keeper.run("undo")
    assert keeper.json("animal", "show", "EMB")["enclosure"] == "TOW"
    keeper.run("undo")
    assert keeper.json("animal", "show", "EMB")["enclosure"] == "SHE"


def test_two_animals_may_share_an_enclosure_and_are_seen_to(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Shelf")
    for name in ("Ember", "Moss"):
        keeper.run("animal", "add", name, "--species", "leopard gecko")
        moved = keeper.run("move", name, "--to", "SHE")
    assert moved.stderr == "note: 2 animals are in SHE now: Ember (EMB), Moss (MOS)\n"
    shown = keeper.json("enclosure", "list")["enclosures"]
    assert shown[0]["animals"] == ["Ember (EMB)", "Moss (MOS)"]


def test_custody_and_place_change_on_the_very_day(keeper: Keeper) -> None:
    """The day of a going is a day without the animal, the day of a coming one with it."""
    for name in ("Low", "High"):
        keeper.run("enclosure", "add", name)
    species = ("--species", "leopard gecko")
    keeper.run("animal", "add", "Ember", *species, "--enclosure", "LOW", "--since", "2026-01-01")
    keeper.run("move", "EMB", "--to", "HIG", "--at", "2026-01-10")
    keeper.run("lend", "EMB", "--to", "a friend", "--at", "2026-01-20")
    keeper.run("return", "EMB", "--enclosure", "LOW", "--at", "2026-01-30")
    keeper.run("depart", "EMB", "--how", "sold", "--at", "2026-02-05")
    with keeper.book() as book:
        seen = {}
        for day in (date(2025, 12, 31), *(START + timedelta(days=n) for n in range(37))):
            where = book.whereabouts(day)[1]
            assert book.whereabouts_of(1, day) == where
            assert (1 in book.animals_here(day)) == where.custody.is_here
            assert sum(book.occupants(day).values(), ()) == ((1,) if where.enclosure_id else ())
            seen[day] = (where.custody.value, where.enclosure_id)
    changes = [(d, w) for d, w in seen.items() if seen.get(d - timedelta(days=1)) != w]
    assert changes == [
        (date(2025, 12, 31), ("never here", None)),
        (date(2026, 1, 1), ("here", 1)),
        (date(2026, 1, 10), ("here", 2)),
        (date(2026, 1, 20), ("lent out", None)),
        (date(2026, 1, 30), ("here", 1)),
        (date(2026, 2, 5), ("departed", None)),
    ]
