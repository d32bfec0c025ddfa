"""Settling tasks of the round: by the event that each asks for, or through its plugin."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from msgspec import Struct

from warmside.core.answers.parts import Answer, paragraphs
from warmside.core.asking.ask import Ask
from warmside.core.asking.recorded import recorded
from warmside.core.asking.round import Stop
from warmside.core.asking.telling import step_words
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.parsing import Readers, parse_field
from warmside.core.kinds.validating import check_field
from warmside.core.record.entities import NewEvent
from warmside.core.record.references import readers
from warmside.core.record.steps import StepWriter
from warmside.core.record.typed_subjects import Typed, typed_subjects
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, NotFound, Refused, WarmsideError
from warmside.core.values.hints import quoted
from warmside.core.values.moments import When


class Settling(Struct, frozen=True):
    """Tasks by their numbers, with a value where one is typed: `3=412g`.

    `shown` holds the keys of the tasks as they were numbered when the keeper saw them; None where
    that is not known.
    """

    tasks: tuple[str, ...]
    shown: Sequence[str] | None = None
    on: str | None = None
    at: str | None = None
    note: str = ""
    confirmed: bool = False


def settle(session: Session, wanted: Settling) -> Answer:
    """Record what settles the tasks, all in one step."""
    with session.step("tasks done", confirmed=wanted.confirmed) as writer:
        ask = session.asking(writer.book)
        stops = ask.round(session.day(wanted.on, ask.book))
        shown = wanted.shown or [s.key for s in stops]
        when = session.when(wanted.at, ask.book)
        typed = [(_found(stops, shown, t), t) for t in typed_subjects(wanted.tasks)]
        events = [_settling(ask, s, t, when, wanted.note) for s, t in typed if s.task.settles]
        made = [writer.record(e) for e in events]
        own = [(s, t) for s, t in typed if not s.task.settles]
        words = [w for s, t in own for w in _own(writer, ask, s, t, when, wanted.note)]
        writer.say("; ".join([*step_words(ask, made), *words]))
    with session.ask() as ask:
        return recorded(ask, writer.recorded, *paragraphs(*words))


def _found(stops: list[Stop], shown: Sequence[str], typed: Typed) -> Stop:
    """The task that was shown under that number, if it is still due."""
    number = typed.name
    if not number.isdecimal() or not 1 <= int(number) <= len(shown):
        raise NotFound(f"the round has no task {quoted(number)!r}; numbers are in: warmside today")
    key = shown[int(number) - 1]
    for stop in stops:
        if stop.key == key:
            return stop
    raise Refused(f"task {number} is done already; see: warmside today")


def _own(
    writer: StepWriter, ask: Ask, stop: Stop, typed: Typed, when: When, note: str
) -> list[str]:
    """What the task's own plugin wrote to settle it, in the keeper's words.

    A value that the plugin would not see is a slip of the number, and must not settle another task.
    """
    task = stop.task
    if typed.value and not ask.host.takes(stop.plugin, "warmside_settle", "value"):
        said = f"{task.what} takes no value, not {quoted(typed.value)}"
        raise BadInput(f"{said}; look at the number again, or leave the value out")
    found = ask.host.require(
        "warmside_settle",
        str,
        only=stop.plugin,
        writer=writer,
        ask=ask,
        task=task,
        value=typed.value,
        when=when,
        note=note,
    )
    if not found:
        raise BadInput(f"{task.what}: do it with: {task.command or 'its own command'}")
    return [words for _, words in found]


def _settling(ask: Ask, stop: Stop, typed: Typed, when: When, note: str) -> NewEvent:
    """The event that settles a task; a value goes to the first open field that can have it."""
    task, kind = stop.task, ask.kind(stop.task.settles)
    data = dict(task.data)
    if typed.value:
        data |= _value_of(kind, data, typed.value, task.what, readers(ask.book))
    _check_complete(kind, data, task.what, typed.name)
    of_enclosure = kind.subject is Subject.ENCLOSURE
    return NewEvent(
        kind.name,
        when.day,
        kind.validate(data),
        None if of_enclosure else task.about.animal_id,
        stop.enclosure_id if of_enclosure else None,
        when.at,
        note,
    )


def _value_of(
    kind: EventKind, data: dict[str, Any], value: str, what: str, readers: Readers
) -> dict[str, Any]:
    """The field that the value is for: a needed one, else the first that can have it."""
    open_fields = [s for s in kind.fields if s.name not in data]
    needed = [s for s in open_fields if s.required]
    refusals: list[WarmsideError] = []
    for spec in needed[:1] or open_fields:
        try:
            parsed = parse_field(spec, value, readers)
            return {spec.name: check_field(kind.name, spec, {spec.name: parsed})}
        except (BadInput, NotFound) as refusal:
            refusals.append(refusal)
    if len(refusals) == 1:
        raise refusals[0]
    takes = ", ".join(s.option for s in open_fields) or "nothing more"
    raise BadInput(f"{what} cannot have {quoted(value)}; it takes: {takes}")


def _check_complete(kind: EventKind, data: dict[str, Any], what: str, number: str) -> None:
    missing = [s for s in kind.fields if s.required and s.name not in data]
    if missing:
        needed = missing[0]
        raise BadInput(
            f"{what} needs its {needed.option} ({needed.help}): write it behind the number, "
            f"such as {number}={needed.example}"
        )
