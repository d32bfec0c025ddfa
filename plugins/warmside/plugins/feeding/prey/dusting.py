"""Which powder goes on the insects next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from warmside.api import Source, sourced_rows


@dataclass(frozen=True, slots=True)
class Dust:
    """A powder and how often it is due: at every n-th insect meal."""

    code: str
    name: str
    every: int
    source: Source


@cache
def powders() -> tuple[Dust, ...]:
    """The powders; the last one fills the meals between."""
    return tuple(
        Dust(row["code"], row["name"], int(row["every"]), row.source)
        for row in sourced_rows("warmside.plugins.feeding", "dusting", "dust")
    )


def next_dust(recent: Sequence[str | None]) -> Dust:
    """The powder for the next insect meal, from the powders of recent meals, newest last.

    The one most overdue; among equals the first of the table. Without records: plain calcium.
    """
    *special, plain = powders()
    if not any(recent):
        return plain
    since = {dust.code: _meals_since(dust.code, recent) for dust in special}
    overdue = [dust for dust in special if since[dust.code] >= dust.every]
    return max(overdue, key=lambda dust: since[dust.code], default=plain)


def rota(meals: int, recent: Sequence[str | None] = ()) -> tuple[Dust, ...]:
    """The powders of the next meals in order."""
    past, plan = list(recent), list[Dust]()
    for _ in range(meals):
        plan.append(next_dust(past))
        past.append(plan[-1].code)
    return tuple(plan)


def _meals_since(code: str, recent: Sequence[str | None]) -> int:
    """How many meals, counting the next, since this powder was used."""
    for back, used in enumerate(reversed(recent), start=1):
        if used == code:
            return back
    return len(recent) + 1
