"""The tasks of an enclosure: loggers, probes, and what a set-up needs again and again."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import About, Basis, Mark, Source, Task, counted, days_ago_words
from warmside.api import every_days as often
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.described.upkeep import Due
from warmside.plugins.habitat.logs.probes import Logger, Probe

OWN = Source("what was noted of the logger", Mark.KEEPERS_OWN)

CUSTOM = Source("keepers' custom; warmside plugin set habitat", Mark.COMMON_PRACTICE)
LAMP = (
    "lamps fade before they fail; a UV meter tells more than its age; switch off and let it cool "
    "first; done notes the new one"
)
MIST = "a light mist that dries within hours; wet air for days makes ill"


def read_out(logger: Logger, on: date) -> Iterator[Task]:
    """To read a logger's file, if that is due."""
    due = (logger.read_on or logger.since) + timedelta(days=logger.every_days)
    if due > on:
        return
    last = days_ago_words(logger.read_on, on) if logger.read_on else "never"
    yield Task(
        f"read out the logger {logger.name}",
        due,
        Basis(f"{often(logger.every_days)}; read {last}", OWN),
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
        Basis(f"{often(every_days)}; checked {last}", OWN),
        About(enclosure_id=logger.enclosure_id),
        data={"probe": probe.id},
        note="hold it beside a thermometer you trust; done with =0.4 adds that to its readings",
        every_days=every_days,
        key=f"probe {probe.id}",
        keepers=True,
    )


def upkeep(found: Enclosure, one: Due, enclosure: int, label: str, on: date) -> Task:
    """Fresh water, new substrate, a new lamp, or mist while somebody is opaque."""
    about = About(enclosure_id=enclosure)
    last = days_ago_words(one.last, on) if one.last else "never on record"
    rule = f"every {counted(one.every_days, 'day')}; last {last}"
    if one.what == "water":
        basis = Basis(rule, CUSTOM)
        return Task("fresh water", one.day, basis, about, "watered", every_days=one.every_days)
    if one.what == "substrate":
        basis, data = Basis(rule, CUSTOM), {"extent": "full"}
        what = "clean it out, new substrate"
        every = one.every_days
        return Task(what, one.day, basis, about, "cleaned", data, every_days=every, keepers=True)
    if one.what == "mist":
        basis = Basis(f"{label} is opaque; {rule}", CUSTOM)
        return Task("mist", one.day, basis, about, "misted", note=MIST, every_days=one.every_days)
    light = found.lights[int(one.mark[1:]) - 1]
    return Task(
        f"replace the {light.kind} ({one.mark})",
        one.day,
        Basis(f"in use since {light.since}; every {counted(one.every_days, 'day')}", CUSTOM),
        about,
        data={"lamp": one.mark},
        note=LAMP,
        every_days=one.every_days,
        key=f"lamp {one.mark}",
        keepers=True,
    )
