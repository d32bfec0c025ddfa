"""The event that settles a task, from what the task knows and the value that was typed for it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from msgspec import Struct

from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.round import Stop
from warmside.core.asking.rounds.shown import named
from warmside.core.doing.rounds.tasks_meant import Meant
from warmside.core.kinds.fields import FieldSpec
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.parsing import Readers, parse_field
from warmside.core.kinds.validating import check_field
from warmside.core.record.entities import NewEvent
from warmside.core.record.references import readers
from warmside.core.values.errors import BadInput, NotFound, WarmsideError
from warmside.core.values.hints import quoted
from warmside.core.values.moments import When


class Lacking(Struct, frozen=True):
    """A task that needs a value: its number, what it asks for, and how that is typed."""

    number: int
    name: str
    needed: str
    example: str

    @property
    def refusal(self) -> BadInput:
        """What is said where nobody can be asked."""
        how = f"write it behind the number, such as {self.number}={self.example}"
        return BadInput(f"{self.name} needs {self.needed}: {how}")


def lacking(ask: Ask, stop: Stop, meant: Meant) -> Lacking | None:
    """What the keeper still has to say before the task can be settled."""
    if meant.value:
        return None
    if not stop.task.settles:
        return _asked_by_its_plugin(ask, stop, meant)
    spec = _needed(ask.kind(stop.task.settles), stop)
    if spec is None:
        return None
    choices = f" ({', '.join(spec.choices)})" if spec.choices else ""
    said = f"its {spec.help}" if spec.unit else f"a word on {spec.help}{choices}"
    return Lacking(meant.number, named(ask.book, stop), said, spec.example)


def _asked_by_its_plugin(ask: Ask, stop: Stop, meant: Meant) -> Lacking | None:
    """What a task asks for that its plugin settles; nothing where a bare number will do."""
    if not stop.task.asks:
        return None
    needed, example = stop.task.asks
    return Lacking(meant.number, named(ask.book, stop), needed, example)


def check_value(ask: Ask, stop: Stop, value: str) -> None:
    """Raise what is wrong with a value for a task, before anything is recorded.

    What its plugin is told, the plugin judges when it settles the task.
    """
    if not stop.task.settles:
        return
    _value_of(ask.kind(stop.task.settles), stop, value, readers(ask.book))


def settling_event(ask: Ask, stop: Stop, meant: Meant, when: When, note: str) -> NewEvent:
    """The event that settles a task; a value goes to the first open field that can have it."""
    task, kind = stop.task, ask.kind(stop.task.settles)
    data = dict(task.data)
    if meant.value:
        data |= _value_of(kind, stop, meant.value, readers(ask.book))
    _check_complete(kind, data, task.what, meant.number)
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


def open_fields(kind: EventKind, stop: Stop) -> tuple[list[FieldSpec], list[FieldSpec]]:
    """The fields that the task leaves open: those that only the keeper can fill, then the others.

    Only the keeper can fill what its kind needs, and what the task asks for.
    """
    task = stop.task
    mine = [s for s in kind.fields if s.name not in task.data]
    needed = [s for s in mine if s.required or s.name in task.asks]
    return needed, [s for s in mine if s not in needed]


def _needed(kind: EventKind, stop: Stop) -> FieldSpec | None:
    """The first field that only the keeper can fill."""
    return next(iter(open_fields(kind, stop)[0]), None)


def _value_of(kind: EventKind, stop: Stop, value: str, readers: Readers) -> Mapping[str, Any]:
    """The field that the value is for: a needed one, else the first that can have it."""
    open_fields = [s for s in kind.fields if s.name not in stop.task.data]
    needed = _needed(kind, stop)
    refusals: list[WarmsideError] = []
    for spec in [needed] if needed else open_fields:
        try:
            parsed = parse_field(spec, value, readers)
            return {spec.name: check_field(kind.name, spec, {spec.name: parsed})}
        except (BadInput, NotFound) as refusal:
            refusals.append(refusal)
    if len(refusals) == 1:
        raise refusals[0]
    said = f"{stop.task.what}: {quoted(value)} cannot be recorded with it"
    if not open_fields:
        raise BadInput(f"{said}; it takes no value, type the number alone")
    raise BadInput(f"{said}; it takes: {', '.join(s.option for s in open_fields)}")


def _check_complete(kind: EventKind, data: Mapping[str, Any], what: str, number: int) -> None:
    """Raise where a second field is needed, which one value cannot fill."""
    missing = [s for s in kind.fields if s.required and s.name not in data]
    if missing:
        raise BadInput(
            f"{what} ({number}) also needs {missing[0].option} ({missing[0].help}): "
            f"record it with: warmside record {kind.name}"
        )
