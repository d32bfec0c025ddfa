"""Where an animal lives, and what was read there of late."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from warmside.core.answers.parts import Words
from warmside.core.asking.ask import Ask
from warmside.core.record.entities import Animal, Enclosure, Event
from warmside.core.values.quantities import format_quantity
from warmside.core.values.units import Unit

READ_WITHIN = timedelta(days=60)
READINGS = (
    ("warm_c", "warm side", Unit.TEMPERATURE),
    ("cool_c", "cool side", Unit.TEMPERATURE),
    ("humidity_percent", "humidity", Unit.PERCENT),
)


def housing(ask: Ask, animal: Animal, on: date) -> tuple[Words, ...]:
    """The enclosure with its size, and the least and most of what was read within two months."""
    place = ask.book.enclosures.get(ask.book.whereabouts(on)[animal.id].enclosure_id or 0)
    if place is None:
        return (Words("in no enclosure on record"),)
    read = ask.book.events("climate", enclosure=place.id, since=on - READ_WITHIN, until=on)
    said = "; ".join(_ranges(ask, read))
    last = f" (last on {read[-1].day})" if read else ""
    where = _where(ask, place)
    if not said:
        none = f"no temperature was written down in the last {READ_WITHIN.days} days"
        return (Words(f"{where}; {none}"),)
    return (Words(where), Words(f"read by the keeper{last}: {said}"))


def _where(ask: Ask, place: Enclosure) -> str:
    sides = (place.width_mm, place.depth_mm, place.height_mm)
    shown = ask.book.home.display
    known = [format_quantity(side, Unit.LENGTH, shown) for side in sides if side]
    size = f", inside {' × '.join(known)}" if known else ""
    return f"{place.name} ({place.code}){f', {place.room}' if place.room else ''}{size}"


def _ranges(ask: Ask, read: Sequence[Event]) -> Iterator[str]:
    shown = ask.book.home.display
    for key, title, unit in READINGS:
        values = [e.data[key] for e in read if e.data.get(key) is not None]
        if values:
            ends = [format_quantity(v, unit, shown) for v in (min(values), max(values))]
            yield f"{title} {ends[0] if ends[0] == ends[1] else ' to '.join(ends)}"
