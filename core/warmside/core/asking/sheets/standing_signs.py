"""Which signs of illness were seen, since when, and whether they are gone."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.record.entities import Event


class SeenSign(Struct, frozen=True):
    """A sign from the day it was first seen to the last; `gone` is when it was said to be over."""

    sign: str
    first: date
    last: date
    times: int
    where: str = ""
    gone: date | None = None

    @property
    def when(self) -> str:
        """`since 2026-03-01, 3 times`, `on 2026-03-01, gone since 2026-03-04`."""
        often = f", seen {self.times} times, last {self.last}" if self.times > 1 else ""
        over = f", gone since {self.gone}" if self.gone else ""
        return f"{'from' if self.gone else 'since'} {self.first}{often}{over}"


def seen_signs(events: Iterable[Event]) -> list[SeenSign]:
    """The signs of one animal from its events of the kind `sign`, oldest first; those that stand
    come first.

    One that was said to be none is left out; one that is seen again once it was gone begins anew.
    """
    running: dict[str, SeenSign] = {}
    over: list[SeenSign] = []
    for event in events:
        word, state, where = event.data["sign"], event.data["state"], event.data.get("where", "")
        before = running.pop(word, None)
        if state == "seen":
            running[word] = _again(before, word, event.day, where)
        elif state == "gone" and before:
            over.append(replace(before, gone=event.day))
    return [*running.values(), *over]


def _again(before: SeenSign | None, word: str, day: date, where: str) -> SeenSign:
    if before is None:
        return SeenSign(word, day, day, 1, where)
    return replace(before, last=day, times=before.times + 1, where=where or before.where)
