"""The hatchlings of the last weeks, and what was already done with each."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import About, Animal, Ask
from warmside.plugins.lineage.hatching.first_weeks import Hatchling
from warmside.plugins.lineage.reading.season import figures_of

NEW_DAYS = 90


def hatchlings(ask: Ask, on: date) -> Iterator[Hatchling]:
    """Young of clutches on record that hatched of late and are here."""
    since = on - timedelta(days=NEW_DAYS)
    for animal in map(ask.book.animals.__getitem__, ask.book.animals_here(on)):
        if animal.clutch_id is None or animal.hatched is None:
            continue
        if since <= animal.hatched.earliest <= on:
            yield _hatchling(ask, animal, animal.hatched.earliest, on)


def _hatchling(ask: Ask, animal: Animal, hatched: date, on: date) -> Hatchling:
    sheds = ask.book.events("shed", animal=animal.id, until=on)
    meals = ask.book.events("fed", animal=animal.id, until=on)
    eaten = [e for e in meals if e.data.get("outcome") in ("taken", "part taken")]
    figures, about = figures_of(ask, animal), About(animal.id)
    return Hatchling(
        animal,
        hatched,
        sheds[0].day if sheds else None,
        eaten[0].day if eaten else None,
        figures.first_shed if figures else None,
        int(ask.setting("lineage", "first_feed", about)),
        int(ask.setting("lineage", "sexing", about)),
    )
