"""`warmside quarantine start`, `restart` and `edit`: the course of a quarantine."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from warmside.api import (
    Animal,
    Answer,
    BadInput,
    Book,
    NewEvent,
    Refused,
    StepWriter,
    Words,
    session_of,
)
from warmside.plugins.quarantine.findings import LONG, longer_advised, longer_words
from warmside.plugins.quarantine.kinds import EDITED, RESTARTED, STARTED
from warmside.plugins.quarantine.protocol import cautions
from warmside.plugins.quarantine.recording import (
    AnimalName,
    AnimalNames,
    At,
    Confirm,
    Note,
    record,
    recorded,
)
from warmside.plugins.quarantine.standing import CAME, running_of
from warmside.plugins.quarantine.stored import default_protocol, named_protocol, protocols
from warmside.plugins.quarantine.timeline import QuarantineState
from warmside.plugins.quarantine.typed_edits import typed_edits, written_edits
from warmside.plugins.quarantine.wording import standing

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
        book = writer.book
        chosen = protocol or default_protocol(book)
        named_protocol(protocols(book), chosen)
        when = session.when(at, book)
        subjects = [book.animal(a) for a in animals]
        for animal in subjects:
            _refuse_running(book, animal, when.day)
            data = {
                "protocol": chosen,
                "cause": because,
                "edits": edits,
                "arrival": _arrival(book, animal, when.day),
            }
            record(writer, STARTED, animal.id, data, when, note)
        said, warned = _standing(writer, subjects, when.day)
    hints = [*said, "warmside quarantine show"]
    return recorded(session, writer.recorded, cautions=warned, hints=hints)


def _refuse_running(book: Book, animal: Animal, on: date) -> None:
    if animal.id not in book.animals_here(on):
        raise Refused(f"{animal.label} is not here on {on}; record first how it came")
    state = running_of(book, animal.id, on)
    if state is not None:
        raise Refused(
            f"{animal.label} is in quarantine since {state.started}; to start its clock again: "
            f"warmside quarantine restart {animal.code} --because REASON; another protocol: "
            f"warmside quarantine edit {animal.code} --protocol NAME"
        )


def _arrival(book: Book, animal: Animal, on: date) -> int | None:
    """The event by which the animal came on that very day."""
    last = book.latest(*CAME, on=on)
    came = [e for kind in CAME if (e := last[kind].get(animal.id)) and e.day == on]
    return came[-1].id if came else None


def _standing(writer: StepWriter, subjects: list[Animal], on: date) -> tuple[list[str], list[str]]:
    """Hints for boas and pythons, and the protocols' cautions."""
    book = writer.reread()
    hints: list[str] = []
    warned: list[str] = []
    long = protocols(book)[LONG]
    for animal in subjects:
        state = running_of(book, animal.id, on)
        if state is not None:
            warned += cautions(state.protocol)
            if longer_advised(state, animal.species.group, long):
                hints.append(longer_words(state.protocol, long, animal.code))
    return hints, warned


def running_or_refused(book: Book, animal: Animal, on: date) -> QuarantineState:
    """The quarantine that the animal is in; raises Refused where it is in none."""
    state = running_of(book, animal.id, on)
    if state is None:
        raise Refused(
            f"{animal.label} is not in quarantine on {on}; begin one: "
            f"warmside quarantine start {animal.code}"
        )
    return state


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
        when = session.when(at, writer.book)
        for name in animals:
            animal = writer.book.animal(name)
            running_or_refused(writer.book, animal, when.day)
            record(writer, RESTARTED, animal.id, {"cause": because.strip()}, when, note)
    return recorded(session, writer.recorded, hints=["warmside quarantine show"])


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
        book = writer.book
        subject = book.animal(animal)
        when = session.when(at, book)
        running_or_refused(book, subject, when.day)
        if protocol is not None:
            _change_protocol(writer, subject, protocol, when.day)
        if edits:
            record(writer, EDITED, subject.id, {"edits": edits}, when, note)
        hints, warned = _standing(writer, [subject], when.day)
        now = running_or_refused(writer.book, subject, when.day)
    return recorded(session, writer.recorded, Words(standing(now)), cautions=warned, hints=hints)


def _change_protocol(writer: StepWriter, animal: Animal, name: str, on: date) -> None:
    """Correct the start to another protocol; the old one stays visible in the history."""
    named_protocol(protocols(writer.book), name)
    old = writer.book.latest(STARTED, on=on)[STARTED][animal.id]
    data = {**old.data, "protocol": name}
    if data == old.data:
        raise BadInput(f"{animal.label} is under protocol {name} already")
    writer.correct(old, NewEvent(STARTED, old.day, data, animal.id, at=old.at, note=old.note))
    writer.say(f"{animal.label}: quarantine under protocol {name}")
