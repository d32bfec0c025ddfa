"""Which places of a sheet are free, and which labels go where."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from msgspec import Struct

from warmside.api import BadInput, quoted

if TYPE_CHECKING:
    from collections.abc import Sequence

    from warmside.plugins.labels.content.label import Label
    from warmside.plugins.labels.paper.stock import Stock

MOST_COPIES = 500
MOST_LABELS = 5000
_RANGE = re.compile(r"\s*(\d{1,6})\s*(?:-\s*(\d{1,6})\s*)?")


class Placed(Struct, frozen=True):
    """A label at a place: page from 0, place from 1."""

    label: Label
    page: int
    place: int


def parse_used(text: str, stock: Stock) -> frozenset[int]:
    """The places named by a text like `1-7,12`; BadInput for what is no place of the stock."""
    used: set[int] = set()
    for part in text.split(","):
        found = _RANGE.fullmatch(part)
        if not found:
            raise BadInput(f"used places {quoted(text)!r} are unclear; write them like 1-7,12")
        first, last = int(found[1]), int(found[2] or found[1])
        if first > last:
            raise BadInput(f"used places {quoted(part)!r} run backwards; write {last}-{first}")
        used.update(range(_place(first, stock, "used"), _place(last, stock, "used") + 1))
    return frozenset(used)


def free_places(stock: Stock, start: int = 1, used: frozenset[int] = frozenset()) -> list[int]:
    """The places of the first sheet that may be printed; BadInput when none is left."""
    _place(start, stock, "start")
    for place in used:
        _place(place, stock, "used")
    free = [place for place in range(start, stock.places + 1) if place not in used]
    if not free:
        raise BadInput(f"no place of this sheet of {stock.name} is left; take a new sheet")
    return free


def used_after(stock: Stock, first: Sequence[int], placed: Sequence[Placed]) -> frozenset[int]:
    """The places gone on the last sheet after a print; none where that sheet is full.

    `first` are the places that were free on the first sheet.
    """
    last = placed[-1].page
    gone = set() if last else set(range(1, stock.places + 1)).difference(first)
    gone.update(item.place for item in placed if item.page == last)
    return frozenset(gone) if len(gone) < stock.places else frozenset()


def used_text(used: frozenset[int]) -> str:
    """The places as `parse_used` reads them, such as `1-7,12`."""
    places = sorted(used)
    starts = [place for place in places if place - 1 not in used]
    ends = [place for place in places if place + 1 not in used]
    pairs = zip(starts, ends, strict=True)
    return ",".join(str(a) if a == b else f"{a}-{b}" for a, b in pairs)


def place_labels(
    labels: Sequence[Label], stock: Stock, first: Sequence[int], copies: int = 1
) -> list[Placed]:
    """Each label `copies` times, on the free places of the first sheet and then on full sheets."""
    if not labels:
        raise BadInput("no label to print; choose other animals or enclosures")
    if not 1 <= copies <= MOST_COPIES:
        raise BadInput(f"{copies} copies cannot be printed; use 1 to {MOST_COPIES}")
    if len(labels) * copies > MOST_LABELS:
        raise BadInput(
            f"{len(labels) * copies} labels are too many at once; print at most {MOST_LABELS}"
        )
    placed: list[Placed] = []
    page, free = 0, list(first)
    for label in (label for label in labels for _ in range(copies)):
        if not free:
            page, free = page + 1, list(range(1, stock.places + 1))
        placed.append(Placed(label, page, free.pop(0)))
    return placed


def _place(number: int, stock: Stock, word: str) -> int:
    if not 1 <= number <= stock.places:
        raise BadInput(
            f"{word} {number} is no place of {stock.name}, which has {stock.places};"
            f" use 1 to {stock.places}"
        )
    return number
