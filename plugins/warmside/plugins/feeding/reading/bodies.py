"""The weights, girths and temperatures of animals."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from datetime import date, timedelta

from warmside.api import Book, Event, Whereabouts
from warmside.plugins.feeding.meals.records import Weighing
from warmside.plugins.feeding.reading.whose import OF_THESE, whose

# Common practice, no source: an older girth says little of a growing or fasting animal.
GIRTH_DAYS = 180
# Readings of the enclosure that stand for how warm the animal lives now.
CLIMATE_DAYS = 60
Readings = tuple[list[float], list[float]]
Read = tuple[str, float | None, float | None]
# Named by animal and by enclosure, so that their index is used.
WEIGHED = (
    "SELECT animal_id, day, json_extract(data, '$.mass_g'), id FROM event "
    f"WHERE {OF_THESE} AND kind = 'weighed' AND replaced_by IS NULL "
    "AND day >= ? AND day <= ? ORDER BY day, at, id"
)
GIRTHS = (
    "SELECT animal_id, json_extract(data, '$.girth_mm') FROM event "
    f"WHERE {OF_THESE} AND kind = 'measured' AND replaced_by IS NULL "
    "AND day >= ? AND day <= ? AND json_extract(data, '$.girth_mm') > 0 ORDER BY day, at, id"
)
CLIMATE = (
    "SELECT enclosure_id, day, json_extract(data, '$.warm_c'), json_extract(data, '$.cool_c') "
    "FROM event WHERE enclosure_id IN (SELECT id FROM enclosure) AND kind = 'climate' "
    "AND replaced_by IS NULL AND day >= ? AND day <= ? ORDER BY day, at, id"
)


def weighings(book: Book, animal_id: int, since: date, until: date) -> tuple[Weighing, ...]:
    """The weights of an animal between two days, oldest first."""
    found = book.events("weighed", animal=animal_id, since=since, until=until)
    return tuple(Weighing(e.day, e.data["mass_g"], e.id) for e in found)


def all_weighings(book: Book, since: date, until: date) -> Mapping[int, tuple[Weighing, ...]]:
    """As `weighings`, of all animals at once."""

    def make() -> Mapping[int, tuple[Weighing, ...]]:
        found = defaultdict[int, list[Weighing]](list)
        asked = [whose(book, "weighed", until), since.isoformat(), until.isoformat()]
        for animal_id, day, mass_g, id in book.rows(WEIGHED, asked):
            found[animal_id].append(Weighing(date.fromisoformat(day), mass_g, id))
        return {a: tuple(weights) for a, weights in found.items()}

    return book.once(("feeding", "weighings", since, until), make)


def all_girths_mm(book: Book, on: date) -> Mapping[int, float]:
    """As `girth_mm`, of all animals that have one."""

    def make() -> Mapping[int, float]:
        since = on - timedelta(days=GIRTH_DAYS)
        asked = [whose(book, "measured", on), since.isoformat(), on.isoformat()]
        return dict(book.rows(GIRTHS, asked))

    return book.once(("feeding", "girths", on), make)


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
    read = _all_climate(book, on).get(where.enclosure_id or 0)
    if read is None:
        return None
    since = where.since.isoformat()
    warm = [c for day, c, _ in read if day >= since and c is not None]
    return warm, [c for day, _, c in read if day >= since and c is not None]


def _all_climate(book: Book, on: date) -> Mapping[int, list[Read]]:
    """The late readings of all enclosures."""

    def make() -> Mapping[int, list[Read]]:
        found = defaultdict[int, list[Read]](list)
        since = on - timedelta(days=CLIMATE_DAYS)
        for place, *read in book.rows(CLIMATE, [since.isoformat(), on.isoformat()]):
            found[place].append((read[0], read[1], read[2]))
        return found

    return book.once(("feeding", "climate", on), make)
