"""The quarantine plugin's part in the round, in records, labels and reports."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from warmside.api import (
    Basis,
    Book,
    CareRank,
    Event,
    EventKind,
    Finding,
    LabelLine,
    Level,
    NewEvent,
    Section,
    Task,
    hookimpl,
)
from warmside.plugins.quarantine.care import care_ranks
from warmside.plugins.quarantine.company import Place, company_findings
from warmside.plugins.quarantine.findings import LONG, findings_of, late_positive
from warmside.plugins.quarantine.handling import order_findings
from warmside.plugins.quarantine.kinds import KINDS, RESULTED, STARTED
from warmside.plugins.quarantine.reaction import begun, needs_quarantine
from warmside.plugins.quarantine.standing import (
    CAME,
    Standing,
    quarantines_of,
    running_of,
    standing,
)
from warmside.plugins.quarantine.stored import default_protocol, protocols
from warmside.plugins.quarantine.tasks import tasks_of
from warmside.plugins.quarantine.telling import quarantine_section
from warmside.plugins.quarantine.timeline import QuarantineState
from warmside.plugins.quarantine.validity import check


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """The kinds of a quarantine."""
    return KINDS


@hookimpl
def warmside_events_recorded(book: Book, events: tuple[Event, ...]) -> list[NewEvent]:
    """Impossible records are refused; a quarantine begins for each animal that came."""
    check(book, events)
    return list(begun(book, events))


@hookimpl
def warmside_tasks(book: Book, on: date) -> Iterator[Task]:
    """What quarantines ask for."""
    for animal_id, state in standing(book, on).states.items():
        yield from tasks_of(state, animal_id, book.animals[animal_id].code, on)


@hookimpl
def warmside_care_order(book: Book, on: date) -> Iterator[CareRank]:
    """Enclosures with an animal in quarantine come last."""
    here = book.animals_here(on)
    places: dict[int, list[QuarantineState]] = defaultdict(list)
    for animal_id, state in standing(book, on).states.items():
        place = here[animal_id].enclosure_id
        if place is not None:
            places[place].append(state)
    return care_ranks(places)


@hookimpl
def warmside_findings(book: Book, on: date) -> Iterator[Finding]:
    """What the keeper should know of quarantines."""
    now = standing(book, on)
    yield from _of_each(book, now)
    yield from _of_company(book, now, on)
    yield from order_findings(book, now.states, on)
    yield from _newcomers(book, now, on)
    yield from _late_positives(book, on)


def _of_each(book: Book, now: Standing) -> Iterator[Finding]:
    long = protocols(book)[LONG] if now.states else None
    for animal_id, state in now.states.items():
        animal = book.animals[animal_id]
        assert long is not None
        yield from findings_of(state, animal_id, animal.code, animal.species.group, long)
    for animal_id, words in now.troubles.items():
        basis = Basis("its quarantine cannot be computed")
        yield Finding("quarantine.not_computed", Level.ACT_NOW, words, basis, animal_id)


def _of_company(book: Book, now: Standing, on: date) -> Iterator[Finding]:
    if not now.states:
        return
    places = {
        a: Place(book.animals[a].label, book.enclosures[w.enclosure_id], w.events[-1])
        for a, w in book.animals_here(on).items()
        if w.enclosure_id is not None
    }
    sources = {a: s.protocol.sources["group"] for a, s in now.states.items()}
    yield from company_findings(places, list(now.states), sources)


def _newcomers(book: Book, now: Standing, on: date) -> Iterator[Finding]:
    """Animals that came within the days of the usual protocol, without a quarantine since."""
    last = book.latest(*CAME, on=on)
    protocol = protocols(book)[default_protocol(book)]
    for animal_id in book.animals_here(on):
        if animal_id in now.states or animal_id in now.troubles:
            continue
        came = [e for kind in CAME if (e := last[kind].get(animal_id)) is not None]
        if not came:
            continue
        newest = max(came, key=lambda e: e.order)
        recent = newest.day > on - timedelta(days=protocol.days)
        if recent and needs_quarantine(newest, on) and not _covered(book, newest, animal_id, on):
            code = book.animals[animal_id].code
            words = (
                f"came {newest.day} and no quarantine began; begin one: "
                f"warmside quarantine start {code} --at {newest.day}"
            )
            basis = Basis("newcomers begin in quarantine", protocol.sources["days"], (newest.id,))
            yield Finding("quarantine.newcomer", Level.LOOK_SOON, words, basis, animal_id)


def _covered(book: Book, came: Event, animal_id: int, on: date) -> bool:
    """Whether a quarantine began with that coming or was running then."""
    return any(
        s.started >= came.day or s.release is None or s.release.day >= came.day
        for s in quarantines_of(book, animal_id, on)
    )


def _late_positives(book: Book, on: date) -> Iterator[Finding]:
    for animal_id, result in book.latest(RESULTED, on=on)[RESULTED].items():
        if result.data["outcome"] == "positive" and animal_id in book.animals_here(on):
            states = quarantines_of(book, animal_id, on)
            if states and states[-1].late_positives:
                yield late_positive(states[-1], animal_id)


@hookimpl
def warmside_label_lines(book: Book, animal_id: int, on: date) -> Iterator[LabelLine]:
    """The quarantine of an animal, for its label and for a sign."""
    if animal_id not in book.latest(STARTED, on=on)[STARTED]:
        return
    state = running_of(book, animal_id, on)
    if state is not None:
        p = state.protocol
        yield LabelLine("quarantine.sign", "QUARANTINE, do last", 100)
        yield LabelLine("quarantine.since", f"quarantine since {state.clock_start}", 110)
        yield LabelLine("quarantine.end", f"earliest end {state.earliest_end}", 120)
        yield LabelLine("quarantine.group", f"quarantine group {p.group}", 130)
        yield LabelLine("quarantine.tools", p.tools, 140)


@hookimpl
def warmside_report_sections(book: Book, animal_id: int, on: date) -> Iterator[Section]:
    """The animal's quarantines with their timeline."""
    if animal_id in book.latest(STARTED, on=on)[STARTED]:
        states = quarantines_of(book, animal_id, on)
        if states:
            yield quarantine_section(book.animals[animal_id].code, states, on)
