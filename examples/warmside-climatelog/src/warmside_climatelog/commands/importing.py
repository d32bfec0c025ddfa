"""The command that imports a logger's file, in one stream."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    NewEvent,
    StepWriter,
    progress,
    said,
    session_of,
)
from warmside_climatelog.climate.logfile import Form, Problems, Row, header_of, rows
from warmside_climatelog.climate.sensors import Sensor
from warmside_climatelog.kinds import READ_OUT
from warmside_climatelog.reading import sensor_named
from warmside_climatelog.tables import readings

FileArgument = Annotated[Path, typer.Argument(help="CSV file with a column of times.")]


def import_file(
    context: typer.Context,
    file: FileArgument,
    sensor: Annotated[str, typer.Option(help="Whose readings they are.")],
    time: Annotated[str, typer.Option(help="Column of the time.")] = "time",
    value: Annotated[str, typer.Option(help="Column of the temperature.")] = "value",
    fahrenheit: Annotated[bool, typer.Option(help="The column is in °F, not in °C.")] = False,
) -> Answer:
    """Import a logger's file; what was imported before is left out."""
    session = session_of(context)
    with session.step(f"read out {sensor}") as writer, _opened(file) as lines:
        found = sensor_named(writer.book, sensor)
        form = Form(time, value, writer.book.home.zone, fahrenheit)
        new, same = _stream(writer, found, form, lines, file)
        if new:
            writer.say(f"read out {found.name}: {new} readings")
            _note(writer, found, new)
    known = f", {same} were known already" if same else ""
    return said(f"{found.name}: {new} new readings{known}", hints=["warmside undo (take it back)"])


@contextmanager
def _opened(file: Path) -> Iterator[IO[str]]:
    """The file as lines of text; what it cannot be read as is said in one line."""
    try:
        with file.open(encoding="utf-8-sig", newline="") as lines:
            yield lines
    except OSError as error:
        raise BadInput(f"cannot read {file}: {error.strerror}") from error
    except UnicodeDecodeError as error:
        raise BadInput(f"{file} is not UTF-8; save it as CSV in UTF-8") from error


def _stream(
    writer: StepWriter, sensor: Sensor, form: Form, lines: IO[str], file: Path
) -> tuple[int, int]:
    """Write the readings as they are read; a row that cannot be read leaves none of them."""
    columns = header_of(lines.readline())
    for name in (form.time, form.value):
        if name not in columns:
            known = ", ".join(columns) or "no columns"
            raise BadInput(f"{file} has no column {name!r}, it has: {known}; see --time, --value")
    number = sum(1 for _ in lines)
    lines.seek(0)
    problems = Problems()
    with progress("reading", number) as done:
        parsed = rows(lines, form, columns, writer.now, problems)
        found = writer.insert_many(readings, _of(sensor, parsed, done), on_same="skip")
    if problems.number:
        raise BadInput(f"{file}: nothing was imported; {problems}")
    return found.new, found.same


def _of(
    sensor: Sensor, parsed: Iterable[Row], done: Callable[[], None]
) -> Iterator[tuple[int, int, int]]:
    for at, value in parsed:
        done()
        yield sensor.id, at, value


def _note(writer: StepWriter, sensor: Sensor, new: int) -> None:
    """The event that history shows."""
    data = {"sensor": sensor.name, "readings": new}
    place = sensor.enclosure_id
    if place is not None:
        event = NewEvent(READ_OUT.name, writer.book.today, data, None, place, writer.now, "")
        writer.record(event)
