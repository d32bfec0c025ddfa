"""`warmside done`: record what settles tasks of the round."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from warmside.cli.commands.recording import recorded
from warmside.cli.round_memory import remembered
from warmside.core.answers.parts import Answer
from warmside.core.asking.ask import Ask
from warmside.core.asking.round import Stop
from warmside.core.asking.telling import step_words
from warmside.core.kinds.kind import EventKind, Subject, check_field, parse_field
from warmside.core.record.entities import NewEvent
from warmside.core.record.typed_subjects import Typed, typed_subjects
from warmside.core.session.session import session_of
from warmside.core.values.display import Display
from warmside.core.values.errors import BadInput, NotFound, Refused
from warmside.core.values.hints import quoted
from warmside.core.values.moments import When

app = typer.Typer()


@app.command("")
def done(
    context: typer.Context,
    tasks: Annotated[
        list[str], typer.Argument(help="Numbers from the round; with a value: 3=412g.")
    ],
    at: Annotated[str | None, typer.Option(help="When it was done.")] = None,
    on: Annotated[str | None, typer.Option(help="The round of that day, as for today.")] = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Annotated[bool, typer.Option(help="It is right, though it looks odd.")] = False,
) -> Answer:
    """Record the events that settle tasks of the round as it was last shown."""
    session = session_of(context)
    with session.step("tasks done", confirmed=confirm) as writer:
        book, ask = writer.book, session.asking(writer.book)
        day = session.day(on, book)
        stops = ask.round(day)
        shown = remembered(session.path, day) or [s.key for s in stops]
        when = session.when(at, book)
        typed = typed_subjects(tasks)
        events = [settling(ask, find(stops, shown, t), t, when, note) for t in typed]
        made = [writer.record(e) for e in events]
        writer.say("; ".join(step_words(ask, made)))
    return recorded(session, writer.recorded)


def find(stops: list[Stop], shown: list[str], typed: Typed) -> Stop:
    """The task that was shown under that number, if it is still due."""
    number = typed.name
    if not number.isdigit() or not 1 <= int(number) <= len(shown):
        raise NotFound(f"the round has no task {number!r}; numbers are in: warmside today")
    key = shown[int(number) - 1]
    for stop in stops:
        if stop.key == key:
            return stop
    raise Refused(f"task {number} is done already; see: warmside today")


def settling(ask: Ask, stop: Stop, typed: Typed, when: When, note: str) -> NewEvent:
    """The event that settles a task; a value goes to the first open field that can have it."""
    task = stop.task
    if not task.settles:
        raise BadInput(f"{task.what}: do it with: {task.command or 'its own command'}")
    kind = ask.kind(task.settles)
    data = dict(task.data)
    if typed.value:
        data |= _value_of(kind, data, typed.value, task.what, ask.book.home.display)
    _check_complete(kind, data, task.what, typed.name)
    place = stop.enclosure_id if kind.subject is Subject.ENCLOSURE else None
    animal = None if kind.subject is Subject.ENCLOSURE else task.about.animal_id
    return NewEvent(kind.name, when.day, kind.validate(data), animal, place, when.at, note)


def _value_of(
    kind: EventKind, data: dict[str, Any], value: str, what: str, display: Display
) -> dict[str, Any]:
    """The field that the value is for: a needed one, else the first that can have it."""
    open_fields = [s for s in kind.fields if s.name not in data]
    needed = [s for s in open_fields if s.required]
    refusals = []
    for spec in needed[:1] or open_fields:
        try:
            parsed = parse_field(spec, value, display=display)
            return {spec.name: check_field(kind.name, spec, {spec.name: parsed})}
        except BadInput as refusal:
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
