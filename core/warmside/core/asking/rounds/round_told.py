"""The round of a day as an answer that fits a screen: what presses first, one line a task."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec.structs import replace

from warmside.core.answers.parts import Answer, Cell, Column, Kind, Table
from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.away import away_table, days_words
from warmside.core.asking.rounds.findings_told import round_findings, sourced
from warmside.core.asking.rounds.put_off import put_off_table
from warmside.core.asking.rounds.round import Pace, Stop, before_each, paces
from warmside.core.asking.rounds.said_once import back_asked_for, findings_of_round
from warmside.core.asking.rounds.shown import named
from warmside.core.record.book import Book
from warmside.core.values.moments import days_ago_words
from warmside.core.values.units import Unit

LOOK_AHEAD_DAYS = 21
_LONG_AGO_DAYS = 90
NO_TASKS = "nothing is due; plugins ask for tasks: warmside plugin list"
TASK_COLUMNS = (
    Column("number", "no.", Unit.COUNT),
    Column("enclosure", "in", Kind.CODE),
    Column("who", "who"),
    Column("what", "what"),
    Column("when", "when"),
    Column("why", "why", below=True),
    Column("subject", "subject", text=False),
    Column("group", "group", text=False),
    Column("late", "late", Unit.DAYS, text=False),
    Column("since", "since", text=False),
    Column("due", "due", Kind.DATE, text=False),
    Column("by", "by", Kind.DATE, text=False),
    Column("animal", "animal", Kind.CODE, text=False),
    Column("settles", "settles", text=False),
    Column("command", "command", text=False),
    Column("plugin", "plugin", text=False),
    Column("room", "room", text=False),
    Column("care_rank", "care rank", Unit.COUNT, text=False),
    Column("care_reason", "care reason", text=False),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
    Column("events", "events", Kind.LIST, text=False),
)
WITHOUT_WHY = tuple(replace(c, text=c.text and c.key != "why") for c in TASK_COLUMNS)


def told_round(ask: Ask, on: date, *, why: bool = False) -> Answer:
    """The round as an answer; with `why` each line has its reason and each finding its words."""
    book, stops = ask.book, ask.round(on)
    findings, waiting = findings_of_round(ask, on)
    headed = {s.rank.group for s in stops[:1]}  # where its pace stands above a task
    rows = tuple(
        task_row(book, on, n, s, headed=s.rank.group in headed) for n, s in enumerate(stops, 1)
    )
    parts = (
        round_findings(book, findings, whole=why),
        Table(
            "tasks",
            TASK_COLUMNS if why else WITHOUT_WHY,
            rows,
            empty="" if rows else _nothing(ask, on),
            breaks=before_each(stops),
            heads=paces(stops, on),
            dense=True,
            ticks=True,
        ),
        _nothing_due(book, on, stops),
        away_table(book, on, back_asked_for(stops, findings)),
        put_off_table(book, waiting),
    )
    return Answer(f"The round of {on}", parts)


def task_row(
    book: Book, on: date, number: int, stop: Stop, *, headed: bool = False
) -> tuple[Cell, ...]:
    """A task with its number in the round, as cells of TASK_COLUMNS; `headed` below its pace."""
    task = stop.task
    place = book.enclosures.get(stop.enclosure_id) if stop.enclosure_id else None
    animal = book.animals.get(task.about.animal_id) if task.about.animal_id else None
    basis = task.basis
    pace = stop.pace(on)
    return (
        number,
        place.code if place else None,
        animal.name if animal else (place.name if place else ""),
        task.what,
        "" if headed and pace is Pace.MAY and stop.last_day is None else when_words(stop, on),
        why_words(stop),
        animal.label if animal else (place.name if place else ""),
        pace.value,
        stop.late_days(on) or None,
        days_ago_words(task.due, on),
        task.due,
        stop.last_day,
        animal.code if animal else None,
        task.settles or None,
        task.command or None,
        " and ".join((stop.plugin, *(plugin for plugin, _ in stop.also))),
        stop.room or None,
        stop.rank.rank,
        stop.rank.reason or None,
        *sourced(basis),
    )


def when_words(stop: Stop, on: date) -> str:
    """The one phrase of time of a task: `! 12 days late`, until when it may wait, or
    nothing for today.

    Of what was never recorded nobody knows how late it is after a season.
    """
    match stop.pace(on):
        case Pace.OVERDUE:
            late = stop.late_days(on)
            unheard = late > _LONG_AGO_DAYS and not stop.task.basis.events
            return "! none on record" if unheard else f"! {days_words(late)} late"
        case Pace.TODAY:
            return ""
        case Pace.MAY:
            return f"until {stop.last_day}" if stop.last_day else "may be done"


def why_words(stop: Stop) -> str:
    """Why it is due, by every plugin that asks for it, and what to mind."""
    tasks = (stop.task, *(task for _, task in stop.also))
    reasons = dict.fromkeys(t.basis.rule for t in tasks)
    notes = dict.fromkeys(t.note for t in tasks if t.note)
    return "; ".join((*reasons, *notes))


def _nothing(ask: Ask, on: date) -> str:
    """That nothing is due, and what comes next; how to have tasks where no plugin asks for any."""
    if not ask.host.manifests:
        return NO_TASKS
    last = on + timedelta(days=LOOK_AHEAD_DAYS)
    first = min((s.task.due for s in ask.round(last)), default=None)
    if first is None:
        return f"nothing is due, nor in the next {LOOK_AHEAD_DAYS} days"
    day = max(first, on + timedelta(days=1))
    while not ask.round(day):  # a task may fall due later when it is asked for earlier
        day += timedelta(days=1)
    return f"nothing is due; next: {named(ask.book, ask.round(day)[0])} on {day}"


def _nothing_due(book: Book, on: date, stops: list[Stop]) -> Table:
    """The animals here that need nothing, in one sentence; they are still to be looked at."""
    busy = {s.task.about.animal_id for s in stops}
    rows: list[tuple[Cell, ...]] = []
    for animal_id, where in book.animals_here(on).items():
        if animal_id not in busy:
            place = book.enclosures.get(where.enclosure_id) if where.enclosure_id else None
            rows.append((book.animals[animal_id].label, place.code if place else None))
    columns = (
        Column("animal", "who", text=False),
        Column("enclosure", "in", Kind.CODE, text=False),
    )
    names = ", ".join(f"{who} in {place}" if place else f"{who}" for who, place in rows)
    said = f"nothing due, have a look: {names}" if rows else ""
    return Table("seen", columns, tuple(rows), empty=said)
