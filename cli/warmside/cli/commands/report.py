"""`warmside report`: an animal's whole story, for a vet, a sitter or the next owner."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from warmside.cli.commands.animal import Name
from warmside.cli.commands.animal_card import identity, kin, places
from warmside.cli.commands.recording import EVENT_COLUMNS, event_row
from warmside.cli.commands.today import findings_table
from warmside.core.answers.parts import Answer, Part, Section, Table, Tone, Words
from warmside.core.asking.ask import Ask
from warmside.core.record.entities import Animal
from warmside.core.session.session import session_of
from warmside.core.values.about import About

app = typer.Typer()

DEFER = (
    "A record of what the keeper noted, not a diagnosis. Health questions belong to a vet who "
    "treats reptiles."
)


@app.command("")
def report(
    context: typer.Context,
    animal: Name,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
    last: Annotated[int, typer.Option(help="At most so many events, the newest.")] = 100,
) -> Answer:
    """An animal's whole story; as a PDF with --save FILE.pdf."""
    session = session_of(context)
    with session.ask() as ask:
        subject = ask.book.animal(animal)
        return told(ask, subject, session.day(on, ask.book), last)


def told(ask: Ask, animal: Animal, on: date, last: int) -> Answer:
    """The report as an answer: identity, plugins' sections, findings, history."""
    book = ask.book
    events = book.events(animal=animal.id, until=on)
    rows = tuple(event_row(ask, e) for e in events[-last:])
    history = Table("events", EVENT_COLUMNS, rows)
    more = f" (the last {last} of {len(events)})" if len(events) > last else ""
    whole = [
        *ask.sections(About(animal.id), on),
        Section("Findings", findings_of(ask, animal, on), 800),
        Section(f"History{more}", (history,), 900),
    ]
    caution = Words(DEFER, Tone.CAUTION)
    parts: tuple[Part, ...] = (
        caution,
        *identity(book, animal),
        *kin(book, animal),
        places(book, animal),
    )
    ordered = tuple(sorted(whole, key=lambda s: (s.order, s.title)))
    return Answer(f"{animal.label}, as of {on}", parts, ordered)


def findings_of(ask: Ask, animal: Animal, on: date) -> tuple[Part, ...]:
    """What plugins found about the animal."""
    mine = ask.findings(on, About(animal.id))
    return (findings_table(ask.book, mine, title=""),) if mine else (Words("none"),)
