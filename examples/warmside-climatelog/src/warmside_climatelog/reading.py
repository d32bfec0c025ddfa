"""What the record holds of sensors and their readings; the only reader of the book."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from warmside.api import About, Ask, Book, NotFound, Valued, near_miss
from warmside_climatelog.climate.day_here import DayHere, Measured
from warmside_climatelog.climate.days import QUARTER_S, Day, Quarter, bounds, days_of, whole
from warmside_climatelog.climate.limits import in_use
from warmside_climatelog.climate.logfile import FIRST_YEAR
from warmside_climatelog.climate.sensors import Reading, Sensor

SENSORS = (
    "SELECT id, enclosure_id, name, zone, offset_mk, left_mm, back_mm, since, checked, stopped "
    "FROM climatelog_sensor ORDER BY name"
)
QUARTERS = (
    f"SELECT sensor_id, at / {QUARTER_S}, min(value), max(value), sum(value), count(*) "
    "FROM climatelog_reading {where} GROUP BY 1, 2 ORDER BY 1, 2"
)
LAST = (
    "SELECT at, value FROM climatelog_reading WHERE sensor_id = ? AND at <= ? "
    "ORDER BY at DESC LIMIT 1"
)
FIRST_DAY = date(FIRST_YEAR, 1, 1)


def sensors(book: Book) -> list[Sensor]:
    """Every sensor, by name."""
    return book.once(("climatelog", "sensors"), lambda: [_sensor(r) for r in book.rows(SENSORS)])


def _sensor(row: tuple[Any, ...]) -> Sensor:
    id, enclosure, name, zone, offset, left, back, *days = row
    place = None if left is None or back is None else (left, back)
    since, checked, stopped = (date.fromisoformat(d) if d else None for d in days)
    assert since is not None
    return Sensor(id, enclosure, name, zone, offset, place, since, checked, stopped)


def sensor_named(book: Book, name: str) -> Sensor:
    """The sensor of that name; near misses are suggested."""
    known = {s.name.casefold(): s for s in sensors(book)}
    if name.casefold() not in known:
        hint = near_miss(name, [s.name for s in known.values()])
        raise NotFound(f"there is no sensor {name!r}{hint}; see: warmside climatelog list")
    return known[name.casefold()]


def sensors_in(book: Book, enclosure_id: int | None, on: date) -> list[Sensor]:
    """The sensors that hang in an enclosure on a day."""
    return [s for s in sensors(book) if s.enclosure_id == enclosure_id and in_use(s, on)]


def hanging(book: Book, on: date, about: About | None = None) -> list[Sensor]:
    """The sensors in use on a day: all, or those of an enclosure or of an animal's home."""
    if about is not None:
        return sensors_in(book, home_of(book, about, on), on)
    return [s for s in sensors(book) if in_use(s, on)]


def home_of(book: Book, about: About, on: date) -> int | None:
    """The enclosure itself, or that in which the animal lives on a day."""
    if about.enclosure_id is not None or about.animal_id is None:
        return about.enclosure_id
    return book.whereabouts(on)[about.animal_id].enclosure_id


def moment(book: Book, on: date) -> int:
    """Now, or the end of a day that is over, in seconds since 1970."""
    return min(int(book.now.timestamp()), bounds(on, book.home.zone)[1] - 1)


def set_up(book: Book, sensor: Sensor) -> int:
    """The first instant of the day on which the sensor was hung."""
    return bounds(sensor.since, book.home.zone)[0]


def last_reading(book: Book, sensor: Sensor, on: date) -> Reading | None:
    """The newest reading up to a day."""
    rows = book.rows(LAST, (sensor.id, moment(book, on)))
    return Reading(rows[0][0], sensor.degrees(rows[0][1])) if rows else None


def quarters(book: Book, sensor: Sensor, on: date) -> list[Quarter]:
    """The readings of a day, by quarter hours."""
    first, after = bounds(on, book.home.zone)
    query = QUARTERS.format(where="WHERE sensor_id = ? AND at >= ? AND at < ?")
    make = lambda: [r[1:] for r in book.rows(query, (sensor.id, first, after))]  # noqa: E731
    return book.once(("climatelog", "quarters", sensor.id, on), make)


def recent(book: Book, sensor: Sensor, hours: int) -> list[Quarter]:
    """The readings of the last hours up to now, by quarter hours."""
    now = int(book.now.timestamp())
    query = QUARTERS.format(where="WHERE sensor_id = ? AND at >= ? AND at <= ?")
    return [r[1:] for r in book.rows(query, (sensor.id, now - hours * 3600, now))]


def day(book: Book, sensor: Sensor, on: date) -> Day | None:
    """The lowest, highest and mean reading of a day, if there is any."""
    found = quarters(book, sensor, on)
    return whole(found) if found else None


def days(book: Book, sensor: Sensor, last: int, on: date) -> dict[date, Day]:
    """The last days up to `on` on which the sensor measured something, oldest first."""
    found = _all_days(book).get(str(sensor.id), [])
    since = on - timedelta(days=last - 1)
    kept = ((date.fromisoformat(d), Day(*numbers)) for d, *numbers in found)
    return {d: numbers for d, numbers in kept if since <= d <= on}


def _all_days(book: Book) -> dict[str, list[list[Any]]]:
    """Every day of every sensor; kept across runs, since it reads the whole series."""
    key = f"climatelog.days {book.home.zone.key}"
    found: dict[str, list[list[Any]]]
    found = book.derived(key, ["climatelog_reading"], lambda: _read_days(book))
    return found


def _read_days(book: Book) -> dict[str, list[list[Any]]]:
    by_sensor: dict[int, list[Quarter]] = {}
    for id, *quarter in book.stream(QUARTERS.format(where="")):
        by_sensor.setdefault(id, []).append(tuple(quarter))
    return {
        str(id): [
            [d.isoformat(), n.low, n.high, n.mean, n.readings]
            for d, n in days_of(found, book.home.zone).items()
        ]
        for id, found in by_sensor.items()
    }


def limit(ask: Ask, enclosure_id: int, on: date) -> Valued:
    """The highest temperature that a place should have: the lowest of those who live there."""
    inside = ask.book.occupants(on).get(enclosure_id, ())
    whom = [About(animal, enclosure_id) for animal in inside] or [About(None, enclosure_id)]
    return min((ask.value("climatelog", "most", w) for w in whom), key=lambda v: float(v.value))


def day_here(ask: Ask, enclosure_id: int, on: date) -> DayHere:
    """All that is told of an enclosure's day."""
    book = ask.book
    measured = [
        Measured(s, last_reading(book, s, on), tuple(quarters(book, s, on)))
        for s in sensors_in(book, enclosure_id, on)
    ]
    place, most = book.enclosures[enclosure_id], limit(ask, enclosure_id, on)
    return DayHere(place, on, tuple(measured), most, book.home.zone, book.home.display)


def misplaced(book: Book) -> tuple[list[str], int, int]:
    """Sensors without an enclosure; how many readings are too old, and how many are to come."""
    old = bounds(FIRST_DAY, book.home.zone)[0]
    homeless = [s.name for s in sensors(book) if s.enclosure_id is None]
    query = "SELECT count(*) FROM climatelog_reading WHERE "
    ((early,),) = book.rows(query + "at < ?", (old,))
    ((late,),) = book.rows(query + "at > ?", (int(book.now.timestamp()),))
    return homeless, early, late
