"""Settling tasks of the round: by the event that each asks for, or through its plugin."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.answers.parts import Answer, paragraphs
from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.round import Stop
from warmside.core.asking.rounds.shown import Shown, shown_round
from warmside.core.asking.subjects.recorded import recorded
from warmside.core.asking.telling import step_words
from warmside.core.doing.rounds.settled_by import Lacking, check_value, lacking, settling_event
from warmside.core.doing.rounds.tasks_meant import ALL, Meant, tasks_meant
from warmside.core.record.steps import StepWriter
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, Refused, WarmsideError
from warmside.core.values.hints import quoted
from warmside.core.values.moments import When

SEE_FIRST = "look at the round first, so that it is known what `all` is: warmside today"


class Settling(Struct, frozen=True):
    """Tasks by number, enclosure, animal or `all`, with a value where one is typed: `3=412g`.

    `shown` is the round as the keeper saw it; None where that is not known. `on` is the day of the
    round, where it is not the one shown.
    """

    tasks: tuple[str, ...]
    shown: Shown | None = None
    on: str | None = None
    at: str | None = None
    note: str = ""
    confirmed: bool = False


class _Found(Struct, frozen=True):
    """The tasks that can be settled, with their values, and why others cannot."""

    ready: list[tuple[Stop, Meant]]
    left: list[WarmsideError]
    asked: list[Lacking]


def settle(session: Session, wanted: Settling) -> Answer:
    """Record what settles the tasks, all in one step.

    A task that lacks its value, or is not there any more, is left out and named; the rest is
    recorded. With nothing to record, the first of them is raised.
    """
    with session.step("tasks done", confirmed=wanted.confirmed) as writer:
        ask = session.asking(writer.book)
        found = _find(session, ask, wanted)
        when, left = session.when(wanted.at, ask.book), [*found.left]
        events = [
            settling_event(ask, stop, meant, when, wanted.note)
            for stop, meant in found.ready
            if stop.task.settles
        ]
        made = [writer.record(e) for e in events]
        words: list[str] = []
        for stop, meant in found.ready:
            if not stop.task.settles:
                said = _own(writer, ask, stop, meant, when, wanted.note)
                words += said
                left += [] if said else [_by_command(stop)]
        if not made and not words and left:
            raise left[0]
        writer.say("; ".join([*step_words(ask, made), *words]))
    with session.ask() as ask:
        answer = recorded(ask, writer.recorded, *paragraphs(*words))
    warnings = (*(f"left out: {e}" for e in left), *_not_meant(wanted))
    return replace(answer, warnings=warnings, exit_code=left[0].exit_code if left else 0)


def still_asked(session: Session, wanted: Settling) -> list[Lacking]:
    """The tasks that cannot be settled before the keeper has said something, in their order."""
    with session.ask() as ask:
        return _find(session, ask, wanted).asked


def value_problem(
    session: Session, wanted: Settling, lack: Lacking, value: str
) -> WarmsideError | None:
    """What is wrong with a value that the keeper would give to a task."""
    with session.ask() as ask:
        words = (f"{lack.number}={value}",)
        try:
            for stop, meant in _find(session, ask, replace(wanted, tasks=words)).ready:
                check_value(ask, stop, meant.value)
        except WarmsideError as problem:
            return problem
    return None


def _find(session: Session, ask: Ask, wanted: Settling) -> _Found:
    """The tasks that are meant, those that are ready apart from the others."""
    today, shown = ask.book.today, wanted.shown
    if shown is None and ALL in (w.casefold() for w in wanted.tasks):
        raise Refused(SEE_FIRST)
    day = session.day(wanted.on, ask.book)
    if shown is not None and (wanted.on is None or shown.on == day):
        day = day if wanted.on else max(shown.on, today)
    else:
        shown = shown_round(ask, day)
    stops = {s.key: s for s in ask.round(day)}
    found = _Found([], [], [])
    for meant in tasks_meant(ask.book, shown, wanted.tasks):
        line = shown.tasks[meant.number - 1]
        if line.key not in stops:
            said = f"task {meant.number}, {line.name}, is done already or has changed"
            found.left.append(Refused(f"{said}; see: warmside today"))
            continue
        lacks = lacking(ask, stops[line.key], meant)
        if lacks is None:
            found.ready.append((stops[line.key], meant))
        else:
            found.asked.append(lacks)
            found.left.append(lacks.refusal)
    return found


def _own(
    writer: StepWriter, ask: Ask, stop: Stop, meant: Meant, when: When, note: str
) -> list[str]:
    """What the task's own plugin wrote to settle it, in the keeper's words.

    A value that the plugin would not see is a slip of the number, and must not settle another task.
    """
    task = stop.task
    if meant.value and not ask.host.takes(stop.plugin, "warmside_settle", "value"):
        said = f"{task.what} takes no value, not {quoted(meant.value)}"
        raise BadInput(f"{said}; look at the number again, or leave the value out")
    found = ask.host.require(
        "warmside_settle",
        str,
        only=stop.plugin,
        writer=writer,
        ask=ask,
        task=task,
        value=meant.value,
        when=when,
        note=note,
    )
    return [words for _, words in found]


def _by_command(stop: Stop) -> BadInput:
    task = stop.task
    return BadInput(f"{task.what}: do it with: {task.command or 'its own command'}")


def _not_meant(wanted: Settling) -> tuple[str, ...]:
    """What `all` did not settle because it merely may be done."""
    if wanted.shown is None or ALL not in (w.casefold() for w in wanted.tasks):
        return ()
    may = [str(n) for n, task in enumerate(wanted.shown.tasks, 1) if task.may]
    if not may:
        return ()
    what = "what may be done needs its number"
    return (f"{what}: {', '.join(may)}",)
