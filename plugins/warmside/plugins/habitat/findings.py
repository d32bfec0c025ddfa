"""What readings of loggers, and of a UV meter, want looked at."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from warmside.api import (
    About,
    Basis,
    Display,
    Finding,
    Level,
    Mark,
    Source,
    Unit,
    days_ago_words,
    every_days,
    format_quantity,
)
from warmside.plugins.habitat.gradient.stretches import Alarm
from warmside.plugins.habitat.light.uv import FERGUSON, judged
from warmside.plugins.habitat.logs.probes import Logger
from warmside.plugins.habitat.reading.uv_here import Uv

LIMITS = Source("safe limits of who lives there; see warmside species show", Mark.COMMON_PRACTICE)
OWN = Source("the logger's own readings", Mark.KEEPERS_OWN)
_WHAT = {
    "hot": ("habitat.hot", "the coolest place measured was at {}, above {}"),
    "cold": ("habitat.cold", "the warmest place measured was at {}, below {}"),
    "failed": ("habitat.heat", "with the lights on it was at {}, below {}"),
    "over": ("habitat.overheats", "the warm side was at {}, far above its most ({} is the limit)"),
}
_DO = {
    "hot": "look at the animal, give it a way out of the heat, look at lamps and thermostat",
    "cold": "look at the animal and at the heat source",
    "over": "switch that heat source off, let it cool, and look at thermostat and probe: it can "
    "burn and start a fire; use it again only under control",
    "failed": "look whether lamp, heater and thermostat work; switch off what smells or is damaged",
}
UNPROVEN = (
    ", and no reading since says that it is well again; read the logger out, or note what a "
    "thermometer says (warmside record habitat.read)"
)
UV_WORDS = {
    "above": "above what its zone bears: raise the lamp or shade a part, and see that it can leave",
    "within": "within what its zone asks for",
    "below": "below what its zone asks for: the lamp may be worn, too far off, or behind glass",
    "far below": "far below what its zone asks for: the lamp may be worn, too far off, or behind "
    "glass, which holds UVB back",
}
FRESH_S = 24 * 3600


def outside(
    alarm: Alarm, enclosure_id: int, zone: ZoneInfo, display: Display, moment: int
) -> Finding:
    """Readings beyond a limit: to act on now while they are of the last day, else to look at."""
    code, said = _WHAT[alarm.what]
    value, limit = (
        format_quantity(c, Unit.TEMPERATURE, display) for c in (alarm.value, alarm.limit)
    )
    fresh = moment - alarm.until <= FRESH_S
    since, until = (_clock(at, zone) for at in (alarm.since, alarm.until))
    open_ = UNPROVEN if alarm.lasts and not fresh else ""
    return Finding(
        code,
        Level.ACT_NOW if fresh else Level.LOOK_SOON,
        f"{alarm.zone}: {said.format(value, limit)} from {since} to {until}{open_}: "
        f"{_DO[alarm.what]}; an animal that seems unwell is for a vet who treats reptiles",
        Basis(f"readings of the logger against {limit}", LIMITS),
        About(enclosure_id=enclosure_id),
    )


def stopped(logger: Logger, hours: float, last: int | None, zone: ZoneInfo) -> Finding:
    """A logger whose newest reading was old when it was read out."""
    said = f"its last reading is from {_clock(last, zone)}" if last else "it has no reading at all"
    return Finding(
        "habitat.silent",
        Level.ACT_NOW,
        f"{logger.name}: {said}, {hours:.0f} hours before it was read out: it has stopped; look at "
        "a thermometer now, then at battery and probe",
        Basis("a logger that is read out has readings up to that day", OWN),
        About(enclosure_id=logger.enclosure_id),
    )


def overdue(logger: Logger, days: int) -> Finding:
    """A logger that nobody has read out for three times its interval."""
    return Finding(
        "habitat.unread",
        Level.LOOK_SOON,
        f"{logger.name} was not read out for {days} days: until then nothing watches that place",
        Basis(every_days(logger.every_days), OWN),
        About(enclosure_id=logger.enclosure_id),
        task=f"read out {logger.id}",
    )


def uv_finding(found: Uv, enclosure_id: int, on: date) -> Iterator[Finding]:
    """Too much for whoever is inside, or too little for one that needs it."""
    if found.span is None or found.read is None:
        return
    said = judged(found.span, found.read.index)
    if said == "within" or (said != "above" and not found.is_needed):
        return
    level = Level.NOTE if said == "below" else Level.LOOK_SOON
    low, high = found.span
    yield Finding(
        "habitat.uv",
        level,
        f"the UV index at {found.read.where} was {found.read.index:g} "
        f"{days_ago_words(found.read.day, on)}, {UV_WORDS[said]}",
        Basis(f"{low:g} to {high:g} where it basks; {found.by}", FERGUSON),
        About(enclosure_id=enclosure_id),
    )


def _clock(at: int, zone: ZoneInfo) -> str:
    return f"{datetime.fromtimestamp(at, UTC).astimezone(zone):%Y-%m-%d %H:%M}"


def days_unread(logger: Logger, on: date) -> int:
    """For how many days a logger was not read out."""
    return (on - (logger.read_on or logger.since)).days
