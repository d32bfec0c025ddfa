"""`warmside quarantine release`: the end of a quarantine, and the move that goes with it."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Animal,
    Answer,
    BadInput,
    Book,
    Enclosure,
    NewEvent,
    StepWriter,
    When,
    session_of,
)
from warmside.plugins.quarantine.command_course import running_or_refused
from warmside.plugins.quarantine.kinds import RELEASED
from warmside.plugins.quarantine.recording import AnimalName, At, Confirm, Note, record, recorded
from warmside.plugins.quarantine.standing import standing
from warmside.plugins.quarantine.stays import air_of
from warmside.plugins.quarantine.stored import originals
from warmside.plugins.quarantine.timeline import QuarantineState
from warmside.plugins.quarantine.typed_edits import terms_of
from warmside.plugins.quarantine.validity import refused_for


def release(
    context: typer.Context,
    animal: AnimalName,
    to: Annotated[str, typer.Option(help="The enclosure it goes to.")] = "",
    override: Annotated[
        str | None, typer.Option(help="Reason to release it while something is missing.")
    ] = None,
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """End a quarantine and move the animal; refused while something is missing."""
    session = session_of(context)
    with session.step("released from quarantine", confirmed=confirm) as writer:
        book = writer.book
        subject = book.animal(animal)
        when = session.when(at, book)
        state = running_or_refused(book, subject, when.day)
        place = _target(book, to)
        reason = _reason(state, subject, override)
        warnings = _company(book, subject, place, when)
        data = {
            "to": place.code,
            "reason": reason,
            "missing": "; ".join(m.words for m in state.missing),
            "terms": terms_of(state.protocol, originals(book)[state.protocol.name]),
        }
        record(writer, RELEASED, subject.id, data, when, note)
        _move(writer, subject, place, when)
    cautions = [_overridden(reason)] if state.missing else []
    return recorded(session, writer.recorded, cautions=cautions, warnings=warnings)


def _target(book: Book, to: str) -> Enclosure:
    if not to.strip():
        raise BadInput("name the enclosure that it goes to: --to ENCLOSURE")
    return book.enclosure(to)


def _reason(state: QuarantineState, animal: Animal, override: str | None) -> str:
    """The reason of an override; raises Refused while something is missing without one."""
    if override is not None and not override.strip():
        raise BadInput("an override needs its reason: --override REASON")
    if state.missing and override is None:
        raise refused_for([m.words for m in state.missing], animal.label, animal.code)
    return override.strip() if override and state.missing else ""


def _company(book: Book, animal: Animal, place: Enclosure, when: When) -> list[str]:
    """A message where animals in quarantine share the air of the target enclosure."""
    here, air = book.animals_here(when.day), air_of(place)
    homes = {a: here[a].enclosure_id for a in standing(book, when.day).states if a != animal.id}
    met = [a for a, e in homes.items() if e is not None and air_of(book.enclosures[e]) == air]
    labels = ", ".join(book.animals[a].label for a in met)
    return [f"in {place.code} and its room it meets animals in quarantine: {labels}"] if met else []


def _move(writer: StepWriter, animal: Animal, place: Enclosure, when: When) -> None:
    if writer.book.whereabouts(when.day)[animal.id].enclosure_id == place.id:
        return
    data = {"reason": "released from quarantine"}
    writer.record(NewEvent("moved", when.day, data, animal.id, place.id, when.at))


def _overridden(reason: str) -> str:
    return f"released while something was missing; the reason stays on record: {reason}"
