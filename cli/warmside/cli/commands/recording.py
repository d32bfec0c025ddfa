"""Recording events for one or many subjects, shared by all commands that do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from warmside.core.answers.parts import Answer, Cell, Column, Table, Tone, words
from warmside.core.kinds.kind import EventKind
from warmside.core.record.book import Book
from warmside.core.record.entities import Event, NewEvent
from warmside.core.record.steps import StepWriter
from warmside.core.record.telling import event_words, subject_words, when_words
from warmside.core.session.session import Session
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
    *,
    animal_id: int | None = None,
    enclosure_id: int | None = None,
    note: str = "",
) -> NewEvent:
    """An event from typed fields."""
    return NewEvent(kind.name, when.day, kind.parse(typed), animal_id, enclosure_id, when.at, note)


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
    book = writer.book
    kind = book.host.kind(kind_name)
    given = {k: v for k, v in typed.items() if v is not None}
    place = book.enclosure(enclosure).id if enclosure else None
    when = session.when(at, book)
    made = [
        writer.record(
            new_event(
                kind,
                given,
                when,
                animal_id=book.animal(name).id,
                enclosure_id=place,
                note=note,
            )
        )
        for name in names
    ]
    writer.say("; ".join(step_words(writer.book, made)))
    return made


def step_words(book: Book, events: Iterable[Event]) -> list[str]:
    """What a step did, in the keeper's words, for undo's preview."""
    listed = list(events)
    told = [f"{subject_words(book, e)}: {event_words(book, e)}" for e in listed[:3]]
    return told + ([f"and {len(listed) - 3} more"] if len(listed) > 3 else [])


def event_row(book: Book, event: Event) -> tuple[int, str, str, str]:
    """The event as a row of EVENT_COLUMNS."""
    return (
        event.id,
        when_words(book, event),
        subject_words(book, event),
        event_words(book, event),
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
    with session.read() as book:
        made = list(events)
        rows = tuple(event_row(book, e) for e in made)
        data = [event_data(book, e) for e in made]
    table = Table("recorded", EVENT_COLUMNS, rows, "Recorded")
    return Answer(
        parts=(table, *words("warmside undo (take it back)", tone=Tone.HINT)),
        extra={"recorded": with_data(EVENT_COLUMNS, rows, data)},
    )
