"""Which enclosures with animals were measured with too much or too little UV."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import About, Ask, Finding
from warmside.plugins.habitat.findings import uv_finding
from warmside.plugins.habitat.kinds import ZONE_READ
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.reading.describing import all_descriptions, described
from warmside.plugins.habitat.reading.loggers import probes, used
from warmside.plugins.habitat.reading.uv_here import OLD_DAYS, uv_here


def exposed(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Of each place where a UV index is on record; of others nothing is said."""
    known = _measured(ask, on)
    for enclosure, animals in ask.book.occupants(on).items() if known else ():
        meant = about is None or about.enclosure_id == enclosure or about.animal_id in animals
        if meant and enclosure in known:
            yield from uv_finding(uv_here(ask, enclosure, on), enclosure, on)


def _measured(ask: Ask, on: date) -> set[int]:
    """Enclosures with a UV index by hand, by a logger, or in their description."""
    since = on - timedelta(days=OLD_DAYS)
    read = ask.book.events(ZONE_READ.name, since=since, until=on)
    found = {e.enclosure_id for e in read if e.data.get("uv_index") is not None}
    hung = {p.logger_id for p in probes(ask.book) if p.measure is Measure.UV}
    found |= {one.enclosure_id for one in used(ask.book, on) if one.id in hung}
    told = {e for e, _, text in all_descriptions(ask.book) if "uv_index" in text}
    found |= {e for e in told if _is_told(ask, e, on)}
    return {enclosure for enclosure in found if enclosure is not None}


def _is_told(ask: Ask, enclosure_id: int, on: date) -> bool:
    set_up = described(ask.book, enclosure_id, on)
    return set_up is not None and any(light.uv_index is not None for light in set_up.lights)
