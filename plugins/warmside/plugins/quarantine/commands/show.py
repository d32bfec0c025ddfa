"""`warmside quarantine show`: who is in quarantine, and what each one waits for."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from warmside.api import (
    About,
    Animal,
    Answer,
    Ask,
    Fact,
    Kind,
    Part,
    Tone,
    Words,
    paragraphs,
    session_of,
)
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.findings.company import room_unknown_words
from warmside.plugins.quarantine.findings.course import LONG, longer_advised, longer_words
from warmside.plugins.quarantine.reading.standing import (
    courses,
    ended,
    positives,
    quarantines_of,
    running_of,
    troubles,
)
from warmside.plugins.quarantine.reading.stored import protocols
from warmside.plugins.quarantine.reading.tool_groups import group_names
from warmside.plugins.quarantine.telling.details import details_of, facts_of
from warmside.plugins.quarantine.telling.sections import deferring
from warmside.plugins.quarantine.telling.tables import ended_table, quarantines_table
from warmside.plugins.quarantine.telling.timeline import timeline_of
from warmside.plugins.quarantine.telling.wording import standing


def show(
    context: typer.Context,
    animal: Annotated[str | None, typer.Argument(help="Code or name; none means all.")] = None,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
    with_ended: Annotated[
        bool, typer.Option("--ended", help="Also quarantines that ended.")
    ] = False,
) -> Answer:
    """The quarantines as a timeline: day n of m, earliest end, what is missing."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        if animal is None:
            return _all(ask, day, with_ended)
        return _one(ask, ask.book.animal(animal), day)


def _all(ask: Ask, on: date, with_ended: bool) -> Answer:
    rows = [(animal.code, state) for animal, state in courses(ask, on)]
    parts: list[Part] = [timeline_of(rows, on)] if rows else []
    parts.append(quarantines_table(rows))
    if with_ended:
        parts.append(ended_table((animal.code, s) for animal, s in ended(ask, on)))
    parts += deferring(s for _, s in rows)
    if not rows:
        parts += paragraphs("warmside quarantine start ANIMAL", tone=Tone.HINT)
    warnings = tuple(f"{animal.label}: {words}" for animal, words in troubles(ask, on))
    return Answer(f"Quarantine on {on}", tuple(parts), warnings=warnings)


def _one(ask: Ask, animal: Animal, on: date) -> Answer:
    states = quarantines_of(ask, animal.id, on)
    state = running_of(ask, animal.id, on)
    rows = [(animal.code, s) for s in states]
    identity: list[Part] = [
        Fact("animal", "animal", animal.code, Kind.CODE),
        Fact("in_quarantine", "in quarantine", state is not None, Kind.YESNO),
    ]
    parts = [*identity, *(facts_of(state, group_names(ask, on)[animal.id]) if state else ())]
    if rows:
        parts.append(timeline_of(rows, on))
    if state is not None:
        parts += [Words(standing(state)), *details_of(state)]
    if any(not s.running for s in states):
        parts.append(ended_table(rows))
    parts += deferring([state] if state else [])
    parts += paragraphs(*_next(ask, animal, state, on), tone=Tone.HINT)
    return Answer(f"{animal.label}, quarantine on {on}", tuple(parts))


def _next(ask: Ask, animal: Animal, state: QuarantineState | None, on: date) -> list[str]:
    if state is None:
        here = animal.id in ask.book.animals_here(on)
        return (
            [*_visit(ask, animal, on), f"warmside quarantine start {animal.code}"] if here else []
        )
    if state.positives:
        return _visit(ask, animal, on)
    long = protocols(ask)[LONG]
    hints = []
    place = ask.book.enclosures.get(ask.book.animals_here(on)[animal.id].enclosure_id or 0)
    if place is not None and not place.room.strip():
        hints.append(room_unknown_words(place.code))
    advised = longer_advised(state, animal, long)
    hints += [longer_words(state.protocol, long, animal.code)] if advised else []
    if state.ready:
        hints.append(f"warmside quarantine release {animal.code} --to ENCLOSURE")
    return hints


def _visit(ask: Ask, animal: Animal, on: date) -> list[str]:
    """How to record a vet visit, where a positive result waits for one."""
    if not positives(ask, on, About(animal.id)):
        return []
    return [f"warmside record examined {animal.code} --told WORDS (once a vet has seen it)"]
