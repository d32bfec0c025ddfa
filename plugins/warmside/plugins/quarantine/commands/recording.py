"""Recording events of quarantines from commands, and the answer that says what was recorded."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Annotated, Any

import typer
from msgspec.structs import replace

from warmside.api import (
    Animal,
    Answer,
    Ask,
    Event,
    NewEvent,
    Part,
    Session,
    StepWriter,
    Tone,
    When,
    paragraphs,
    recorded,
)
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.entry.refusing import not_in_quarantine
from warmside.plugins.quarantine.reading.standing import running_of
from warmside.plugins.quarantine.telling.wording import DEFER

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
AnimalNames = Annotated[list[str], typer.Argument(help="Codes or names of the animals.")]
At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday, 08:30 …")]
Note = Annotated[str, typer.Option(help="A note.")]
Confirm = Annotated[bool, typer.Option(help="It is right, though it looks odd.")]
MOST_TOLD = 3


def running_or_refused(ask: Ask, animal: Animal, on: date) -> QuarantineState:
    """The quarantine that the animal is in; raises Refused where it is in none."""
    state = running_of(ask, animal.id, on)
    if state is None:
        raise not_in_quarantine(animal, on)
    return state


def meant(
    session: Session, writer: StepWriter, animal: str, at: str | None
) -> tuple[Ask, Animal, When]:
    """What a command that writes of one animal needs: what to ask, of whom, and when."""
    ask = session.asking(writer.book)
    return ask, ask.book.animal(animal), session.when(at, ask.book)


def named(ask: Ask, names: Iterable[str]) -> list[Animal]:
    """The animals of these codes or names, each once."""
    found = [ask.book.animal(name) for name in names]
    return list({animal.id: animal for animal in found}.values())


def record(
    writer: StepWriter,
    ask: Ask,
    kind: str,
    animal: Animal,
    data: Mapping[str, Any],
    when: When,
    note: str = "",
) -> Event:
    """Record one event of a quarantine, and say it as the step's words."""
    event = writer.record(NewEvent(kind, when.day, data, animal.id, at=when.at, note=note))
    told = [f"{ask.subject_words(e)}: {ask.event_words(e)}" for e in writer.recorded]
    rest = f"; and {len(told) - MOST_TOLD} more" if len(told) > MOST_TOLD else ""
    writer.say("; ".join(told[:MOST_TOLD]) + rest)
    return event


def answered(
    session: Session,
    writer: StepWriter,
    *parts: Part,
    cautions: Iterable[str] = (),
    hints: Iterable[str] = (),
    warnings: Iterable[str] = (),
) -> Answer:
    """What was recorded, what to mind, and what comes next; always with the word of the vet."""
    minded = paragraphs(*dict.fromkeys([*cautions, DEFER]), tone=Tone.CAUTION)
    after = paragraphs(*hints, tone=Tone.HINT)
    with session.ask() as ask:
        answer = recorded(ask, writer.recorded, *parts, *minded, *after)
    return replace(answer, warnings=tuple(warnings))
