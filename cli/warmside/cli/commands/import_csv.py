"""`warmside import`: events from a keeper's spreadsheet, saved as CSV."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Annotated, TypeVar

import typer

from warmside.cli.progress import progress
from warmside.core.answers.parts import Answer, Column, Fact, Part, Table, Tone, Words
from warmside.core.asking.ask import Ask
from warmside.core.csv.events import outcomes
from warmside.core.csv.mapping import CsvMapping, mapping_text, read_mapping, typed_fields
from warmside.core.csv.plan import Plan, plan
from warmside.core.csv.rows import CsvFile, read_csv, rows
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput, FileProblem, Refused
from warmside.core.values.units import Unit

app = typer.Typer()
T = TypeVar("T")
MOST_SHOWN = 20


@app.command("")
def import_events(
    context: typer.Context,
    source: Annotated[Path, typer.Argument(help="The CSV file.")],
    map_file: Annotated[Path | None, typer.Option("--map", help="A saved mapping.")] = None,
    kind: Annotated[str | None, typer.Option(help="The kind of all rows.")] = None,
    animal: Annotated[str | None, typer.Option(help="The animal of all rows.")] = None,
    date_column: Annotated[str | None, typer.Option(help="Column of the date.")] = None,
    date_format: Annotated[
        str | None, typer.Option(help="Such as DD.MM.YYYY or MM/DD/YYYY HH:mm.")
    ] = None,
    animal_column: Annotated[str | None, typer.Option(help="Column of the animal.")] = None,
    enclosure_column: Annotated[str | None, typer.Option(help="Column of the enclosure.")] = None,
    kind_column: Annotated[str | None, typer.Option(help="Column of the kind.")] = None,
    note_column: Annotated[str | None, typer.Option(help="Column of a note.")] = None,
    field: Annotated[
        list[str] | None, typer.Option(help="A field's column: mass=Weight or mass=Weight:g.")
    ] = None,
    encoding: Annotated[str, typer.Option(help="The file's encoding.")] = "utf-8",
    save_map: Annotated[Path | None, typer.Option(help="Save the mapping there.")] = None,
    dry_run: Annotated[bool, typer.Option(help="Only say what would be done.")] = False,
    skip_bad: Annotated[bool, typer.Option(help="Leave out rows that are wrong.")] = False,
    confirm: Annotated[bool, typer.Option(help="Doubtful rows are right.")] = False,
) -> Answer:
    """Import events; the same file twice changes nothing. All rows are one step, or none is.

    Columns called date, kind, animal, enclosure, note and mass_g or mass need no mapping.
    """
    session = session_of(context)
    session.open()  # where there is none yet, that is said first
    options = {
        "kind": kind,
        "subject": animal,
        "date": date_column,
        "date_format": date_format,
        "animal": animal_column,
        "enclosure": enclosure_column,
        "kind_column": kind_column,
        "note": note_column,
    }
    if save_map is not None and save_map.exists():
        raise Refused(f"{save_map} is there already; name another file for the mapping")
    mapping = mapped(map_file, options, field or [])
    file = read_csv(source, encoding)
    with session.step(f"imported {source.name}", confirmed=confirm) as writer:
        made = planned(session.asking(writer.book), mapping, file)
        refuse_bad(made, source, skip_bad or dry_run)
        refuse_doubtful(made, confirm or dry_run)
        if not dry_run:
            writer.record_valid(made.new)
            writer.say(f"imported {events_of(made)} from {source.name}")
    if save_map is not None:
        save(mapping, save_map)
    return told(made, source, dry_run, save_map)


def mapped(path: Path | None, options: dict[str, str | None], fields: list[str]) -> CsvMapping:
    """The saved mapping, or the plain one, with the options over it."""
    mapping = read_mapping(path) if path else CsvMapping()
    given = {name: value for name, value in options.items() if value is not None}
    return replace(mapping, **given, fields={**mapping.fields, **typed_fields(fields)})  # type: ignore[arg-type]


def planned(ask: Ask, mapping: CsvMapping, file: CsvFile) -> Plan:
    """The plan of the import, with a progress line for a long file."""
    lines = file.text.count("\n")
    read = outcomes(ask, mapping, file.columns, rows(file))
    return plan(ask, counted(read, lines))


def counted(items: Iterable[T], total: int) -> Iterator[T]:
    """The items, while a progress line counts them."""
    with progress("reading", total) as step:
        for item in items:
            step()
            yield item


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
    """Raise Refused naming the first doubtful lines."""
    if made.doubtful and not allowed:
        first = "; ".join(f"line {n}: {text}" for n, text in made.doubtful[:3])
        more = f" and {len(made.doubtful) - 3} more" if len(made.doubtful) > 3 else ""
        raise Refused(f"{first}{more}; nothing was imported; if it is right, add --confirm")


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
