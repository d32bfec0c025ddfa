"""Invented years of three invented animals, as rows of a CSV file, ending yesterday.

Believable, not real: growth, appetite and sheds are drawn from a seeded generator.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

SEED = 20
YEARS = 3
COLUMNS = (
    "date",
    "kind",
    "animal",
    "enclosure",
    "item",
    "count",
    "mass_g",
    "form",
    "outcome",
    "stage",
    "retained",
    "looks",
    "extent",
    "note",
)
Row = dict[str, str]


class Character(Struct, frozen=True):
    """How an invented animal lives: growth from young to grown mass, meals, sheds."""

    code: str
    enclosure: str
    young_g: float
    grown_g: float
    grown_at_days: int
    hatched: date
    meal: tuple[str, str, float]  # item, form, share of body mass
    every_days: int
    shed_days: int
    refuses: float


def characters(today: date) -> tuple[Character, ...]:
    """The three animals of the demo, their ages fixed to the day of the demo."""
    return (
        Character(
            "TUP",
            "LOW",
            12,
            430,
            1100,
            today - timedelta(days=1600),
            ("adult mouse", "thawed", 0.06),
            11,
            78,
            0.05,
        ),
        Character(
            "MOT",
            "WIN",
            4,
            62,
            420,
            today - timedelta(days=1190),
            ("adult cricket", "insect", 0.03),
            3,
            34,
            0.02,
        ),
        Character(
            "BAR",
            "TAL",
            40,
            2350,
            1500,
            today - timedelta(days=2300),
            ("medium rat", "thawed", 0.055),
            18,
            104,
            0.08,
        ),
    )


def demo_rows(today: date) -> list[Row]:
    """Some thousand rows in the order of their days."""
    draw = random.Random(SEED)
    rows = [row for one in characters(today) for row in _life(one, today, draw)]
    return sorted(rows, key=lambda r: (r["date"], r["animal"], r["kind"]))


def _life(one: Character, today: date, draw: random.Random) -> Iterator[Row]:
    start = max(one.hatched + timedelta(days=60), today - timedelta(days=365 * YEARS))
    sheds = list(_shed_days(one, start, today, draw))
    yield from _meals(one, start, today, sheds, draw)
    yield from _weights(one, start, today, draw)
    for day in sheds:
        yield from _shed(one, day, draw)
    yield from _care(one, start, today, draw)


def mass_on(one: Character, day: date) -> float:
    """A Gompertz curve through the young and the grown mass."""
    age = (day - one.hatched).days
    share = math.log(one.grown_g / one.young_g)
    return one.grown_g * math.exp(-share * math.exp(-4.5 * age / one.grown_at_days))


def _meals(
    one: Character, start: date, today: date, sheds: list[date], draw: random.Random
) -> Iterator[Row]:
    item, form, share = one.meal
    day = start
    while day < today:
        shedding = any(0 <= (s - day).days <= 7 for s in sheds)
        winter = 0.10 if day.month in (12, 1) else 0.0
        refused = draw.random() < one.refuses + winter + (0.35 if shedding else 0.0)
        mass = mass_on(one, day) * share * draw.uniform(0.9, 1.1)
        count = max(1, round(mass / 0.4)) if form == "insect" else 1
        yield _row(
            day,
            "fed",
            one,
            item=item,
            count=str(count),
            mass_g=f"{mass:.1f}",
            form=form,
            outcome="refused" if refused else "taken",
        )
        if not refused and form != "insect":
            looks = "normal" if draw.random() < 0.97 else "loose"
            yield _row(day + timedelta(days=draw.randint(3, 6)), "defecated", one, looks=looks)
        day += timedelta(days=max(1, one.every_days + draw.randint(-1, 2)))


def _weights(one: Character, start: date, today: date, draw: random.Random) -> Iterator[Row]:
    day = start + timedelta(days=5)
    while day < today:
        mass = mass_on(one, day) * draw.gauss(1, 0.012)
        yield _row(day, "weighed", one, mass_g=f"{mass:.1f}" if mass < 100 else f"{mass:.0f}")
        day += timedelta(days=draw.randint(26, 33))


def _shed_days(one: Character, start: date, today: date, draw: random.Random) -> Iterator[date]:
    day = start + timedelta(days=draw.randint(10, one.shed_days))
    while day < today:
        yield day
        day += timedelta(days=round(one.shed_days * draw.lognormvariate(0, 0.13)))


def _shed(one: Character, day: date, draw: random.Random) -> Iterator[Row]:
    gecko = one.meal[1] == "insect"
    if not gecko:
        yield _row(day - timedelta(days=9), "shedding", one, stage="dull")
        yield _row(day - timedelta(days=7), "shedding", one, stage="opaque")
        yield _row(day - timedelta(days=3), "shedding", one, stage="clear")
    if draw.random() < 0.07:
        yield _row(day, "shed", one, outcome="pieces", retained="toes" if gecko else "tail tip")
    else:
        yield _row(day, "shed", one, outcome="eaten" if gecko else "one piece")


def _care(one: Character, start: date, today: date, draw: random.Random) -> Iterator[Row]:
    day = start
    while day < today:
        full = draw.random() < 0.2
        yield _row(day, "cleaned", one, extent="full" if full else "spot")
        yield _row(day, "watered", one)
        day += timedelta(days=draw.randint(5, 8))


def _row(day: date, kind: str, one: Character, **fields: str) -> Row:
    about = {"enclosure": one.enclosure} if kind in ("cleaned", "watered") else {"animal": one.code}
    return dict.fromkeys(COLUMNS, "") | {"date": day.isoformat(), "kind": kind} | about | fields
