"""Recording events of quarantines from commands, and the answer that says what was recorded."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Annotated, Any

import typer

from warmside.api import (
    Answer,
    Column,
    Event,
    NewEvent,
    Part,
    Session,
    StepWriter,
    Table,
    Tone,
    Unit,
    When,
    paragraphs,
)
from warmside.core.asking.telling import event_words, subject_words, when_words
from warmside.plugins.quarantine.wording import DEFER

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
AnimalNames = Annotated[list[str], typer.Argument(help="Codes or names of the animals.")]
At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday, 08:30 …")]
Note = Annotated[str, typer.Option(help="A note.")]
Confirm = Annotated[bool, typer.Option(help="It is right, though it looks odd.")]

COLUMNS = (
    Column("event", "event", Unit.COUNT),
    Column("when", "when"),
    Column("subject", "subject"),
    Column("what", "what happened"),
)


def record(
    writer: StepWriter,
    kind: str,
    animal_id: int,
    data: Mapping[str, Any],
    when: When,
    note: str = "",
) -> Event:
    """Record one event of a quarantine, and say it as the step's words."""
    valid = writer.book.host.kind(kind).validate(data)
    event = writer.record(NewEvent(kind, when.day, valid, animal_id, at=when.at, note=note))
    told = [
        f"{subject_words(writer.book, e)}: {event_words(writer.book, e)}" for e in writer.recorded
    ]
    rest = f"; and {len(told) - 3} more" if len(told) > 3 else ""
    writer.say("; ".join(told[:3]) + rest)
    return event


def recorded(
    session: Session,
    events: Iterable[Event],
    *parts: Part,
    cautions: Iterable[str] = (),
    hints: Iterable[str] = (),
    warnings: Iterable[str] = (),
) -> Answer:
    """What was recorded, what to mind, and what comes next; always with the word of the vet."""
    with session.read() as book:
        rows = tuple(
            (e.id, when_words(book, e), subject_words(book, e), event_words(book, e))
            for e in events
        )
    table = Table("recorded", COLUMNS, rows, "Recorded")
    minded = paragraphs(*dict.fromkeys([*cautions, DEFER]), tone=Tone.CAUTION)
    after = paragraphs(*hints, "warmside undo (take it back)", tone=Tone.HINT)
    return Answer(parts=(table, *parts, *minded, *after), warnings=tuple(warnings))
