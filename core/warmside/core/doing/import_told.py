"""What an import did or would do, in words and tables."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from textwrap import shorten, wrap

from warmside.core.answers.parts import Answer, Column, Fact, Kind, Part, Table, Tone, Words
from warmside.core.asking.ask import Ask
from warmside.core.csv.causes import causes, lines_said
from warmside.core.csv.plan import Plan
from warmside.core.csv.sheet.asked import Open
from warmside.core.record.entities import Event, NewEvent
from warmside.core.values.errors import Doubtful, WarmsideError
from warmside.core.values.units import Unit

Objections = Sequence[tuple[str, WarmsideError]]
"""What plugins have against events: the plugin, and what it raised."""
MOST_SHOWN = 20
SAMPLE = 3
WIDTH, MOST_LINES = 79, 15  # of a terminal of 80 columns and 24 lines
SAMPLE_COLUMNS = (Column("when", "when"), Column("subject", "subject"), Column("what", "what"))


def sample(ask: Ask, new: Sequence[NewEvent]) -> tuple[tuple[str, str, str], ...]:
    """Three events as they would be recorded, of as many kinds as there are."""
    first = {event.kind: event for event in reversed(new)}
    chosen = [e for e in new if first[e.kind] is e] + [e for e in new if first[e.kind] is not e]
    told = [
        Event(0, e.kind, e.animal_id, e.enclosure_id, e.day, e.at, e.data, e.note, 0, None)
        for e in chosen[:SAMPLE]
    ]
    return tuple((ask.when_words(e), ask.subject_words(e), ask.event_words(e)) for e in told)


def sample_table(rows: tuple[tuple[str, str, str], ...]) -> Table:
    """The sample under its columns."""
    return Table("sample", SAMPLE_COLUMNS, rows, "As they are recorded", empty="")


def told(
    made: Plan,
    source: Path,
    dry_run: bool,
    saved: Path | None,
    believed: Sequence[str] = (),
    shown: tuple[tuple[str, str, str], ...] = (),
    against: Objections = (),
) -> Answer:
    """What was or would be done, and what plugins would have `against` it."""
    unsaid = [(n, f"{field} is not said") for field, ns in made.unsaid.items() for n in ns]
    doubtful = [*made.doubtful, *unsaid]
    verb = "would import" if dry_run else "imported"
    parts: list[Part] = [
        Words(f"{verb} {events_of(made)} from {source}"),
        Fact("new", "new", len(made.new), Unit.COUNT),
        Fact("same", "on record already", len(made.same), Unit.COUNT),
        Fact("bad", "bad", len(made.bad), Unit.COUNT),
        Fact("doubtful", "doubtful", len(doubtful), Unit.COUNT),
        causes_table("bad_lines", made.bad, "Bad lines"),
        causes_table("doubtful_lines", doubtful, "Doubtful lines"),
        against_table(against),
    ]
    left = len(made.left_out) + (0 if dry_run else sum(map(len, made.unsaid.values())))
    if left:
        parts.append(Words(f"left out: {'1 row' if left == 1 else f'{left} rows'}"))
    parts += [Words(_believed(believed))] if believed else []
    if shown:
        parts.append(sample_table(shown))
    if saved is not None:
        parts.append(Words(f"saved the mapping; next time: --map {saved}"))
    if not dry_run and made.new:
        parts.append(Words("warmside undo (takes back the whole import)", Tone.HINT))
    return Answer("", tuple(parts))


def belief(believed: Sequence[str], shown: tuple[tuple[str, str, str], ...]) -> list[str]:
    """What is believed and some events, in lines that leave room for a question on one screen."""
    lines = wrap(f"{_believed(believed)}.", WIDTH)
    if len(lines) > MOST_LINES:
        lines = [*lines[: MOST_LINES - 1], "and more; all of it: --dry-run"]
    events = (shorten("  ".join(row), WIDTH - 2, placeholder=" …") for row in shown)
    return [*lines, "as they would be recorded:", *(f"  {event}" for event in events)]


def _believed(believed: Sequence[str]) -> str:
    return f"believed of the sheet: {'; '.join(believed)}"


def events_of(made: Plan) -> str:
    """How many events are new, in words."""
    return "1 event" if len(made.new) == 1 else f"{len(made.new)} events"


def causes_table(key: str, found: list[tuple[int, str]], title: str) -> Table:
    """What is wrong or doubtful, each cause once, with the lines of the file that have it."""
    columns = (
        Column("where", "where"),
        Column("problem", "problem"),
        Column("rows", "rows", Unit.COUNT, text=False),
        Column("lines", "lines", Kind.LIST, text=False),
    )
    every = causes(found)
    more = f" (the first {MOST_SHOWN} of {len(every)} causes)" if len(every) > MOST_SHOWN else ""
    rows = tuple(
        (lines_said(c.lines), c.problem, len(c.lines), c.lines) for c in every[:MOST_SHOWN]
    )
    return Table(key, columns, rows, f"{title}{more}", empty="")


def against_table(against: Objections) -> Table:
    """What plugins would ask about, or refuse, each thing once."""
    columns = (Column("plugin", "plugin"), Column("so", "would"), Column("what", "what"))
    rows = tuple(
        (plugin, "ask" if isinstance(error, Doubtful) else "refuse", words)
        for plugin, error in against
        for words in (error.doubts if isinstance(error, Doubtful) else (str(error),))
    )
    return Table("against", columns, rows, "What plugins have against it", empty="")


def still_to_say(source: Path, asked: Open) -> Answer:
    """What the keeper must say before a sheet can be read: each question with its option."""
    columns = (Column("question", "to be said first"), Column("option", "with"))
    rows = tuple((question.words, question.option) for question in asked.questions)
    parts: list[Part] = [
        Words(f"{source} cannot be read yet; nothing was imported"),
        *([Words(_believed(asked.believed))] if asked.believed else []),
        Table("questions", columns, rows),
    ]
    return Answer("", tuple(parts), exit_code=asked.exit_code)
