"""`warmside quarantine start`, `restart` and `edit`: the course of a quarantine."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Annotated

import typer

from warmside.api import (
    About,
    Animal,
    Answer,
    Ask,
    BadInput,
    NewEvent,
    Refused,
    StepWriter,
    Words,
    session_of,
)
from warmside.plugins.quarantine.commands.recording import (
    AnimalName,
    AnimalNames,
    At,
    Confirm,
    Note,
    answered,
    meant,
    named,
    record,
    running_or_refused,
)
from warmside.plugins.quarantine.findings.course import LONG, longer_advised, longer_words
from warmside.plugins.quarantine.kinds import EDITED, RESTARTED, STARTED
from warmside.plugins.quarantine.protocol.terms import cautions, named_protocol
from warmside.plugins.quarantine.protocol.typed import typed_edits, written_edits
from warmside.plugins.quarantine.reading.coming import arrival_on
from warmside.plugins.quarantine.reading.standing import running_of
from warmside.plugins.quarantine.reading.stored import default_protocol, protocols
from warmside.plugins.quarantine.telling.wording import standing

Values = Annotated[
    list[str] | None,
    typer.Option("--set", help="A value for this animal: days=120, tests.faecal.negatives=4 …"),
]


def start(
    context: typer.Context,
    animals: AnimalNames,
    protocol: Annotated[str | None, typer.Option(help="Name of the protocol.")] = None,
    because: Annotated[str, typer.Option(help="Why it begins.")] = "begun by the keeper",
    values: Values = None,
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Begin a quarantine. A newcomer's begins by itself when its arrival is recorded."""
    session = session_of(context)
    edits = written_edits(typed_edits(values or ()))
    with session.step("quarantine begun", confirmed=confirm) as writer:
        ask = session.asking(writer.book)
        if protocol is not None:
            named_protocol(protocols(ask), protocol)
        when = session.when(at, ask.book)
        subjects = named(ask, animals)
        for animal in subjects:
            _refuse_running(ask, animal, when.day)
            data = {
                "protocol": protocol or default_protocol(ask, About(animal.id)),
                "cause": because,
                "edits": edits,
                "arrival": arrival_on(ask.book, animal.id, when.day),
            }
            record(writer, ask, STARTED, animal, data, when, note)
        said, warned = _advice(session.asking(writer.reread()), subjects, when.day)
    return answered(session, writer, cautions=warned, hints=[*said, "warmside quarantine show"])


def _refuse_running(ask: Ask, animal: Animal, on: date) -> None:
    if animal.id not in ask.book.animals_here(on):
        raise Refused(f"{animal.label} is not here on {on}; record first how it came")
    state = running_of(ask, animal.id, on)
    if state is not None:
        raise Refused(
            f"{animal.label} is in quarantine since {state.started}; to start its clock again: "
            f"warmside quarantine restart {animal.code} --because REASON; another protocol: "
            f"warmside quarantine edit {animal.code} --protocol NAME"
        )


def _advice(ask: Ask, subjects: Iterable[Animal], on: date) -> tuple[list[str], list[str]]:
    """Hints for boas and pythons, and the protocols' cautions."""
    hints: list[str] = []
    warned: list[str] = []
    long = protocols(ask)[LONG]
    for animal in subjects:
        state = running_of(ask, animal.id, on)
        if state is not None:
            warned += cautions(state.protocol)
            if longer_advised(state, animal, long):
                hints.append(longer_words(state.protocol, long, animal.code))
    return hints, warned


def restart(
    context: typer.Context,
    animals: AnimalNames,
    because: Annotated[str, typer.Option(help="Why the clock starts again.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Start the clock of a running quarantine again, and say why."""
    session = session_of(context)
    if not because.strip():
        raise BadInput("say why the clock starts again: --because REASON")
    with session.step("quarantine restarted", confirmed=confirm) as writer:
        ask = session.asking(writer.book)
        when = session.when(at, ask.book)
        for animal in named(ask, animals):
            running_or_refused(ask, animal, when.day)
            record(writer, ask, RESTARTED, animal, {"cause": because.strip()}, when, note)
    return answered(session, writer, hints=["warmside quarantine show"])


def edit(
    context: typer.Context,
    animal: AnimalName,
    values: Values = None,
    protocol: Annotated[
        str | None, typer.Option(help="Another protocol, as if begun with it.")
    ] = None,
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Change the terms of one animal's quarantine: single values, or the protocol."""
    session = session_of(context)
    edits = written_edits(typed_edits(values or ()))
    if not edits and protocol is None:
        raise BadInput("name what changes: --set days=120, or --protocol long")
    with session.step("quarantine terms", confirmed=confirm) as writer:
        ask, subject, when = meant(session, writer, animal, at)
        running_or_refused(ask, subject, when.day)
        if protocol is not None:
            _change_protocol(writer, ask, subject, protocol, when.day)
        if edits:
            record(writer, ask, EDITED, subject, {"edits": edits}, when, note)
        changed = session.asking(writer.reread())
        hints, warned = _advice(changed, [subject], when.day)
        now = running_or_refused(changed, subject, when.day)
    return answered(session, writer, Words(standing(now)), cautions=warned, hints=hints)


def _change_protocol(writer: StepWriter, ask: Ask, animal: Animal, name: str, on: date) -> None:
    """Correct the start to another protocol; the old one stays visible in the history."""
    named_protocol(protocols(ask), name)
    old = ask.book.latest_of(animal.id, STARTED, on=on)[STARTED]
    data = {**old.data, "protocol": name}
    if data == old.data:
        raise BadInput(f"{animal.label} is under protocol {name} already")
    writer.correct(old, NewEvent(STARTED, old.day, data, animal.id, at=old.at, note=old.note))
    writer.say(f"{animal.label}: quarantine under protocol {name}")
