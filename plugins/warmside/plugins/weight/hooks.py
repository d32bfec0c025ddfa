"""Tasks, findings, answers about mass, label lines and report sections of weights."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.api import (
    About,
    Ask,
    Book,
    Doubtful,
    Estimate,
    Event,
    EventKind,
    Finding,
    LabelLine,
    NewEvent,
    Section,
    Task,
    hookimpl,
)
from warmside.plugins.weight.course.sign import Sign
from warmside.plugins.weight.findings import findings, refusal
from warmside.plugins.weight.kinds import KINDS, said_right
from warmside.plugins.weight.reading.answers import adult_mass, mass_on, weight_loss
from warmside.plugins.weight.reading.entry import doubtful
from warmside.plugins.weight.reading.standing import (
    recently_weighed,
    standing,
    standings,
)
from warmside.plugins.weight.reading.weights import last_weighed, limits_of
from warmside.plugins.weight.tasks import tasks


@hookimpl
def warmside_event_kinds() -> Iterable[EventKind]:
    """What the keeper says of a weighing that looks odd."""
    return KINDS


@hookimpl
def warmside_tasks(book: Book, ask: Ask, on: date) -> Iterator[Task]:
    """Animals to weigh, by their life stage and by what the last weighing showed."""
    settings, limits = ask.settings("weight"), limits_of(ask)
    for last in last_weighed(ask, on):
        yield from tasks(last, settings, limits, on)


@hookimpl
def warmside_findings(book: Book, ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Loss, gain, stalled growth, centiles left, and weighings in doubt.

    Some loss in winter cooling is not said where another plugin tells the loss of a planned rest.
    """
    for it in recently_weighed(ask, on, about):
        for found in findings(it):
            told = found.code == Sign.COOLING and ask.answers("winter rest", found.about, on)
            if not told:
                yield found


@hookimpl
def warmside_events_recorded(
    book: Book, events: tuple[Event, ...], confirmed: bool
) -> Iterator[NewEvent]:
    """Refuse a weighing that looks mistyped; where confirmed, note that it is right."""
    doubts = list(doubtful(book, events))
    if doubts and not confirmed:
        event, doubt = doubts[0]
        label = book.animals[event.animal_id or 0].label
        raise Doubtful(refusal(label, doubt, len(doubts) - 1, book.home.display))
    yield from {event.id: said_right(event) for event, _ in doubts}.values()


@hookimpl
def warmside_answer(book: Book, ask: Ask, what: str, about: object, on: date) -> Iterator[Estimate]:
    """The mass, the loss of mass, and the adult mass where its own growth fixes one."""
    answer = {"mass": mass_on, "adult mass": adult_mass, "weight_loss": weight_loss}.get(what)
    if answer is not None and isinstance(about, About) and about.animal_id is not None:
        found = answer(ask, about.animal_id, on)
        yield from () if found is None else (found,)


@hookimpl
def warmside_label_lines(book: Book, ask: Ask, about: About, on: date) -> Iterator[LabelLine]:
    """The last weight of an animal, and its centile."""
    from warmside.plugins.weight.telling.weight import label_lines

    if about.animal_id is not None:
        yield from label_lines(standing(ask, book.animals[about.animal_id], on))


@hookimpl
def warmside_report_sections(book: Book, ask: Ask, about: About, on: date) -> Iterator[Section]:
    """An animal's weight, centile, trend and chart; a line for each that lives in an enclosure."""
    from warmside.plugins.weight.reading.growth import grown_if_any
    from warmside.plugins.weight.telling.weight import section_of_animal, section_of_enclosure

    if about.animal_id is not None:
        it = standing(ask, book.animals[about.animal_id], on)
        yield from section_of_animal(it, lambda: grown_if_any(ask, it))
    elif about.enclosure_id is not None:
        within = book.occupants(on).get(about.enclosure_id, ())
        yield from section_of_enclosure(standings(ask, within, on))
