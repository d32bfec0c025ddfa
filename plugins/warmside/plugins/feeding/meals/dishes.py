"""A round of meals as a keeper types it: whom, what, and what came of it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct

from warmside.api import BadInput
from warmside.plugins.feeding.prey.classes import Prey, prey_named
from warmside.plugins.feeding.prey.dusting import powders

_COUNTED = re.compile(r"(?:(?P<count>-?[0-9]+) *[x×*] *)?(?P<prey>.+)")
PLANNED = "planned"


class Dish(Struct, frozen=True):
    """So many items of a class."""

    prey: Prey
    count: int


def parse_dish(text: str, count: int | None = None) -> Dish:
    """A dish as typed: `mouse-adult`, `2xrat-pup`; the count typed with it goes first."""
    found = _COUNTED.fullmatch(text.strip())
    if found is None:
        raise BadInput("no prey is named; write mouse-adult or 2xrat-pup")
    number = int(found["count"]) if found["count"] else count if count is not None else 1
    prey = prey_named(found["prey"])
    if not 1 <= number <= 10_000:
        raise BadInput(f"{number} × {prey.name}; give a count of 1 or more")
    return Dish(prey, number)


def outcome_of(code: int, refused: Sequence[int], part: Sequence[int]) -> str:
    """What came of the meal of an animal."""
    if code in refused:
        return "refused"
    return "part taken" if code in part else "taken"


def check_powder(text: str) -> str:
    """The code of a powder, or `planned`; BadInput lists them."""
    known = [p.code for p in powders()]
    wanted = text.strip().lower().replace(" ", "-")
    if wanted not in (*known, PLANNED):
        raise BadInput(f"no powder {text!r}; one of {', '.join(known)}, or {PLANNED}")
    return wanted
