"""What a reference says of an animal's course: major centile lines crossed, own channel left.

The animal's channel is the median z of its weighings in the year before the last month. Only a
dozen of them are scored, so that ten years of weighings cost no more than one.
"""

from __future__ import annotations

from bisect import bisect
from math import ceil

from msgspec import Struct

from warmside.api import Level, Source
from warmside.plugins.weight.course.limits import CHANNEL, DEFAULTS, LINES, MAJOR_CENTILES, Limits
from warmside.plugins.weight.course.series import Weighings, day_text, middle
from warmside.plugins.weight.course.sign import Sign, WeightSign
from warmside.plugins.weight.lms.lms import TAIL_Z, LmsCurve, Score, centile_of, score

_MOST = 12
_CHANNEL_DAYS = 365
_GAP_DAYS = 28  # the channel is what was before the last month
_LEAST = 3


class Channel(Struct, frozen=True):
    """The animal's usual z and centile before the last month, and the latest score against it."""

    usual: Score
    latest: Score
    events: tuple[int, ...]
    since: float


def channel(those: Weighings, hatched: float, curve: LmsCurve) -> Channel | None:
    """The channel and the latest score; None with fewer than three earlier weighings in a year.

    Weighings at ages that the curve does not cover are left out; `hatched` is a day.
    """
    if not len(those) or not curve.covers(those.days[-1] - hatched):
        return None
    last = those.days[-1]
    first = max(last - _CHANNEL_DAYS, hatched + curve.ages_days[0])
    before = those.between(first, last - _GAP_DAYS)
    before = before[:: ceil(len(before) / _MOST)] if len(before) else before
    if len(before) < _LEAST:
        return None
    usual = middle(
        score(mass, curve.at(day - hatched)).z
        for day, mass in zip(before.days, before.masses_g, strict=True)
    )
    latest = score(those.masses_g[-1], curve.at(last - hatched))
    events = (*before.events, those.events[-1])
    return Channel(_score(usual), latest, events, before.days[0])


def centile_sign(
    those: Weighings, hatched: float, curve: LmsCurve, source: Source, limits: Limits = DEFAULTS
) -> WeightSign | None:
    """Two major centile lines crossed, or else the own channel left by `channel_shift`.

    A fall is to be looked at soon, a rise is a note. The words name the reference; with an
    invented one they say so.
    """
    found = channel(those, hatched, curve)
    if found is None:
        return None
    shift = found.latest.z - found.usual.z
    lines = abs(_place(found.latest.centile) - _place(found.usual.centile))
    if lines < 2 and abs(shift) < limits.channel_shift:
        return None
    way = "fallen" if shift < 0 else "risen"
    what = f"crossed {lines} major centile lines" if lines >= 2 else "left its own channel"
    words = (
        f"{way} from about centile {found.usual.centile:.0f} (since {day_text(found.since)}) to "
        f"{found.latest.centile:.0f} on {day_text(those.days[-1])}: {what}; "
        f"reference: {source.text or 'not named'} ({source.mark})"
    )
    sign = Sign.CENTILE_LINES if lines >= 2 else Sign.OFF_CHANNEL
    level = Level.LOOK_SOON if shift < 0 else Level.NOTE
    rule = LINES if lines >= 2 else CHANNEL
    return WeightSign(sign, level, words, found.events, rule, shift)


def _place(centile: float) -> int:
    return bisect(MAJOR_CENTILES, centile)


def _score(z: float) -> Score:
    return Score(z, centile_of(z), abs(z) > TAIL_Z)
