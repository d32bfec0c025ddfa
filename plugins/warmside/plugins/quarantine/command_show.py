"""`warmside quarantine show`: who is in quarantine, and what each one waits for."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from warmside.api import Animal, Answer, Book, Fact, Kind, Part, Tone, Words, paragraphs, session_of
from warmside.plugins.quarantine import telling
from warmside.plugins.quarantine.findings import LONG, longer_advised, longer_words
from warmside.plugins.quarantine.kinds import RELEASED
from warmside.plugins.quarantine.standing import quarantines_of, running_of
from warmside.plugins.quarantine.standing import standing as all_standing
from warmside.plugins.quarantine.stored import protocols
from warmside.plugins.quarantine.timeline import QuarantineState
from warmside.plugins.quarantine.wording import standing


def show(
    context: typer.Context,
    animal: Annotated[str | None, typer.Argument(help="Code or name; none means all.")] = None,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
    ended: Annotated[bool, typer.Option("--ended", help="Also quarantines that ended.")] = False,
) -> Answer:
    """The quarantines as a timeline: day n of m, earliest end, what is missing."""
    session = session_of(context)
    with session.read() as book:
        day = session.day(on, book)
        if animal is None:
            return _all(book, day, ended)
        return _one(book, book.animal(animal), day)


def _all(book: Book, on: date, ended: bool) -> Answer:
    now = all_standing(book, on)
    rows = [(book.animals[a].code, s) for a, s in now.states.items()]
    parts: list[Part] = [telling.timeline_of(rows, on)] if rows else []
    parts.append(telling.quarantines_table(rows))
    if ended:
        parts.append(telling.ended_table(_ended(book, on)))
    parts += telling.deferring(s for _, s in rows)
    if not rows:
        parts += paragraphs("warmside quarantine start ANIMAL", tone=Tone.HINT)
    warnings = tuple(f"{book.animals[a].label}: {w}" for a, w in now.troubles.items())
    return Answer(f"Quarantine on {on}", tuple(parts), warnings=warnings)


def _ended(book: Book, on: date) -> list[tuple[str, QuarantineState]]:
    released = book.latest(RELEASED, on=on)[RELEASED]
    return [
        (book.animals[a].code, s)
        for a in book.animals
        if a in released
        for s in quarantines_of(book, a, on)
        if not s.running
    ]


def _one(book: Book, animal: Animal, on: date) -> Answer:
    states = quarantines_of(book, animal.id, on)
    state = running_of(book, animal.id, on)
    rows = [(animal.code, s) for s in states]
    identity: list[Part] = [
        Fact("animal", "animal", animal.code, Kind.CODE),
        Fact("in_quarantine", "in quarantine", state is not None, Kind.YESNO),
    ]
    parts = [*identity, *(telling.facts_of(state) if state else ())]
    if rows:
        parts.append(telling.timeline_of(rows, on))
    if state is not None:
        parts += [Words(standing(state)), *telling.details_of(state)]
    if any(not s.running for s in states):
        parts.append(telling.ended_table(rows))
    parts += telling.deferring([state] if state else [])
    parts += paragraphs(*_next(book, animal, state), tone=Tone.HINT)
    return Answer(f"{animal.label}, quarantine on {on}", tuple(parts))


def _next(book: Book, animal: Animal, state: QuarantineState | None) -> list[str]:
    if state is None:
        return [f"warmside quarantine start {animal.code}"]
    long = protocols(book)[LONG]
    advised = longer_advised(state, animal.species.group, long)
    hints = [longer_words(state.protocol, long, animal.code)] if advised else []
    if state.ready:
        hints.append(f"warmside quarantine release {animal.code} --to ENCLOSURE")
    return hints
