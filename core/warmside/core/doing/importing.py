"""Importing a keeper's spreadsheet: all rows are one step, or none is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from warmside.core.answers.parts import Answer, Column, Fact, Part, Table, Tone, Words
from warmside.core.asking.ask import Ask
from warmside.core.csv.events import outcomes
from warmside.core.csv.mapping import CsvMapping, mapping_text, read_mapping, typed_fields
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
    mapping = mapped(wanted.map_file, wanted.options, wanted.fields)
    file = read_csv(wanted.source, wanted.encoding)
    name = wanted.source.name
    with session.step(f"imported {name}", confirmed=wanted.confirmed) as writer:
        made = planned(session.asking(writer.book), mapping, file, watch)
        refuse_bad(made, wanted.source, wanted.skip_bad or wanted.dry_run)
        refuse_doubtful(made, wanted.confirmed or wanted.dry_run)
        if not wanted.dry_run:
            writer.record_valid(made.new)
            writer.say(f"imported {events_of(made)} from {name}")
    if saved is not None:
        save(mapping, saved)
    return told(made, wanted.source, wanted.dry_run, saved)


def mapped(
    path: Path | None, options: Mapping[str, str | None], fields: Iterable[str]
) -> CsvMapping:
    """The saved mapping, or the plain one, with the options over it."""
    mapping = read_mapping(path) if path else CsvMapping()
    given = {name: value for name, value in options.items() if value is not None}
    return replace(mapping, **given, fields={**mapping.fields, **typed_fields(fields)})


def planned(ask: Ask, mapping: CsvMapping, file: CsvFile, watch: Watch) -> Plan:
    """The plan of the import, watched row by row."""
    lines = file.text.count("\n")
    read = outcomes(ask, mapping, file.columns, rows(file))
    return plan(ask, watch(read, lines))


def refuse_bad(made: Plan, source: Path, allowed: bool) -> None:
    """Raise BadInput naming the first bad lines."""
    if made.bad and not allowed:
        first = "; ".join(f"line {n}: {text}" for n, text in made.bad[:3])
        more = f" and {len(made.bad) - 3} more" if len(made.bad) > 3 else ""
        raise BadInput(
            f"{source}: {first}{more}; nothing was imported; mend the file, "
            "look at all with --dry-run, or leave them out with --skip-bad"
        )


def refuse_doubtful(made: Plan, allowed: bool) -> None:
    """Raise Doubtful naming the first doubtful lines."""
    if made.doubtful and not allowed:
        lines = [f"line {n}: {text}" for n, text in made.doubtful]
        first = "; ".join(lines[:3])
        more = f" and {len(made.doubtful) - 3} more" if len(made.doubtful) > 3 else ""
        raise Doubtful(f"{first}{more}; nothing was imported", lines)


def save(mapping: CsvMapping, path: Path) -> None:
    """Write the mapping to a new file."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(mapping_text(mapping))
    except OSError as error:
        raise FileProblem(f"cannot write {path}: {error.strerror}") from error


def told(made: Plan, source: Path, dry_run: bool, saved: Path | None) -> Answer:
    """What was or would be done."""
    verb = "would import" if dry_run else "imported"
    parts: list[Part] = [
        Words(f"{verb} {events_of(made)} from {source}"),
        Fact("new", "new", len(made.new), Unit.COUNT),
        Fact("same", "on record already", len(made.same), Unit.COUNT),
        Fact("bad", "bad", len(made.bad), Unit.COUNT),
        Fact("doubtful", "doubtful", len(made.doubtful), Unit.COUNT),
        lines_table("bad_lines", made.bad, "Bad lines"),
        lines_table("doubtful_lines", made.doubtful, "Doubtful lines"),
    ]
    if saved is not None:
        parts.append(Words(f"saved the mapping; next time: --map {saved}"))
    if not dry_run and made.new:
        parts.append(Words("warmside undo (takes back the whole import)", Tone.HINT))
    return Answer("", tuple(parts))


def events_of(made: Plan) -> str:
    """How many events are new, in words."""
    return "1 event" if len(made.new) == 1 else f"{len(made.new)} events"


def lines_table(key: str, lines: list[tuple[int, str]], title: str) -> Table:
    """Lines of the file and what is wrong or doubtful about them."""
    columns = (Column("line", "line", Unit.COUNT), Column("problem", "problem"))
    more = f" (the first {MOST_SHOWN} of {len(lines)})" if len(lines) > MOST_SHOWN else ""
    return Table(key, columns, tuple(lines[:MOST_SHOWN]), f"{title}{more}", empty="")
