"""A season as a timeline: cooling, what was seen, the days of laying, the eggs of hers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from warmside.api import Ask, timelines
from warmside.plugins.lineage.reading.eggs import Incubation
from warmside.plugins.lineage.reading.season import Season
from warmside.plugins.lineage.season.course import Sign

SIGNS = {
    Sign.MATED: "m",
    Sign.OVULATION: "o",
    Sign.LAYING_SHED: "s",
    Sign.SUSPECTED: "?",
    Sign.CONFIRMED: "g",
    Sign.LAYING: "l",
}
LOOK_BACK = timedelta(days=365)


def season_line(
    ask: Ask, season: Season, eggs: Sequence[Incubation], on: date
) -> Iterator[timelines.Timeline]:
    """Nothing where there is nothing to draw."""
    rows = (
        _cooling(ask, season, on),
        _seen(season),
        _window(season),
        *(_eggs(i, on) for i in eggs),
    )
    drawn = tuple(row for row in rows if row.spans or row.moments)
    if not drawn:
        return
    days = [d for row in drawn for s in row.spans for d in (s.start, s.end)]
    days += [m.day for row in drawn for m in row.moments]
    start, end = min([*days, on]), max([*days, on])
    yield timelines.Timeline("season", "Season", start, end, drawn, on)


def _cooling(ask: Ask, season: Season, on: date) -> timelines.TimelineRow:
    """The winter coolings of the last year; one that runs ends today."""
    spans: list[timelines.Span] = []
    begun: date | None = None
    told = ask.book.events("cooling", animal=season.animal.id, since=on - LOOK_BACK, until=on)
    for event in told:
        if event.data["state"] == "begun":
            begun = event.day
        elif begun is not None:
            spans.append(timelines.Span(begun, event.day, "cooled"))
            begun = None
    if begun is not None:
        spans.append(timelines.Span(begun, on, "cooled"))
    return timelines.TimelineRow("cooling", tuple(spans))


def _seen(season: Season) -> timelines.TimelineRow:
    moments = (
        timelines.Moment(s.day, SIGNS[s.sign], s.sign.value)
        for s in season.course.signs
        if s.sign in SIGNS
    )
    return timelines.TimelineRow("seen", (), tuple(moments))


def _window(season: Season) -> timelines.TimelineRow:
    window, figures = season.window, season.figures
    if window is None:
        return timelines.TimelineRow("laying")
    title = "birth" if figures and figures.bears_live else "laying"
    span = timelines.Span(window.earliest, window.latest, "expected", strong=False)
    return timelines.TimelineRow(title, (span,))


def _eggs(found: Incubation, on: date) -> timelines.TimelineRow:
    """From laying to today, then the days in which they are to hatch."""
    spans = []
    if found.eggs.laid is not None:
        spans.append(timelines.Span(found.eggs.laid, on, "in the incubator"))
    window = found.window
    if window is not None and window.latest > on:
        start = max(window.earliest, on + timedelta(days=1))
        spans.append(timelines.Span(start, window.latest, "to hatch", strong=False))
    return timelines.TimelineRow(f"clutch {found.clutch.code}", tuple(spans))
