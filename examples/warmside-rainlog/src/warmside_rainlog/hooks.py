"""Where the plugin takes part: thin, since the computation is in rain.py."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import (
    Basis,
    Book,
    EventKind,
    Finding,
    LabelLine,
    Level,
    Mark,
    Section,
    Source,
    Task,
    days_ago_words,
    hookimpl,
)
from warmside_rainlog.rain import next_rain, soaked
from warmside_rainlog.reading import chambers, showers
from warmside_rainlog.records import RAINED
from warmside_rainlog.telling import days_words, rain_table

OWN = Source("the rain that the keeper set", Mark.KEEPERS_OWN)
THUMB = Source("rule of thumb", Mark.COMMON_PRACTICE)
SHOWN_DAYS = 14


@hookimpl
def warmside_event_kinds() -> list[EventKind]:
    """Rain in a chamber."""
    return [RAINED]


@hookimpl
def warmside_tasks(book: Book, on: date) -> Iterator[Task]:
    """Chambers in which it should rain."""
    last = book.latest_in(RAINED.name, on=on)[RAINED.name]
    for chamber in chambers(book):
        event = last.get(chamber.enclosure_id)
        due = next_rain(chamber, event.day if event else None)
        if due <= on:
            when = f"last {days_ago_words(event.day, on)}" if event else "never yet"
            yield Task(
                f"let it rain {chamber.minutes} min",
                due,
                Basis(f"{days_words(chamber.days)}, {when}", OWN, (event.id,) if event else ()),
                enclosure_id=chamber.enclosure_id,
                settles=RAINED.name,
                data={"minutes": chamber.minutes},
            )


@hookimpl
def warmside_findings(book: Book, on: date) -> Iterator[Finding]:
    """Chambers in which it rained too long that day."""
    most = book.setting("rainlog", "most_minutes")
    today = showers(book, on, on)
    for place, minutes in soaked(today, on, most).items():
        yield Finding(
            "rainlog.soaked",
            Level.LOOK_SOON,
            f"it rained {minutes} min; let the place dry and look whether water drains. Skin that "
            "changes is a matter for a vet who treats reptiles",
            Basis(
                f"more than {most} min of rain within a day",
                THUMB,
                tuple(s.event for s in today if s.enclosure_id == place),
            ),
            enclosure_id=place,
        )


@hookimpl
def warmside_label_lines(book: Book, animal_id: int, on: date) -> Iterator[LabelLine]:
    """The rain of the enclosure in which the animal lives, for a sitter."""
    place = book.whereabouts(on)[animal_id].enclosure_id
    for chamber in chambers(book):
        if chamber.enclosure_id == place:
            yield LabelLine(
                "rainlog.rain", f"rain {chamber.minutes} min {days_words(chamber.days)}"
            )


@hookimpl
def warmside_report_sections(book: Book, animal_id: int, on: date) -> Iterator[Section]:
    """The rain of the last two weeks where the animal lives."""
    place = book.whereabouts(on)[animal_id].enclosure_id
    if any(c.enclosure_id == place for c in chambers(book)):
        found = showers(book, on - timedelta(days=SHOWN_DAYS - 1), on, place)
        yield Section("Rain", (rain_table(found),), 450)
