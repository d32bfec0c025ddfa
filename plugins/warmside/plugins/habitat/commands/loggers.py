"""The commands that hang, list, stop and check loggers."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Book,
    Cell,
    Column,
    Kind,
    Refused,
    Table,
    Unit,
    format_quantity,
    said,
    session_of,
)
from warmside.plugins.habitat.logs.clock import Clock, Order
from warmside.plugins.habitat.logs.probes import typed_probe
from warmside.plugins.habitat.reading.loggers import logger_named, loggers, probes_of
from warmside.plugins.habitat.reading.measured import last_reading

TAKE_BACK = "warmside undo (take it back)"
LONGEST_NAME = 80

LoggerName = Annotated[str, typer.Argument(help="Name of the logger.")]
PROBE_HELP = "COLUMN=ZONE[:air|surface|humidity|uv][:C|F]; once for each column."


def add(
    context: typer.Context,
    enclosure: Annotated[str, typer.Argument(help="Code or name of the enclosure.")],
    name: LoggerName,
    probe: Annotated[list[str], typer.Option("--probe", help=PROBE_HELP)],
    time: Annotated[str, typer.Option(help="Column of the time.")] = "time",
    dates: Annotated[Order, typer.Option(help="Order of its dates.")] = Order.YMD,
    clock: Annotated[
        Clock, typer.Option(help="wall: is set in spring and autumn; standard and utc never are.")
    ] = Clock.WALL,
    every: Annotated[int, typer.Option(help="Days after which it is read out.", min=1)] = 7,
) -> Answer:
    """Hang a logger in an enclosure and say how its files are written."""
    from warmside.plugins.habitat import tables  # SQLAlchemy, which only writing needs

    typed = [typed_probe(text) for text in probe]
    columns = [column for column, *_ in typed]
    if len(set(columns)) < len(columns) or time in columns:
        raise BadInput("each column is named once, that of the time in --time alone")
    with session_of(context).step(f"hung the logger {name}") as writer:
        book = writer.book
        _check_name(book, name)
        place = book.enclosure(enclosure)
        logger_id = writer.insert(
            tables.logger,
            enclosure_id=place.id,
            name=name,
            time_column=time,
            date_order=dates.value,
            clock=clock.value,
            every_days=every,
            since=book.today.isoformat(),
        )
        for column, zone, measure, fahrenheit in typed:
            row = {"column_name": column, "zone": zone, "measure": measure.value}
            writer.insert(tables.probe, logger_id=logger_id, fahrenheit=fahrenheit, offset=0, **row)
    hint = f"warmside habitat read {name!r} FILE (its readings)"
    return said(f"the logger {name} hangs in {place.code}", hints=[hint, TAKE_BACK])


def list_loggers(context: typer.Context) -> Answer:
    """List the loggers, their probes and what these measured last."""
    with session_of(context).read() as book:
        rows = tuple(_rows(book))
    columns = (
        Column("logger", "logger"),
        Column("enclosure", "in", Kind.CODE),
        Column("zone", "zone"),
        Column("measure", "measures"),
        Column("last", "last reading"),
        Column("value", "value"),
        Column("offset", "offset", Unit.COUNT, text=False),
        Column("checked", "checked", Kind.DATE),
        Column("clock", "clock", text=False),
        Column("stopped", "stopped", Kind.DATE, text=False),
    )
    hint = "no logger hangs anywhere: warmside habitat logger ENCLOSURE NAME --probe COLUMN=ZONE"
    return Answer("Loggers", (Table("loggers", columns, rows, empty=hint),))


def _rows(book: Book) -> list[tuple[Cell, ...]]:
    found: list[tuple[Cell, ...]] = []
    for one in loggers(book):
        place = book.enclosures.get(one.enclosure_id or 0)
        for probe in probes_of(book, one):
            last = last_reading(book, probe, book.today)
            at = _clock(last[0], book) if last else None
            value = (
                format_quantity(last[1], probe.measure.unit, book.home.display) if last else None
            )
            found.append(
                (
                    one.name,
                    place.code if place else None,
                    probe.zone,
                    probe.measure.value,
                    at,
                    value,
                    probe.offset / 1000,
                    probe.checked,
                    one.clock.value,
                    one.stopped,
                )
            )
    return found


def _clock(at: int, book: Book) -> str:
    return f"{datetime.fromtimestamp(at, UTC).astimezone(book.home.zone):%Y-%m-%d %H:%M}"


def stop(context: typer.Context, name: LoggerName) -> Answer:
    """A logger is in use no more; what it measured stays."""
    from warmside.plugins.habitat import tables

    with session_of(context).step(f"stopped the logger {name}") as writer:
        found = logger_named(writer.book, name)
        if found.stopped is not None:
            raise Refused(f"{found.name} was stopped on {found.stopped} already")
        today = writer.book.today.isoformat()
        writer.change(tables.logger, {"id": found.id}, stopped=today)
    return said(f"the logger {found.name} is in use no more", hints=[TAKE_BACK])


def _check_name(book: Book, name: str) -> None:
    if not name.strip() or len(name) > LONGEST_NAME:
        raise BadInput(f"a logger's name has 1 to {LONGEST_NAME} letters")
    if any(one.name.casefold() == name.casefold() for one in loggers(book)):
        raise Refused(f"there is a logger {name} already; give this one another name")
