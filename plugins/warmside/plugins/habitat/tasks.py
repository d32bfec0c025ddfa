"""The tasks around loggers: to read them out, and to hold a probe beside a thermometer."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import About, Basis, Mark, Source, Task, days_ago_words
from warmside.plugins.habitat.logs.probes import Logger, Probe

OWN = Source("what was noted of the logger", Mark.KEEPERS_OWN)


def read_out(logger: Logger, on: date) -> Iterator[Task]:
    """To read a logger's file, if that is due."""
    due = (logger.read_on or logger.since) + timedelta(days=logger.every_days)
    if due > on:
        return
    last = days_ago_words(logger.read_on, on) if logger.read_on else "never"
    yield Task(
        f"read out the logger {logger.name}",
        due,
        Basis(f"every {logger.every_days} days; read {last}", OWN),
        About(enclosure_id=logger.enclosure_id),
        data={"logger": logger.name},
        note=f"warmside habitat read {logger.name!r} FILE; done notes it without a file",
        every_days=logger.every_days,
        key=f"read out {logger.id}",
        keepers=True,
    )


def check(logger: Logger, probe: Probe, every_days: int, on: date) -> Iterator[Task]:
    """To check one probe, if that is due; never where the keeper asks for none."""
    due = (probe.checked or logger.since) + timedelta(days=every_days)
    if not every_days or due > on:
        return
    last = days_ago_words(probe.checked, on) if probe.checked else "never"
    yield Task(
        f"check the probe at {probe.words}",
        due,
        Basis(f"every {every_days} days; checked {last}", OWN),
        About(enclosure_id=logger.enclosure_id),
        data={"probe": probe.id},
        note="hold it beside a thermometer you trust; done with =0.4 adds that to its readings",
        every_days=every_days,
        key=f"probe {probe.id}",
        keepers=True,
    )
