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
    Doubtful,
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
    encoding: Annotated[str, typer.Option(help="How its letters are written.")] = "utf-8",
    confirm: Annotated[bool, typer.Option("--confirm", help="It was so, though odd.")] = False,
) -> Answer:
    """Read a logger's file; what was read before is left out."""
    session = session_of(context)
    with session.step(f"read out {name}", confirmed=confirm) as writer:
        with opened(file, encoding) as lines:
            found = logger_named(writer.book, name)
            new, same, doubt = stream(writer, found, lines, file)
        if doubt and not confirm:
            raise Doubtful(f"{file}: nothing was read in; {doubt}")
        note(writer, found, new)
    known = f", {same} were known already" if same else ""
    hints = ["warmside habitat zones ENCLOSURE", "warmside undo (take it back)"]
    return said(f"{found.name}: {new} new readings{known}", hints=hints)


@contextmanager
def opened(file: Path, encoding: str) -> Iterator[IO[str]]:
    """The file as lines of text; what it cannot be read as is said in one line."""
    plain = encoding.casefold().replace("_", "-") in ("utf-8", "utf8")
    try:
        with file.open(encoding="utf-8-sig" if plain else encoding, newline="") as lines:
            yield lines
    except LookupError as error:
        raise BadInput(f"--encoding {encoding} is none; such as utf-8, cp1252, utf-16") from error
    except OSError as error:
        why = error.strerror or "it is a pipe; save what comes out of it as a file first"
        raise BadInput(f"cannot read {file}: {why}") from error
    except UnicodeDecodeError as error:
        raise BadInput(
            f"{file} is not in {encoding}; save it as CSV in UTF-8, or name what it is in: "
            "--encoding cp1252"
        ) from error


def stream(writer: StepWriter, logger: Logger, lines: IO[str], file: Path) -> tuple[int, int, str]:
    """Write the readings as they are read; a row that cannot be read leaves none of them.

    How many are new, how many were known, and what is doubtful about them, in words.
    """
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
    return found.new, found.same, problems.doubt


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
