"""The weights, girths and temperatures of one animal."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.api import Book, Event, Whereabouts
from warmside.plugins.feeding.meals.records import Weighing

# Common practice, no source: an older girth says little of a growing or fasting animal.
GIRTH_DAYS = 180
# Readings of the enclosure that stand for how warm the animal lives now.
CLIMATE_DAYS = 60
Readings = tuple[list[float], list[float]]


def weighings(book: Book, animal_id: int, since: date, until: date) -> tuple[Weighing, ...]:
    """The weights between two days, oldest first."""
    found = book.events("weighed", animal=animal_id, since=since, until=until)
    return tuple(Weighing(e.day, e.data["mass_g"], e.id) for e in found)


def girth_mm(book: Book, last: Event | None, on: date) -> float | None:
    """The last girth that is not too old; `last` is the last measuring, with a girth or not."""
    since = on - timedelta(days=GIRTH_DAYS)
    if last is None or last.day < since:
        return None
    if last.data["girth_mm"] is not None:
        return float(last.data["girth_mm"])
    known = book.events("measured", animal=last.animal_id, since=since, until=on)
    girths = [float(e.data["girth_mm"]) for e in known if e.data["girth_mm"]]
    return girths[-1] if girths else None


def climate_c(book: Book, where: Whereabouts, on: date) -> Readings | None:
    """Readings of the warm and the cool side where it lives, since it does; None without any."""
    since = on - timedelta(days=CLIMATE_DAYS)
    last = book.latest_in("climate", on=on)["climate"].get(where.enclosure_id or 0)
    if last is None or last.day < since:
        return None
    read = book.events(
        "climate", enclosure=where.enclosure_id, since=max(since, where.since), until=on
    )
    warm, cool = ([e.data[k] for e in read if e.data[k] is not None] for k in ("warm_c", "cool_c"))
    return warm, cool
