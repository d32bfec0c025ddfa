"""The sitter's days as one list to tick: who, what, and what to mind, in the order of care."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

from msgspec import Struct

from warmside.core.answers.parts import Cell, Column, Kind, Table
from warmside.core.asking.sheets.sitter_words import APART, LOOK
from warmside.core.asking.sheets.sitting import Turn, days_from, to_thaw
from warmside.core.record.book import Book

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
THAW = "in a closed box away from human food, not in the kitchen; wash hands at once"
COLUMNS = (
    Column("enclosure", "in", Kind.CODE),
    Column("who", "who"),
    Column("words", "what to do"),
    Column("what", "what", text=False),
    Column("mind", "mind", text=False),
    Column("day", "day", Kind.DATE, text=False),
    Column("group", "group", text=False),
    Column("animal", "animal", Kind.CODE, text=False),
    Column("kind", "kind", text=False),
)


class Group(Struct, frozen=True):
    """Enclosures that are done together: their care group, what is said before, who lives there."""

    name: str
    before: str
    who: str


class DayRow(Struct, frozen=True):
    """A line of the list; `turn` is None for what is done each day anyway."""

    day: date
    group: str
    what: str
    who: str = ""
    mind: str = ""
    turn: Turn | None = None


def day_rows(
    book: Book, turns: Sequence[Turn], groups: Sequence[Group], first: date, last: date
) -> list[DayRow]:
    """The rows of all days; residents' prey is set out to thaw before hands touch a quarantine."""
    found: list[DayRow] = []
    for day in days_from(first, last):
        found += _for_today(turns, day, first)
        for number, group in enumerate(groups):
            found.append(DayRow(day, group.name, LOOK, group.who))
            mine = [t for t in turns if t.day == day and t.stop.rank.group == group.name]
            found += [_row(book, turn) for turn in mine]
            if not number:
                found += _for_tomorrow(turns, day, last)
    return found


def _for_today(turns: Sequence[Turn], day: date, first: date) -> Iterator[DayRow]:
    """On the first day, before all else: what nobody took out the evening before."""
    today = to_thaw(turns, day) if day == first else {}
    if today:
        yield DayRow(
            day, "", f"out of the freezer for today, first of all: {_listed(today)}", mind=THAW
        )


def _for_tomorrow(turns: Sequence[Turn], day: date, last: date) -> Iterator[DayRow]:
    tomorrow = to_thaw(turns, day + timedelta(days=1)) if day < last else {}
    if tomorrow:
        yield DayRow(
            day, "", f"evening: out of the freezer for tomorrow: {_listed(tomorrow)}", mind=THAW
        )


def _listed(items: Mapping[str, int]) -> str:
    return ", ".join(f"{count} × {item}" for item, count in items.items())


def _row(book: Book, turn: Turn) -> DayRow:
    task = turn.stop.task
    animal = book.animals.get(task.about.animal_id or 0)
    return DayRow(
        turn.day,
        turn.stop.rank.group,
        task.what,
        animal.name if animal else "",
        "; ".join(dict.fromkeys(t.note for t in (task, *(t for _, t in turn.stop.also)) if t.note)),
        turn,
    )


def days_table(book: Book, rows: Sequence[DayRow], groups: Sequence[Group]) -> Table:
    """The rows under their days; before a group that comes last it is said so."""
    before = {group.name: APART for group in groups if group.before}
    pairs = list(zip([None, *rows], rows, strict=False))
    heads = [(n, _day(r.day)) for n, (b, r) in enumerate(pairs) if b is None or b.day != r.day]
    breaks = [
        (n, before[r.group])
        for n, (b, r) in enumerate(pairs)
        if r.group in before and (b is None or (b.day, b.group) != (r.day, r.group))
    ]
    cells = tuple(_cells(book, row) for row in rows)
    return Table("days", COLUMNS, cells, breaks=tuple(breaks), heads=tuple(heads), ticks=True)


def _cells(book: Book, row: DayRow) -> tuple[Cell, ...]:
    stop = row.turn.stop if row.turn else None
    place = book.enclosures.get(stop.enclosure_id or 0) if stop else None
    animal = book.animals.get(stop.task.about.animal_id or 0) if stop else None
    return (
        place.code if place else None,
        row.who or None,
        f"{row.what} ({row.mind})" if row.mind else row.what,
        row.what,
        row.mind or None,
        row.day,
        row.group or None,
        animal.code if animal else None,
        (stop.task.settles or None) if stop else None,
    )


def _day(day: date) -> str:
    return f"{WEEKDAYS[day.weekday()]} {day}"
