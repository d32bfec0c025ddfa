"""Loggers and their probes."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from warmside.api import About, Book, NotFound, near_miss
from warmside.plugins.habitat.logs.clock import Clock, Order
from warmside.plugins.habitat.logs.probes import Logger, Measure, Probe

LOGGERS = (
    "SELECT id, enclosure_id, name, time_column, date_order, clock, every_days, since, stopped, "
    "read_on FROM habitat_logger ORDER BY name"
)
PROBES = (
    "SELECT id, logger_id, column_name, zone, measure, fahrenheit, offset, checked "
    "FROM habitat_probe ORDER BY id"
)


def loggers(book: Book) -> list[Logger]:
    """Every logger, by name."""
    return book.once(("habitat", "loggers"), lambda: [_logger(r) for r in book.rows(LOGGERS)])


def probes(book: Book) -> list[Probe]:
    """Every probe, in the order in which they were added."""
    return book.once(("habitat", "probes"), lambda: [_probe(r) for r in book.rows(PROBES)])


def probes_of(book: Book, logger: Logger) -> list[Probe]:
    """The probes of a logger."""
    return [p for p in probes(book) if p.logger_id == logger.id]


def logger_named(book: Book, name: str) -> Logger:
    """The logger of that name; near misses are suggested."""
    known = {found.name.casefold(): found for found in loggers(book)}
    if name.casefold() not in known:
        hint = near_miss(name, [found.name for found in known.values()])
        raise NotFound(f"there is no logger {name!r}{hint}; see: warmside habitat loggers")
    return known[name.casefold()]


def used(book: Book, on: date, about: About | None = None) -> list[Logger]:
    """The loggers in use on a day: all, or those of an enclosure or of an animal's home."""
    found = [one for one in loggers(book) if one.is_used(on)]
    if about is None:
        return found
    place = home_of(book, about, on)
    return [one for one in found if one.enclosure_id == place]


def probes_in(book: Book, enclosure_id: int) -> list[Probe]:
    """The probes of all loggers that ever hung in an enclosure, for what they measured."""
    mine = [one for one in loggers(book) if one.enclosure_id == enclosure_id]
    return [p for one in mine for p in probes_of(book, one)]


def home_of(book: Book, about: About, on: date) -> int | None:
    """The enclosure itself, or that in which the animal lives on a day."""
    if about.enclosure_id is not None or about.animal_id is None:
        return about.enclosure_id
    return book.whereabouts(on)[about.animal_id].enclosure_id


def _logger(row: Sequence[Any]) -> Logger:
    id, enclosure, name, column, order, clock, every, *days = row
    since, stopped, read_on = (date.fromisoformat(d) if d else None for d in days)
    assert since is not None
    return Logger(
        id, enclosure, name, column, Order(order), Clock(clock), every, since, stopped, read_on
    )


def _probe(row: Sequence[Any]) -> Probe:
    id, logger, column, zone, measure, fahrenheit, offset, checked = row
    day = date.fromisoformat(checked) if checked else None
    return Probe(id, logger, column, zone, Measure(measure), bool(fahrenheit), offset, day)
