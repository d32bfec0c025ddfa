"""Which tasks of the shown round are meant by `all`, `1-3`, `1,3`, `2=refused`, LOW or TUP."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from msgspec import Struct

from warmside.core.asking.rounds.shown import Shown
from warmside.core.record.book import Book
from warmside.core.record.typed_subjects import Typed, typed_subjects
from warmside.core.values.errors import BadInput, NotFound
from warmside.core.values.hints import quoted

ALL = "all"
_NUMBERS = re.compile(r"\d+(-\d+)?(,\d+(-\d+)?)*,?")
_HALF = re.compile(r"\d+(,\d+)*-")
_SEE = "numbers are in: warmside today"


class Meant(Struct, frozen=True):
    """A task by its number in the shown round, from 1, with the value typed for it."""

    number: int
    value: str = ""


def tasks_meant(book: Book, shown: Shown, words: Iterable[str]) -> list[Meant]:
    """Each task once, in the order of the round.

    What is named by `all`, by an enclosure or by an animal leaves out what merely may be done: that
    needs its number, for nobody has said that it was done.
    """
    found: dict[int, str] = {}
    for typed in typed_subjects(list(words)):
        for number in _numbers(book, shown, typed):
            known = found.get(number, "")
            if known and typed.value and known != typed.value:
                first, second = quoted(known), quoted(typed.value)
                raise BadInput(f"task {number} has two values, {first} and {second}; type one")
            found[number] = typed.value or known
    return [Meant(number, value) for number, value in sorted(found.items())]


def _numbers(book: Book, shown: Shown, typed: Typed) -> Iterator[int]:
    if _NUMBERS.fullmatch(typed.name) and len(typed.name) < 80:
        for part in filter(None, typed.name.split(",")):
            yield from _span(part, len(shown.tasks))
        return
    if _HALF.fullmatch(typed.name):
        raise _half_a_span(typed.name, len(shown.tasks))
    if typed.name.casefold() == ALL:
        numbers = [n for n, task in enumerate(shown.tasks, 1) if not task.may]
    else:
        numbers = _of_subject(book, shown, typed.name)
    if typed.value and len(numbers) != 1:
        raise BadInput(f"{typed.name} means {len(numbers)} tasks; type the value behind a number")
    yield from numbers


def _span(part: str, last: int) -> range:
    low, _, high = part.partition("-")
    first, end = int(low), int(high or low)
    for number in (first, end):
        if not 1 <= number <= last:
            raise NotFound(f"the round has no task {quoted(str(number))!r}; {_SEE}")
    if end < first:
        raise BadInput(f"{part} runs backwards; type {end}-{first}")
    return range(first, end + 1)


def _half_a_span(typed: str, last: int) -> BadInput:
    """What to type in the place of `1-`: where it ends is asked, for it would settle the rest."""
    named = typed.removesuffix("-")
    first = named.rpartition(",")[2]
    return BadInput(f"{quoted(typed)} lacks its other end; type {first}-{last}, or {named} alone")


def _of_subject(book: Book, shown: Shown, name: str) -> list[int]:
    animal, place = _animal(book, name), _enclosure(book, name)
    if animal is None and place is None:
        raise NotFound(f"the round has no task {quoted(name)!r}; {_SEE}")
    mine = [
        (n, t)
        for n, t in enumerate(shown.tasks, 1)
        if t.enclosure_id == place or (place is None and t.animal_id == animal)
    ]
    found = [n for n, task in mine if not task.may]
    if not found:
        may = ", ".join(str(n) for n, _ in mine)
        more = f"; what may be done needs its number: {may}" if mine else f"; {_SEE}"
        raise NotFound(f"the round asks for nothing for {quoted(name)}{more}")
    return found


def _animal(book: Book, name: str) -> int | None:
    try:
        return book.animal(name).id
    except (NotFound, BadInput):
        return None


def _enclosure(book: Book, name: str) -> int | None:
    try:
        return book.enclosure(name).id
    except (NotFound, BadInput):
        return None
