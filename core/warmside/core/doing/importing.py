"""Importing a keeper's spreadsheet: all rows are one step, or none is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from warmside.core.answers.parts import Answer, Column, Fact, Kind, Part, Table, Tone, Words
from warmside.core.asking.ask import Ask
from warmside.core.csv.causes import causes, lines_said
from warmside.core.csv.events import outcomes
from warmside.core.csv.mapping import (
    CsvMapping,
    mapping_text,
    read_mapping,
    typed_fields,
    typed_words,
)
from warmside.core.csv.plan import Plan, plan
from warmside.core.csv.rows import CsvFile, read_csv, rows
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, Doubtful, FileProblem, Refused
from warmside.core.values.units import Unit

MOST_SHOWN = 20
Watch = Callable[[Iterable[Any], int], Iterable[Any]]
"""Gives the items as they are, and may count them against about so many."""


class Import(Struct, frozen=True):
    """The file, its mapping, what the options say over it, and what may pass."""

    source: Path
    map_file: Path | None = None
    options: Mapping[str, str | None] = field(default_factory=dict)
    fields: tuple[str, ...] = ()
    unsaid: tuple[str, ...] = ()
    encoding: str = "utf-8"
    save_map: Path | None = None
    dry_run: bool = False
    skip_bad: bool = False
    confirmed: bool = False


def import_events(
    session: Session, wanted: Import, watch: Watch = lambda items, _: items
) -> Answer:
    """Import the events; the same file twice changes nothing."""
    session.open()  # where there is none yet, that is said first
    saved = wanted.save_map
    if saved is not None and saved.exists():
        raise Refused(f"{saved} is there already; name another file for the mapping")
    mapping = mapped(wanted)
    file = read_csv(wanted.source, wanted.encoding)
    name = wanted.source.name
    with session.step(f"imported {name}", confirmed=wanted.confirmed) as writer:
        made = planned(session.asking(writer.book), mapping, file, watch)
        refuse_bad(made, wanted.source, wanted.skip_bad or wanted.dry_run)
        refuse_unsaid(made, wanted.confirmed or wanted.dry_run)
        refuse_doubtful(made, wanted.confirmed or wanted.dry_run)
        if not wanted.dry_run:
            writer.record_valid(made.new)
            writer.say(f"imported {events_of(made)} from {name}")
    if saved is not None:
        save(mapping, saved)
    return told(made, wanted.source, wanted.dry_run, saved)


def mapped(wanted: Import) -> CsvMapping:
    """The saved mapping, or the plain one, with the options over it."""
    mapping = read_mapping(wanted.map_file) if wanted.map_file else CsvMapping()
    given = {name: value for name, value in wanted.options.items() if value is not None}
    return replace(
        mapping,
        **given,
        fields={**mapping.fields, **typed_fields(wanted.fields)},
        unsaid={**mapping.unsaid, **typed_words(wanted.unsaid, "--unsaid")},
    )


def planned(ask: Ask, mapping: CsvMapping, file: CsvFile, watch: Watch) -> Plan:
    """The plan of the import, watched row by row."""
    lines = file.text.count("\n")
    read = outcomes(ask, mapping, file.columns, rows(file))
    return plan(ask, watch(read, lines))


def refuse_bad(made: Plan, source: Path, allowed: bool) -> None:
    """Raise BadInput naming the first causes, each with its lines."""
    if made.bad and not allowed:
        raise BadInput(
            f"{source}: {first_of([c.said for c in causes(made.bad)])}; nothing was imported; "
            "mend the file, look at all with --dry-run, or leave them out with --skip-bad"
        )


def refuse_doubtful(made: Plan, allowed: bool) -> None:
    """Raise Doubtful naming the first doubts, each with its lines."""
    if made.doubtful and not allowed:
        said = [c.said for c in causes(made.doubtful)]
        raise Doubtful(f"{first_of(said)}; nothing was imported", said)


def refuse_unsaid(made: Plan, allowed: bool) -> None:
    """Raise Doubtful where rows do not say what came of it; how to settle them all at once."""
    if made.unsaid and not allowed:
        said = [unsaid_words(field, lines) for field, lines in made.unsaid.items()]
        raise Doubtful(f"{first_of(said)}; nothing was imported; confirmed, they are left out")


def unsaid_words(field: str, lines: list[int]) -> str:
    """What rows leave unsaid, and the option that says it for all of them."""
    return (
        f"{lines_said(lines)}: {field} is not said, and is not guessed; say what it was with "
        f"--unsaid {field}=VALUE, or leave them out with --unsaid {field}=skip"
    )


def first_of(said: list[str]) -> str:
    """The first three of several sentences, and how many more there are."""
    more = f"; and {len(said) - 3} more causes" if len(said) > 4 else ""
    return "; ".join(said[: 3 if more else 4]) + more


def save(mapping: CsvMapping, path: Path) -> None:
    """Write the mapping to a new file."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(mapping_text(mapping))
    except OSError as error:
        raise FileProblem(f"cannot write {path}: {error.strerror}") from error


def told(made: Plan, source: Path, dry_run: bool, saved: Path | None) -> Answer:
    """What was or would be done."""
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
    ]
    left = len(made.left_out) + (0 if dry_run else sum(map(len, made.unsaid.values())))
    if left:
        parts.append(Words(f"left out: {'1 row' if left == 1 else f'{left} rows'}"))
    if saved is not None:
        parts.append(Words(f"saved the mapping; next time: --map {saved}"))
    if not dry_run and made.new:
        parts.append(Words("warmside undo (takes back the whole import)", Tone.HINT))
    return Answer("", tuple(parts))


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
