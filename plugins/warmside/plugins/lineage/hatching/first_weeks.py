"""What is asked of a hatchling in its first weeks, one after the other: shed, meal, sex."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from math import ceil

from msgspec import Struct

from warmside.api import About, Animal, Basis, Mark, Source, Task
from warmside.plugins.lineage.season.figures import Span

CUSTOM = Source("usual among keepers", Mark.COMMON_PRACTICE)
FEED_BY_DAYS = 7
SHED_DAYS = 14  # where nothing is known of the species
SEX = "its sex"
CAREFUL = "probing and pressing harm when done wrong: have it shown to you, or wait"


class Hatchling(Struct, frozen=True):
    """A young one bred here: hatched on a day, its first shed and its first meal, None before.

    `first_shed` is after how many days it usually sheds; the others are settings in days.
    """

    animal: Animal
    hatched: date
    shed: date | None
    fed: date | None
    first_shed: Span | None
    first_feed: int
    sexing: int


def first_tasks(young: Hatchling) -> Iterator[Task]:
    """The first shed, then the first meal; the sex once it has eaten, and it is never late."""
    about, animal = About(young.animal.id), young.animal
    if young.shed is None and young.fed is None:
        yield _shed_task(young, about)
    elif young.fed is None:
        since = young.shed or young.hatched
        due = since + timedelta(days=young.first_feed)
        yield Task(
            "offer its first meal",
            due,
            Basis(f"{young.first_feed} days after its first shed on {since}", CUSTOM),
            about,
            settles="fed",
            by=due + timedelta(days=FEED_BY_DAYS),
            key="first meal",
        )
    elif animal.sex == "unknown" and young.sexing:
        yield Task(
            "see its sex, where that can be done safely",
            max(young.hatched + timedelta(days=young.sexing), young.fed),
            Basis(f"{young.sexing} days after hatching", CUSTOM),
            about,
            data={"what": SEX},
            note=CAREFUL,
            key="sexing",
            may=True,
            asks=("its sex", "female"),
        )


def _shed_task(young: Hatchling, about: About) -> Task:
    span = young.first_shed
    low, high = (span.low, span.high) if span else (0.0, float(SHED_DAYS))
    source = span.source if span else CUSTOM
    return Task(
        "see its first shed",
        young.hatched + timedelta(days=round(low)),
        Basis(f"{low:g} to {high:g} days after hatching on {young.hatched}", source),
        about,
        settles="shed",
        by=young.hatched + timedelta(days=ceil(high)),
        key="first shed",
    )
