"""`warmside quarantine release`: the end of a quarantine, and the move that goes with it."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Animal,
    Answer,
    Ask,
    BadInput,
    Enclosure,
    NewEvent,
    StepWriter,
    When,
    session_of,
)
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.commands.recording import (
    AnimalName,
    At,
    Confirm,
    Note,
    answered,
    meant,
    record,
    running_or_refused,
)
from warmside.plugins.quarantine.entry.refusing import still_missing
from warmside.plugins.quarantine.kinds import RELEASED
from warmside.plugins.quarantine.protocol.typed import terms_of
from warmside.plugins.quarantine.reading.company import met_in
from warmside.plugins.quarantine.reading.stored import originals
from warmside.plugins.quarantine.telling.wording import DEFER


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
        ask, subject, when = meant(session, writer, animal, at)
        state = running_or_refused(ask, subject, when.day)
        place = _target(ask, to)
        reason = _reason(state, subject, override)
        warnings = _company(ask, subject, place, when)
        _release(writer, ask, state, subject, place, when, reason, note)
    cautions = [_overridden(reason)] if state.missing else []
    return answered(session, writer, cautions=cautions, warnings=warnings)


def released(writer: StepWriter, ask: Ask, animal_id: int, to: str, when: When, note: str) -> str:
    """Release an animal of which nothing is missing, as a task of the round; what to mind."""
    subject = ask.book.animals[animal_id]
    state, place = running_or_refused(ask, subject, when.day), _target(ask, to)
    reason, met = _reason(state, subject, None), _company(ask, subject, place, when)
    _release(writer, ask, state, subject, place, when, reason, note)
    return ". ".join([DEFER, *met])


def _release(
    writer: StepWriter,
    ask: Ask,
    state: QuarantineState,
    subject: Animal,
    place: Enclosure,
    when: When,
    reason: str,
    note: str,
) -> None:
    data = {
        "to": place.code,
        "reason": reason,
        "missing": "; ".join(m.words for m in state.missing),
        "terms": terms_of(state.protocol, originals(ask.book)[state.protocol.name]),
    }
    record(writer, ask, RELEASED, subject, data, when, note)
    _move(writer, subject, place, when)


def _target(ask: Ask, to: str) -> Enclosure:
    if not to.strip():
        raise BadInput("name the enclosure that it goes to: --to ENCLOSURE")
    return ask.book.enclosure(to)


def _reason(state: QuarantineState, animal: Animal, override: str | None) -> str:
    """The reason of an override; raises Refused while something is missing without one."""
    if override is not None and not override.strip():
        raise BadInput("an override needs its reason: --override REASON")
    if state.missing and override is None:
        raise still_missing([m.words for m in state.missing], animal)
    return override.strip() if override and state.missing else ""


def _company(ask: Ask, animal: Animal, place: Enclosure, when: When) -> list[str]:
    """A message where animals in quarantine share the air of the target enclosure."""
    met = ", ".join(met_in(ask, place, when.day, but=animal.id))
    return [f"in {place.code} and its room it meets animals in quarantine: {met}"] if met else []


def _move(writer: StepWriter, animal: Animal, place: Enclosure, when: When) -> None:
    if writer.book.whereabouts_of(animal.id, when.day).enclosure_id == place.id:
        return
    data = {"reason": "released from quarantine"}
    writer.record(NewEvent("moved", when.day, data, animal.id, place.id, when.at))


def _overridden(reason: str) -> str:
    return f"released while something was missing; the reason stays on record: {reason}"
