"""`warmside done`: record what settles tasks of the round."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.commands.recording import recorded, step_words
from warmside.cli.commands.today import round_of
from warmside.cli.round_memory import remembered
from warmside.core.answers import Answer
from warmside.core.book import Book
from warmside.core.errors import BadInput, NotFound, Refused
from warmside.core.kinds import EventKind, Subject, parse_field
from warmside.core.moments import When
from warmside.core.record import NewEvent
from warmside.core.round import Stop
from warmside.core.session import session_of
from warmside.core.subjects import typed_subjects

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
        book = writer.book
        day = session.day(on, book)
        stops = round_of(book, day)
        shown = remembered(session.path, day) or [s.key for s in stops]
        when = session.when(at, book)
        events = [
            settling(book, find(stops, shown, t.name), t.value, when, note)
            for t in typed_subjects(tasks)
        ]
        made = [writer.record(e) for e in events]
        writer.say("; ".join(step_words(book, made)))
    return recorded(session, writer.recorded)


def find(stops: list[Stop], shown: list[str], number: str) -> Stop:
    """The task that was shown under that number, if it is still due."""
    if not number.isdigit() or not 1 <= int(number) <= len(shown):
        raise NotFound(f"the round has no task {number!r}; numbers are in: warmside today")
    key = shown[int(number) - 1]
    for stop in stops:
        if stop.key == key:
            return stop
    raise Refused(f"task {number} is done already; see: warmside today")


def settling(book: Book, stop: Stop, value: str, when: When, note: str) -> NewEvent:
    """The event that settles a task; a value goes to the first field that is still open."""
    task = stop.task
    if not task.settles:
        raise BadInput(f"{task.what}: do it with: {task.command or 'its own command'}")
    kind = book.host.kind(task.settles)
    data = dict(task.data)
    open_fields = [s for s in kind.fields if s.name not in data]
    if value and open_fields:
        data[open_fields[0].name] = parse_field(open_fields[0], value)
    elif value:
        raise BadInput(f"{task.what} takes no value")
    _check_complete(kind, data, task.what)
    place = stop.enclosure_id if kind.subject is Subject.ENCLOSURE else None
    animal = None if kind.subject is Subject.ENCLOSURE else task.animal_id
    return NewEvent(kind.name, when.day, kind.validate(data), animal, place, when.at, note)


def _check_complete(kind: EventKind, data: dict[str, object], what: str) -> None:
    missing = [s for s in kind.fields if s.required and s.name not in data]
    if missing:
        needed = missing[0]
        raise BadInput(
            f"{what} needs its {needed.option}: write it behind the number, "
            f"such as 3={needed.example}"
        )
