"""The round of a day as an answer: tasks with why, what needs nothing, findings."""

from __future__ import annotations

from datetime import date

from warmside.core.answers.parts import Answer, Cell, Column, Kind, Table
from warmside.core.asking.ask import Ask
from warmside.core.asking.findings_told import findings_table, sourced
from warmside.core.asking.round import Stop, before_each
from warmside.core.record.book import Book
from warmside.core.values.moments import days_ago_words
from warmside.core.values.units import Unit

TASK_COLUMNS = (
    Column("number", "no.", Unit.COUNT),
    Column("enclosure", "in", Kind.CODE),
    Column("subject", "who"),
    Column("what", "what"),
    Column("since", "since"),
    Column("why", "why", below=True),
    Column("due", "due", Kind.DATE, text=False),
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


def told_round(ask: Ask, on: date) -> Answer:
    """The round as an answer."""
    book, stops = ask.book, ask.round(on)
    rows = tuple(task_row(book, on, n, s) for n, s in enumerate(stops, 1))
    empty = "nothing is due; plugins ask for tasks: warmside plugin list"
    round_table = Table("tasks", TASK_COLUMNS, rows, empty=empty, breaks=before_each(stops))
    seen = _nothing_due(book, on, stops)
    parts = (round_table, seen, findings_table(book, ask.findings(on)))
    return Answer(f"The round of {on}", parts)


def task_row(book: Book, on: date, number: int, stop: Stop) -> tuple[Cell, ...]:
    """A task with its number in the round, as cells of TASK_COLUMNS."""
    task = stop.task
    place = book.enclosures.get(stop.enclosure_id) if stop.enclosure_id else None
    animal = book.animals.get(task.about.animal_id) if task.about.animal_id else None
    basis = task.basis
    return (
        number,
        place.code if place else None,
        animal.label if animal else (place.name if place else ""),
        task.what,
        days_ago_words(task.due, on),
        why(stop),
        task.due,
        animal.code if animal else None,
        task.settles or None,
        task.command or None,
        " and ".join((stop.plugin, *(plugin for plugin, _ in stop.also))),
        stop.room or None,
        stop.rank.rank,
        stop.rank.reason or None,
        *sourced(basis),
    )


def why(stop: Stop) -> str:
    """Why it is due, by every plugin that asks for it, and what to mind."""
    tasks = (stop.task, *(task for _, task in stop.also))
    reasons = dict.fromkeys(t.basis.rule for t in tasks)
    notes = dict.fromkeys(t.note for t in tasks if t.note)
    return "; ".join((*reasons, *notes))


def _nothing_due(book: Book, on: date, stops: list[Stop]) -> Table:
    """The animals here that need nothing; they are still to be looked at."""
    busy = {s.task.about.animal_id for s in stops}
    rows = []
    for animal_id, where in book.animals_here(on).items():
        if animal_id not in busy:
            place = book.enclosures.get(where.enclosure_id) if where.enclosure_id else None
            rows.append((book.animals[animal_id].label, place.code if place else None))
    columns = (Column("animal", "who"), Column("enclosure", "in", Kind.CODE))
    return Table("seen", columns, tuple(rows), "Nothing due, have a look", empty="")
