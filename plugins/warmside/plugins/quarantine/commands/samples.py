"""`warmside quarantine sample`, `result` and `check`: tests and looks."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from warmside.api import Animal, Answer, Ask, BadInput, Event, NotFound, session_of
from warmside.plugins.quarantine.clock.restarts import MITES
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
from warmside.plugins.quarantine.kinds import CHECKED, RESULTED, SAMPLED
from warmside.plugins.quarantine.odds.methods import methods
from warmside.plugins.quarantine.protocol.mites import recheck_days
from warmside.plugins.quarantine.reading.events import awaited
from warmside.plugins.quarantine.reading.standing import running_of

POSITIVE = "a positive result is for a reptile vet to judge; keep the animal apart and ask today"


def sample(
    context: typer.Context,
    animal: AnimalName,
    test: Annotated[str, typer.Argument(help="Which test of the protocol: faecal …")],
    method: Annotated[str, typer.Option(help="Which method: flotation, smear …")] = "",
    laboratory: Annotated[str, typer.Option(help="Sent to whom.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Record that a sample was taken for a test."""
    session = session_of(context)
    with session.step("sample taken", confirmed=confirm) as writer:
        ask, subject, when = meant(session, writer, animal, at)
        state = running_or_refused(ask, subject, when.day)
        data = {"test": test, "method": method, "laboratory": laboratory}
        made = record(writer, ask, SAMPLED, subject, data, when, note)
    hint = f"warmside quarantine result {subject.code} negative --sample {made.id} (when it comes)"
    said = [*_too_early(state, test, when.day), *_not_studied(subject, method)]
    return answered(session, writer, hints=[hint], warnings=said)


def _not_studied(animal: Animal, key: str) -> list[str]:
    """A message where the method says nothing about animals like this one."""
    found = next((m for m in methods() if m.key == key), None)
    if found is None or found.applies_to(animal.species.group):
        return []
    return [
        f"{found.title} was studied in {found.of} only; a negative says nothing of a "
        f"{animal.species.group}: ask the vet which test fits"
    ]


def _too_early(state: QuarantineState, test: str, on: date) -> list[str]:
    """A message where the sample does not count toward release."""
    progress = next((p for p in state.tests if p.test.name == test), None)
    if progress is None:
        return []
    if progress.possible_since is None:
        return [f"no further sample of {test} is wanted under this protocol; it is kept on record"]
    if progress.possible_since > on:
        return [f"for release, a sample of {test} counts from {progress.possible_since} on"]
    return []


def result(
    context: typer.Context,
    animal: AnimalName,
    outcome: Annotated[str, typer.Argument(help="negative, positive or unclear.")],
    sample: Annotated[int | None, typer.Option(help="Number of the sample's event.")] = None,
    test: Annotated[str | None, typer.Option(help="Which test, if several are awaited.")] = None,
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Record the result of a sample."""
    session = session_of(context)
    with session.step("test result", confirmed=confirm) as writer:
        ask, subject, when = meant(session, writer, animal, at)
        number = sample or _awaited(ask, subject, test).id
        data = {"outcome": outcome, "sample": number}
        record(writer, ask, RESULTED, subject, data, when, note)
    hints = [f"warmside quarantine show {subject.code}"]
    cautions = [POSITIVE] if outcome == "positive" else []
    return answered(session, writer, cautions=cautions, hints=hints)


def _awaited(ask: Ask, animal: Animal, test: str | None) -> Event:
    """The one sample that waits for a result."""
    samples = [s for s in awaited(ask.book, animal.id) if test in (None, s.data["test"])]
    if not samples:
        which = f"sample of {test}" if test else "sample"
        raise NotFound(
            f"no {which} of {animal.label} waits for a result; record one: "
            f"warmside quarantine sample {animal.code} faecal; or name it with --sample"
        )
    if len(samples) > 1:
        listed = ", ".join(f"{s.id} ({s.data['test']}, {s.day})" for s in samples)
        raise BadInput(
            f"{len(samples)} samples wait for a result; name one with --sample: {listed}"
        )
    return samples[0]


def check(
    context: typer.Context,
    animal: AnimalName,
    checks: Annotated[list[str], typer.Argument(help="Which checks: mites, breathing …")],
    found: Annotated[bool, typer.Option(help="Something was seen.")] = False,
    what: Annotated[str, typer.Option(help="What was seen.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Record checks of the protocol, clean unless --found."""
    session = session_of(context)
    if found and len(checks) > 1:
        raise BadInput("with --found name the one check in which something was seen")
    if what and not found:
        raise BadInput("with --what add --found; for anything else there is --note")
    with session.step("quarantine check", confirmed=confirm) as writer:
        ask, subject, when = meant(session, writer, animal, at)
        for name in checks:
            data = {"check": name, "found": found, "what": what}
            record(writer, ask, CHECKED, subject, data, when, note)
        state = running_of(session.asking(writer.reread()), subject.id, when.day)
    return answered(session, writer, cautions=_after_finding(state, checks, found, when.day))


def _after_finding(
    state: QuarantineState | None, checks: list[str], found: bool, on: date
) -> list[str]:
    if not found:
        return []
    if MITES in checks and state is not None:
        days = recheck_days(on, state.protocol.rechecks)
        return [
            f"look for mites again {len(days)} times from {days[0]} to {days[-1]}; every animal "
            "that shared air or tools may carry them; treatment is for a reptile vet to choose"
        ]
    return ["what was seen is for a reptile vet to judge"]
