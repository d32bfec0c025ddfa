"""When what a described enclosure needs was last done; only of those that are lived in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import About, Ask, Task
from warmside.plugins.habitat import tasks
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.described.upkeep import OPAQUE_DAYS, Every, Known, due
from warmside.plugins.habitat.reading.dampness import percent_of_late
from warmside.plugins.habitat.reading.describing import all_descriptions, described
from warmside.plugins.habitat.reading.wanted import wanted


def upkeep(ask: Ask, on: date) -> Iterator[Task]:
    """The tasks of each described enclosure in which somebody lives."""
    since = {enclosure: day for enclosure, day, _ in reversed(all_descriptions(ask.book))}
    for enclosure, animals in ask.book.occupants(on).items() if since else ():
        found = described(ask.book, enclosure, on) if enclosure in since else None
        if found is None:
            continue
        known = _known(ask, enclosure, animals, found, min(since[enclosure], on), on)
        for one in due(found, known, _every(ask, enclosure), on):
            label = ask.book.animals[one.animal].label if one.animal is not None else ""
            yield tasks.upkeep(found, one, enclosure, label, on)


def opaque(ask: Ask, animals: tuple[int, ...], on: date) -> Iterator[tuple[int, date]]:
    """Who is opaque on a day and since when: the newest stage noted, and no shed since."""
    newest = ask.book.latest("shedding", "shed", on=on)
    for animal in animals:
        seen, shed = newest["shedding"].get(animal), newest["shed"].get(animal)
        if seen is None or seen.data["stage"] != "opaque" or (shed and shed.day >= seen.day):
            continue
        if on - seen.day <= timedelta(days=OPAQUE_DAYS):
            yield animal, seen.day


def _known(
    ask: Ask, enclosure: int, animals: tuple[int, ...], found: Enclosure, since: date, on: date
) -> Known:
    newest = ask.book.latest_in("watered", "misted", on=on)
    watered, misted = (newest[kind].get(enclosure) for kind in ("watered", "misted"))
    bedded = any(f.kind == "substrate" for f in found.fittings)
    return Known(
        since,
        watered.day if watered else None,
        _cleaned(ask, enclosure, on) if bedded else None,
        misted.day if misted else None,
        _in_dry_air(ask, enclosure, tuple(opaque(ask, animals, on)), on),
    )


def _in_dry_air(
    ask: Ask, enclosure: int, opaque: tuple[tuple[int, date], ...], on: date
) -> tuple[tuple[int, date], ...]:
    """None of them where the air was measured as damper than it should be: mist makes it wet."""
    span = wanted(ask, enclosure, on).humidity if opaque else None
    percent = percent_of_late(ask, enclosure, on) if span else None
    damp = span is not None and percent is not None and percent > span[1]
    return () if damp else opaque


def _cleaned(ask: Ask, enclosure: int, on: date) -> date | None:
    done = ask.book.events("cleaned", enclosure=enclosure, until=on)
    return max((e.day for e in done if e.data["extent"] == "full"), default=None)


def _every(ask: Ask, enclosure: int) -> Every:
    about = About(enclosure_id=enclosure)
    names = ("water_days", "substrate_days", "lamp_days", "mist_days")
    return Every(*(float(ask.value("habitat", name, about).value) for name in names))
