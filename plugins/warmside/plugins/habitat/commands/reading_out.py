"""`warmside habitat read`: a logger's file, in one stream, all of it or nothing."""

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
from warmside.plugins.habitat.kinds import READ_OUT
from warmside.plugins.habitat.logs.logfile import Problems, Reading, columns_of, readings
from warmside.plugins.habitat.logs.probes import Logger
from warmside.plugins.habitat.reading.loggers import logger_named, probes_of


def read(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Name of the logger.")],
    file: Annotated[Path, typer.Argument(help="Its CSV file.")],
) -> Answer:
    """Read a logger's file; what was read before is left out."""
    with session_of(context).step(f"read out {name}") as writer, opened(file) as lines:
        found = logger_named(writer.book, name)
        new, same = stream(writer, found, lines, file)
        note(writer, found, new)
    known = f", {same} were known already" if same else ""
    hints = ["warmside habitat zones ENCLOSURE", "warmside undo (take it back)"]
    return said(f"{found.name}: {new} new readings{known}", hints=hints)


@contextmanager
def opened(file: Path) -> Iterator[IO[str]]:
    """The file as lines of text; what it cannot be read as is said in one line."""
    try:
        with file.open(encoding="utf-8-sig", newline="") as lines:
            yield lines
    except OSError as error:
        raise BadInput(f"cannot read {file}: {error.strerror}") from error
    except UnicodeDecodeError as error:
        raise BadInput(f"{file} is not UTF-8; save it as CSV in UTF-8") from error


def stream(writer: StepWriter, logger: Logger, lines: IO[str], file: Path) -> tuple[int, int]:
    """Write the readings as they are read; a row that cannot be read leaves none of them."""
    from warmside.plugins.habitat import tables  # SQLAlchemy, which only writing needs

    probes = probes_of(writer.book, logger)
    try:
        columns = columns_of(lines, logger, probes)
    except BadInput as error:
        raise BadInput(f"{file}: {error}") from None
    lines.seek(0)
    number = sum(1 for _ in lines) * len(probes)
    lines.seek(0)
    problems, now = Problems(), int(writer.now.timestamp())
    zone = writer.book.home.zone
    with progress("reading", number) as done:
        parsed = readings(lines, columns, logger, probes, zone, now, problems)
        found = writer.insert_many(tables.readings, _told(parsed, done), on_same="skip")
    if problems.number:
        raise BadInput(f"{file}: nothing was read in; {problems}")
    return found.new, found.same


def _told(parsed: Iterable[Reading], done: Callable[[], None]) -> Iterator[Reading]:
    for reading in parsed:
        done()
        yield reading


def note(writer: StepWriter, logger: Logger, new: int) -> None:
    """Note the day of the read-out, and the event that history shows."""
    from warmside.plugins.habitat import tables

    today = writer.book.today
    writer.change(tables.logger, {"id": logger.id}, read_on=today.isoformat())
    data = {"logger": logger.name, "readings": new}
    if logger.enclosure_id is not None:
        place = logger.enclosure_id
        writer.record(NewEvent(READ_OUT.name, today, data, None, place, writer.now, ""))
