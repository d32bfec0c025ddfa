"""A death on record, what was said of it since, and the questions that it leaves open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec import Struct

BODY_DAYS = 3
"""A body that is kept cold can be examined for about 72 hours (state veterinary laboratories)."""
NECROPSY_KEY, CONTACTS, EQUIPMENT, PREY = "necropsy", "contacts", "equipment", "prey"


class Said(Struct, frozen=True):
    """What was written after a death; empty is what that entry does not speak of."""

    event: int
    found: str = ""
    necropsy: str = ""
    contacts: str = ""
    equipment: str = ""
    prey: str = ""


class Death(Struct, frozen=True):
    """A death: of whom, when, in which enclosure, beside whom, with its last frozen meals.

    `contacts` are the names of those that shared its enclosure or room, empty where it was alone;
    `meals` are its last meals of frozen prey, in words.
    """

    event: int
    animal: int
    label: str
    day: date
    home: int | None = None
    contacts: tuple[str, ...] = ()
    meals: tuple[str, ...] = ()


def known(said: Sequence[Said]) -> dict[str, str]:
    """What is on record of a death: of each thing the newest word."""
    answers: dict[str, str] = {}
    for one in sorted(said, key=lambda s: s.event):
        for name in ("found", NECROPSY_KEY, CONTACTS, EQUIPMENT, PREY):
            if word := getattr(one, name):
                answers[name] = word
    return answers


def open_questions(death: Death, said: Sequence[Said], on: date) -> Iterator[str]:
    """What is still to be asked: of a necropsy while it can be done, and of what concerns it."""
    answers, days = known(said), (on - death.day).days
    if NECROPSY_KEY not in answers and days <= BODY_DAYS:
        yield NECROPSY_KEY
    concerns = {CONTACTS: bool(death.contacts), EQUIPMENT: True, PREY: bool(death.meals)}
    yield from (name for name, does in concerns.items() if does and name not in answers)
