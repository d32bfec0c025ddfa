"""What one animal was given as a keeper types it: what, how many or how much, what came of it."""

from __future__ import annotations

import re

from msgspec import Struct

from warmside.api import BadInput, Display, Unit, parse_quantity
from warmside.plugins.feeding.prey.classes import Prey, classes_meant, prey_named
from warmside.plugins.feeding.prey.dusting import powders

_COUNTED = re.compile(r"(?P<count>-?[0-9]+) *(?:[x×*] *| +)(?P<food>\D.*)")
_WEIGHED = re.compile(r"(?P<mass>[0-9][0-9.,]* *(?:kg|mg|g|oz|lb)) +(?:of +)?(?P<food>.+)")
PLANNED = "planned"
OUTCOMES = {
    "taken": "taken",
    "eaten": "taken",
    "ate": "taken",
    "part": "part taken",
    "part taken": "part taken",
    "refused": "refused",
    "regurgitated": "regurgitated",
}
"""Words for what came of a meal, which are no food."""


class Dish(Struct, frozen=True):
    """So many items of a food, or `mass_g` of it in all; `prey` is None for a part by its name."""

    item: str
    prey: Prey | None
    count: int = 1
    mass_g: float | None = None

    @property
    def form(self) -> str | None:
        """How it is usually offered."""
        return self.prey.form if self.prey else None

    @property
    def words(self) -> str:
        """As it may be typed: `2 × rat pup`, `leafy greens`."""
        by_piece = self.prey is not None and not self.prey.weighed
        return f"{self.count} × {self.item}" if by_piece else self.item


def outcome_word(text: str) -> str | None:
    """What came of a meal, where the word says that and names no food."""
    return OUTCOMES.get(" ".join(text.lower().split()))


class Likely(Struct, frozen=True):
    """What a vague word may mean for an animal: classes eaten, the newest first, then planned."""

    eaten: tuple[Prey, ...] = ()
    planned: tuple[Prey, ...] = ()


NOTHING_KNOWN = Likely()


def parse_dish(
    text: str, display: Display, likely: Likely = NOTHING_KNOWN, count: int | None = None
) -> Dish:
    """A dish as typed: `mouse-adult`, `2xrat-pup`, `2 lg mice`, `30g greens`.

    A word that may mean several classes is settled by what is `likely`; BadInput where that does
    not settle it. The count typed with it goes before `count`.
    """
    words = text.strip()
    if not words:
        raise BadInput("no prey is named; write mouse-adult or 2xrat-pup")
    weighed, counted = _WEIGHED.fullmatch(words), _COUNTED.fullmatch(words)
    if weighed:
        grams = parse_quantity(weighed["mass"], Unit.MASS, display=display, what="mass")
        return _dish(food_meant(weighed["food"], likely), 1, grams)
    number = int(counted["count"]) if counted else 1 if count is None else count
    return _dish(food_meant(counted["food"] if counted else words, likely), number, None)


def food_meant(text: str, likely: Likely) -> Prey:
    """The class that a word means for an animal; BadInput where it may be several, or is none.

    `fuzzies` are of the kind that it ate last; `crickets` are of the class that it ate last, else
    of the planned one.
    """
    meant = classes_meant(text)
    if len({p.kind for p in meant}) > 1:
        kinds = [p.kind for p in likely.eaten]
        usual = next((k for k in kinds if any(p.kind == k for p in meant)), "")
        meant = tuple(p for p in meant if p.kind == usual)
    if len(meant) == 1:
        return meant[0]
    codes = {p.code for p in meant}
    found = next((p for p in (*likely.eaten, *likely.planned) if p.code in codes), None)
    return found or prey_named(text)


def _dish(prey: Prey, count: int, mass_g: float | None) -> Dish:
    if not 1 <= count <= 10_000:
        raise BadInput(f"{count} × {prey.name}; give a count of 1 or more")
    return Dish(prey.name, prey, count, mass_g)


def check_powder(text: str) -> str:
    """The code of a powder, or `planned`; BadInput lists them."""
    known = [p.code for p in powders()]
    wanted = text.strip().lower().replace(" ", "-")
    if wanted not in (*known, PLANNED):
        raise BadInput(f"no powder {text!r}; one of {', '.join(known)}, or {PLANNED}")
    return wanted
