"""What a step recorded, as every front end and every plugin answers it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from warmside.core.answers.parts import (
    Answer,
    Cell,
    Column,
    Kind,
    Part,
    Table,
    Tone,
    Words,
    paragraphs,
)
from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.findings_told import findings_table
from warmside.core.asking.rounds.found_at_once import found_at_once
from warmside.core.record.entities import Event
from warmside.core.record.references import told_data
from warmside.core.values.units import Unit

EVENT_COLUMNS = (
    Column("event", "event", Unit.COUNT),
    Column("when", "when"),
    Column("subject", "subject"),
    Column("enclosure", "in", Kind.CODE, text=False),
    Column("what", "what happened"),
)
_NUMBER, _WHEN, _SUBJECT, _IN, _WHAT = EVENT_COLUMNS
TAKE_BACK = "warmside undo (take it back)"


def event_row(ask: Ask, event: Event) -> tuple[Cell, ...]:
    """The event as a row of EVENT_COLUMNS."""
    place = ask.book.enclosures.get(event.enclosure_id) if event.enclosure_id else None
    return (
        event.id,
        ask.when_words(event),
        ask.subject_words(event),
        place.code if place else None,
        ask.event_words(event),
    )


def columns_for(events: Iterable[Event], *, one_animal: bool) -> tuple[Column, ...]:
    """EVENT_COLUMNS; of one animal nobody reads its name on every row, but where it was put."""
    if not one_animal:
        return EVENT_COLUMNS
    placed = any(e.enclosure_id for e in events)
    return (_NUMBER, _WHEN, replace(_SUBJECT, text=False), replace(_IN, text=placed), _WHAT)


def event_data(ask: Ask, event: Event) -> dict[str, object]:
    """The event as a program reads it, beside the words of `event_row`.

    `data` has the fields of the kind in stored units, each key ending in its unit
    (`mass_g`); animals are told by their codes.
    """
    book = ask.book
    animal = book.animals.get(event.animal_id) if event.animal_id else None
    place = book.enclosures.get(event.enclosure_id) if event.enclosure_id else None
    return {
        "kind": event.kind,
        "day": event.day,
        "at": event.at,
        "animal": animal.code if animal else None,
        "enclosure": place.code if place else None,
        "data": told_data(book, event.data),
        "note": event.note,
    }


def with_data(
    columns: Sequence[Column], rows: Iterable[Sequence[Cell]], data: Iterable[dict[str, object]]
) -> list[dict[str, object]]:
    """Rows of events for JSON: the words of the table, then what a program reads."""
    keys = [c.key for c in columns]
    return [dict(zip(keys, r, strict=True)) | d for r, d in zip(rows, data, strict=True)]


def recorded(ask: Ask, events: Iterable[Event], *more: Part) -> Answer:
    """The answer of a command that recorded events, also those that plugins added.

    `more` are parts that the command says besides, below the events; above them stands what was
    found by these events and does not wait for the next round.
    """
    made = list(events)
    rows = tuple(event_row(ask, e) for e in made)
    data = [event_data(ask, e) for e in made]
    found = found_at_once(ask, made)
    shown = [findings_table(ask.book, found, "What they show")] if found else []
    return Answer(
        parts=(_told(ask, made, rows), *shown, *more, *paragraphs(TAKE_BACK, tone=Tone.HINT)),
        extra={"recorded": with_data(EVENT_COLUMNS, rows, data)},
    )


def _told(ask: Ask, made: Sequence[Event], rows: tuple[tuple[Cell, ...], ...]) -> Part:
    """One event as a sentence, several as a table; a time that all share is said once, above."""
    times = {ask.when_words(e) for e in made}
    if len(made) == 1:
        (one,) = made
        about = f"{ask.subject_words(one)}, {ask.event_words(one)}"
        return Words(f"recorded as event {one.id}, {times.pop()}: {about}")
    if len(times) != 1:
        return Table("recorded", EVENT_COLUMNS, rows, "Recorded")
    columns = tuple(replace(c, text=False) if c is _WHEN else c for c in EVENT_COLUMNS)
    return Table("recorded", columns, rows, f"Recorded, {times.pop()}")
