"""How damp the air of an enclosure was of late, where a shed may be near."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.api import Ask
from warmside.plugins.habitat.kinds import ZONE_READ
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.reading.loggers import probes_in
from warmside.plugins.habitat.reading.measured import last_reading, mean, moment

FRESH_S, SPAN_S = 8 * 86400, 2 * 86400
"""A logger's newest reading is of the last week or so, and its last two days are looked at."""
BY_HAND_DAYS = 3


def percent_of_late(ask: Ask, enclosure_id: int, on: date) -> float | None:
    """The humidity in % of its dampest place: of loggers the mean of two days, by hand the
    newest of each place. None where nothing was read of late."""
    found = [*_logged(ask, enclosure_id, on), *_by_hand(ask, enclosure_id, on)]
    return max(found, default=None)


def _logged(ask: Ask, enclosure_id: int, on: date) -> list[float]:
    now, found = moment(ask.book, on), []
    for probe in probes_in(ask.book, enclosure_id):
        last = last_reading(ask.book, probe, on) if probe.measure is Measure.HUMIDITY else None
        if last is not None and last[0] >= now - FRESH_S:
            found.append(mean(ask.book, probe, last[0] - SPAN_S, last[0] + 1))
    return found


def _by_hand(ask: Ask, enclosure_id: int, on: date) -> list[float]:
    since = on - timedelta(days=BY_HAND_DAYS)
    newest: dict[str, float] = {}
    kinds = (ZONE_READ.name, "climate")
    for event in ask.book.events(*kinds, enclosure=enclosure_id, since=since, until=on):
        if (percent := event.data.get("humidity_percent")) is not None:
            newest[str(event.data.get("zone", ""))] = float(percent)
    return list(newest.values())
