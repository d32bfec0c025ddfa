"""Recording events for one or many subjects, shared by all commands that do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from warmside.core.answers.parts import Answer, Cell, Column, Table, Tone, paragraphs
from warmside.core.asking.ask import Ask
from warmside.core.asking.telling import event_words, step_words, subject_words, when_words
from warmside.core.kinds.kind import EventKind
from warmside.core.record.book import Book
from warmside.core.record.entities import Event, NewEvent
from warmside.core.record.steps import StepWriter
from warmside.core.session.session import Session
from warmside.core.values.display import Display
from warmside.core.values.moments import When
from warmside.core.values.units import Unit

EVENT_COLUMNS = (
    Column("event", "event", Unit.COUNT),
    Column("when", "when"),
    Column("subject", "subject"),
    Column("what", "what happened"),
)


def new_event(
    kind: EventKind,
    typed: Mapping[str, str],
    when: When,
    display: Display,
    *,
    animal_id: int | None = None,
    enclosure_id: int | None = None,
    note: str = "",
) -> NewEvent:
    """An event from typed fields; numbers without a unit are as the collection shows them."""
    data = kind.parse(typed, display=display)
    return NewEvent(kind.name, when.day, data, animal_id, enclosure_id, when.at, note)


def record_for_animals(
    session: Session,
    writer: StepWriter,
    kind_name: str,
    names: Iterable[str],
    typed: Mapping[str, str | None],
    at: str | None,
    note: str = "",
    enclosure: str | None = None,
) -> list[Event]:
    """Record one event of a kind for each named animal; empty fields are left to their defaults."""
    book, ask = writer.book, session.asking(writer.book)
    kind = ask.kind(kind_name)
    given = {k: v for k, v in typed.items() if v is not None}
    place = book.enclosure(enclosure).id if enclosure else None
    when = session.when(at, book)
    made = [
        writer.record(
            new_event(
                kind,
                given,
                when,
                book.home.display,
                animal_id=book.animal(name).id,
                enclosure_id=place,
                note=note,
            )
        )
        for name in names
    ]
    writer.say("; ".join(step_words(ask, made)))
    return made


def event_row(ask: Ask, event: Event) -> tuple[int, str, str, str]:
    """The event as a row of EVENT_COLUMNS."""
    return (
        event.id,
        when_words(ask, event),
        subject_words(ask, event),
        event_words(ask, event),
    )


def event_data(book: Book, event: Event) -> dict[str, object]:
    """The event as a program reads it, beside the words of `event_row`.

    `data` has the fields of the kind in stored units, each key ending in its unit (`mass_g`).
    """
    animal = book.animals.get(event.animal_id) if event.animal_id else None
    place = book.enclosures.get(event.enclosure_id) if event.enclosure_id else None
    return {
        "kind": event.kind,
        "day": event.day,
        "at": event.at,
        "animal": animal.code if animal else None,
        "enclosure": place.code if place else None,
        "data": event.data,
        "note": event.note,
    }


def with_data(
    columns: Sequence[Column], rows: Iterable[Sequence[Cell]], data: Iterable[dict[str, object]]
) -> list[dict[str, object]]:
    """Rows of events for JSON: the words of the table, then what a program reads."""
    keys = [c.key for c in columns]
    return [dict(zip(keys, r, strict=True)) | d for r, d in zip(rows, data, strict=True)]


def recorded(session: Session, events: Iterable[Event]) -> Answer:
    """The answer of a command that recorded events, also those that plugins added."""
    with session.ask() as ask:
        made = list(events)
        rows = tuple(event_row(ask, e) for e in made)
        data = [event_data(ask.book, e) for e in made]
    table = Table("recorded", EVENT_COLUMNS, rows, "Recorded")
    return Answer(
        parts=(table, *paragraphs("warmside undo (take it back)", tone=Tone.HINT)),
        extra={"recorded": with_data(EVENT_COLUMNS, rows, data)},
    )
