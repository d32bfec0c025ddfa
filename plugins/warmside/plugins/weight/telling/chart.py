"""The chart of an animal's weights: centile or prediction bands, meals and sheds as marks below."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from warmside.api import Display, Part, Tone, Unit, Words, charts
from warmside.plugins.weight.course.series import day_text, gram_text
from warmside.plugins.weight.course.sign import Course
from warmside.plugins.weight.course.standing import Standing
from warmside.plugins.weight.course.trend import expected_from_trend
from warmside.plugins.weight.course.weights import Weights
from warmside.plugins.weight.growth.growth import Growth, band
from warmside.plugins.weight.lms.lms import LmsCurve, mass_at, z_of_centile
from warmside.plugins.weight.slips.suspicion import slipped_events

AHEAD_DAYS = 60.0
OUTER, INNER = (5.0, 95.0), (25.0, 75.0)
_STEPS = 80


OwnGrowth = Callable[[], Growth | None]


def chart_of(it: Standing, own: OwnGrowth, since: date | None = None) -> tuple[Part, ...]:
    """The chart, and words for weighings that were left off it; nothing without a weighing.

    `own` gives the animal's growth curve; it is asked only where no centiles can be drawn.
    """
    weights, on = it.weights, it.on
    first = float(since.toordinal()) if since else -1.0
    those = weights.sound.between(first, on.toordinal() + 1)
    if not len(those):
        return (Words("no weight on record to draw"),)
    days = _grid(those.days[0], max(those.days[-1], float(on.toordinal())) + AHEAD_DAYS)
    lines, bands, what = _expected(it, own, days)
    marks = [
        charts.MarkRow("meals", _within([day for day, _ in weights.meals], days), "|"),
        charts.MarkRow("sheds", _within(weights.course.sheds, days), "s"),
        charts.MarkRow("clutches", _within(weights.course.laid, days), "o"),
    ]
    chart = charts.Chart(
        "chart",
        f"Weight of {weights.animal.label} with {what}",
        "date",
        "mass",
        Unit.MASS,
        (charts.Line("weighed", those.days, those.masses_g, points=True), *lines),
        bands,
        tuple(m for m in marks if m.x),
    )
    return (chart, *_left_off(weights, it.limits.display))


def _expected(
    it: Standing, own: OwnGrowth, days: Sequence[float]
) -> tuple[tuple[charts.Line, ...], tuple[charts.Band, ...], str]:
    reference, hatched = it.reference, it.weights.hatched
    if reference is not None and hatched is not None:
        lines, bands = centile_bands(reference.curve, days, hatched)
        if bands:
            mark = reference.source.mark
            return lines, bands, f"the centiles of {reference.stored.name} ({mark})"
    grown = own()
    if grown is not None:
        x, middle, low, high = band(grown, days)
        title = "95 % prediction range"
        drawn = (charts.Line(f"own curve, {grown.best.shape.name}", x, middle),)
        return drawn, (charts.Band(title, x, low, high),), "its own growth curve"
    return _from_trend(it.weights.course, days)


def centile_bands(
    curve: LmsCurve, days: Sequence[float], hatched: float
) -> tuple[tuple[charts.Line, ...], tuple[charts.Band, ...]]:
    """The median and the bands of 5th to 95th and 25th to 75th centile on days the curve covers."""
    x = tuple(day for day in days if curve.covers(day - hatched))
    if not x:
        return (), ()

    def at(centile: float) -> tuple[float, ...]:
        z = z_of_centile(centile)
        return tuple(mass_at(z, curve.at(day - hatched)) for day in x)

    bands = tuple(
        charts.Band(f"{low:.0f}th to {high:.0f}th centile", x, at(low), at(high))
        for low, high in (OUTER, INNER)
    )
    return (charts.Line("median", x, at(50.0)),), bands


def _from_trend(
    course: Course, days: Sequence[float]
) -> tuple[tuple[charts.Line, ...], tuple[charts.Band, ...], str]:
    those = course.weighings
    x = tuple(day for day in days if day >= those.days[-1])
    found = [e for day in x if (e := expected_from_trend(those, day, course.laid)) is not None]
    if len(found) < len(x) or not x:
        return (), (), "no prediction"
    line = charts.Line("expected", x, tuple(e.value for e in found))
    title = "range of what is expected"
    low, high = tuple(e.low for e in found), tuple(e.high for e in found)
    return (line,), (charts.Band(title, x, low, high),), "what its last weighings lead to expect"


def _grid(first: float, last: float) -> tuple[float, ...]:
    return tuple(first + (last - first) * i / _STEPS for i in range(_STEPS + 1))


def _within(marks: Sequence[float], days: Sequence[float]) -> tuple[float, ...]:
    return tuple(float(int(day)) for day in marks if days[0] <= day <= days[-1])


def _left_off(weights: Weights, display: Display) -> tuple[Words, ...]:
    slipped = [e for e in weights.all.events if e in slipped_events(weights.doubts)]
    named = [
        f"{gram_text(weights.mass_of(e), display)} on {day_text(weights.day_of(e))}"
        for e in slipped
    ]
    if not named:
        return ()
    text = f"left off the chart, since in doubt: {', '.join(named)}; see: warmside weight doubts"
    return (Words(text, Tone.CAUTION),)
