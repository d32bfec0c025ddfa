"""How warm the zones of an enclosure were of late, for other plugins that ask."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import OWN_RECORDS, About, Basis, Book, Estimate, Unit
from warmside.plugins.habitat.logs.probes import Measure, Probe
from warmside.plugins.habitat.reading.loggers import probes_of, used
from warmside.plugins.habitat.reading.measured import extremes, mean, midnight

Spread = tuple[float, float, float]
"""Least, mean and most."""
DAYS = 14
"""So many days up to the one that is asked about are drawn together."""


def zone_air(book: Book, about: object, on: date) -> Iterator[Estimate]:
    """The mean of each zone over two weeks, with the least and the most; °C.

    Of an enclosure, or of an animal's home; nothing where no logger was read out of late.
    """
    if not isinstance(about, About):
        return
    zones = defaultdict[str, list[tuple[str, Spread]]](list)
    for logger in used(book, on, about):
        for probe in probes_of(book, logger):
            if probe.measure is Measure.AIR and (found := _spread(book, probe, on)):
                zones[probe.zone].append((logger.name, found))
    for zone, read in zones.items():
        lows, means, highs = zip(*(spread for _, spread in read), strict=True)
        by = " and ".join(dict.fromkeys(name for name, _ in read))
        basis = Basis(f"mean of {DAYS} days of {zone} by {by}", OWN_RECORDS)
        yield Estimate(sum(means) / len(means), min(lows), max(highs), Unit.TEMPERATURE, basis)


def _spread(book: Book, probe: Probe, on: date) -> Spread | None:
    """Least, mean and most, kept until readings come: two weeks of minutes are many."""
    first = midnight(on - timedelta(days=DAYS - 1), book.home.zone)
    after = midnight(on + timedelta(days=1), book.home.zone)

    def make() -> Spread | None:
        ends = extremes(book, probe, first, after)
        return (ends[0], mean(book, probe, first, after), ends[1]) if ends else None

    key = f"habitat.air:{probe.id}:{probe.offset}:{first}:{after}"
    found = book.derived(key, ("habitat_reading",), make)
    return found and (found[0], found[1], found[2])
