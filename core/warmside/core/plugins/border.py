"""What hooks gave, checked whole before it is used: exact types, ids that exist, sane days."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from datetime import date
from functools import cache
from typing import Any, TypeVar, get_args

from msgspec import Struct

from warmside.core.answers.parts import Section
from warmside.core.kinds.kind import EventKind
from warmside.core.kinds.known import Kinds
from warmside.core.plugins.hook_values import CareRank, Finding, LabelLine, Level, Task
from warmside.core.record.book import Book
from warmside.core.record.entities import NewEvent
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.calendar_checks import FIRST_YEAR, LAST_YEAR
from warmside.core.values.errors import UnknownWord, WarmsideError
from warmside.core.values.estimates import DayRange, Distribution

T = TypeVar("T")


class Border(Struct, frozen=True):
    """What an item of a plugin is held against."""

    plugin: str
    codes: frozenset[str]  # of its findings
    kinds: Kinds
    book: Book | None = None  # none while plugins are loaded

    def checked(self, items: Iterable[Any] | None, of: tuple[type[T], ...]) -> list[T]:
        """The items as a list; raises TypeError or ValueError at the first that cannot be used."""
        if isinstance(items, str | bytes):
            raise TypeError(f"gave a {type(items).__name__}, not several items")
        got = list(items or ())  # a generator runs, and raises, here
        for item in got:
            if type(item) not in of:
                wanted = " or ".join(t.__name__ for t in of)
                raise TypeError(f"gave {type(item).__name__}, {wanted} is wanted")
            self._check(item)
        return got

    def _check(self, item: Any) -> None:
        check = _CHECKS.get(type(item))
        try:
            if check is not None:
                check(self, item)
        except WarmsideError as error:  # the plugin's slip, not a refusal of its own
            raise ValueError(str(error)) from error

    def about(self, about: About) -> None:
        """Raise unless whom it is about exists."""
        if type(about) is not About:
            raise TypeError(f"is about {about!r}, About is wanted")
        for id in (about.animal_id, about.enclosure_id):
            if id is not None and type(id) is not int:
                raise TypeError(f"is about number {id!r}, a whole number is wanted")
        if self.book is None:
            return
        if about.animal_id is not None and about.animal_id not in self.book.animals:
            raise ValueError(f"is about animal number {about.animal_id!r}, which there is not")
        if about.enclosure_id is not None and about.enclosure_id not in self.book.enclosures:
            raise ValueError(
                f"is about enclosure number {about.enclosure_id!r}, which there is not"
            )


def _task(border: Border, task: Task) -> None:
    _text("what of a task", task.what)
    _text("note of a task", task.note, empty=True)
    _day("due of a task", task.due)
    if task.by is not None:
        _day("by of a task", task.by)
    _basis(task.basis)
    border.about(task.about)
    if task.every_days is not None and (type(task.every_days) is not int or task.every_days < 1):
        raise ValueError(f"every_days of a task is a whole number of days, not {task.every_days!r}")
    if not isinstance(task.data, Mapping):
        raise TypeError(f"data of a task is a mapping, not {type(task.data).__name__}")
    if task.settles:
        kind = border.kinds.named(task.settles)
        for name in (*task.data, *task.asks):
            kind.field(name)
    elif len(task.asks) not in (0, 2):
        raise ValueError(f"asks of a task that no event settles are two texts, not {task.asks!r}")


def _finding(border: Border, finding: Finding) -> None:
    _text("words of a finding", finding.words)
    _basis(finding.basis)
    border.about(finding.about)
    if type(finding.level) is not Level:
        raise TypeError(f"level of a finding is a Level, not {finding.level!r}")
    if finding.code not in border.codes:
        raise ValueError(f"the finding {finding.code!r} is not in its manifest")


def _rank(border: Border, rank: CareRank) -> None:
    border.about(About(enclosure_id=rank.enclosure_id))
    if type(rank.rank) is not int or rank.rank < 0:
        raise ValueError(f"rank of an enclosure is 0 or more, not {rank.rank!r}")


def _line(border: Border, line: LabelLine) -> None:
    _text("text of a label line", line.text, empty=True)
    if not line.key.startswith(f"{border.plugin}."):
        raise ValueError(f"the label line {line.key!r} is not its own; name it {border.plugin}.…")


def _event(border: Border, new: NewEvent) -> None:
    _day("day of an event", new.day)
    border.kinds.named(new.kind).validate(new.data)
    border.about(About(new.animal_id, new.enclosure_id))


def _unknown_word(border: Border, unknown: UnknownWord) -> None:
    _text("word of an unknown word", unknown.word)
    kind, _, key = unknown.field.rpartition(".")
    border.kinds.named(kind).field(key)


def _section(border: Border, section: Section) -> None:
    _text("title of a section", section.title)
    for part in section.parts:
        if type(part) not in _part_types():
            raise TypeError(f"a section holds {type(part).__name__}, which is no part of an answer")


@cache
def _part_types() -> frozenset[type]:
    from warmside.core.answers.any_part import Part  # with charts and drawings, unlike the round

    return frozenset(get_args(Part))


def _estimate(border: Border, estimate: Estimate) -> None:
    numbers = (estimate.low, estimate.high, estimate.value)
    if any(n is not None and not math.isfinite(n) for n in numbers):
        raise ValueError("an estimate is finite")
    if not estimate.low <= estimate.high:
        raise ValueError(f"an estimate from {estimate.low} to {estimate.high} is no range")


def _days(border: Border, days: DayRange) -> None:
    for day in (days.earliest, days.latest, days.likely or days.earliest):
        _day("a day of a range", day)
    if days.earliest > days.latest:
        raise ValueError(f"from {days.earliest} to {days.latest} is no range of days")


def _distribution(border: Border, found: Distribution) -> None:
    total = sum(chance for _, chance in found.chances)
    if not math.isclose(total, 1.0, abs_tol=1e-9) or any(c < 0 for _, c in found.chances):
        raise ValueError(f"probabilities sum to {total:g}, not to 1")


def _text(what: str, text: object, empty: bool = False) -> None:
    if type(text) is not str:
        raise TypeError(f"{what} is text, not {type(text).__name__}")
    if not text and not empty:
        raise ValueError(f"{what} is empty")


def _day(what: str, day: object) -> None:
    if type(day) is not date:  # a datetime is a date, too, and would not compare
        raise TypeError(f"{what} is a date, not {type(day).__name__}")
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise ValueError(f"{what} is {day}, outside the years {FIRST_YEAR} to {LAST_YEAR}")


def _basis(basis: object) -> None:
    if type(basis) is not Basis:
        raise TypeError(f"basis is a Basis, not {type(basis).__name__}")


_CHECKS: dict[type, Any] = {
    Task: _task,
    Finding: _finding,
    CareRank: _rank,
    LabelLine: _line,
    NewEvent: _event,
    Section: _section,
    Estimate: _estimate,
    DayRange: _days,
    Distribution: _distribution,
    UnknownWord: _unknown_word,
}


def wrong_kind(plugin: str, kind: EventKind, known: Kinds) -> str:
    """What is wrong with a plugin's kind; nothing where it is well."""
    if not kind.name.startswith(f"{plugin}."):
        return f"its kind {kind.name!r} is not its own; name it {plugin}.<word>"
    return f"it gives the kind {kind.name!r} twice" if kind.name in known else ""
