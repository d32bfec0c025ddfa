"""What a settled task notes of a logger or a probe."""

from __future__ import annotations

from datetime import date

from warmside.api import BadInput, StepWriter, Task
from warmside.plugins.habitat import tables
from warmside.plugins.habitat.logs.probes import PER_UNIT
from warmside.plugins.habitat.reading.loggers import logger_named, probes

MOST_OFFSET = 10.0


def settled(writer: StepWriter, task: Task, value: str, on: date) -> str:
    """Note that it was read out or checked, in words."""
    if "logger" in task.data:
        if value:
            raise BadInput("a read-out takes no value; give the file: warmside habitat read")
        found = logger_named(writer.book, task.data["logger"])
        writer.change(tables.logger, {"id": found.id}, read_on=on.isoformat())
        return f"looked at the logger {found.name}; no file was read"
    return _checked(writer, task.data["probe"], value, on)


def _checked(writer: StepWriter, probe_id: int, value: str, on: date) -> str:
    found = next(p for p in probes(writer.book) if p.id == probe_id)
    offset = found.offset + _offset(value)
    changes = {"checked": on.isoformat(), "offset": offset}
    writer.change(tables.probe, {"id": probe_id}, **changes)
    return f"checked the probe at {found.words}; {offset / PER_UNIT:+g} is added to its readings"


def _offset(text: str) -> int:
    """A typed difference in the stored unit (degrees C, %, UV index), in thousandths."""
    if not text:
        return 0
    try:
        typed = float(text.strip().rstrip("C").replace(",", "."))
    except ValueError:
        raise BadInput(f"{text!r} is no difference; type it in °C, % or UV index: 0.4") from None
    if abs(typed) > MOST_OFFSET:
        raise BadInput(f"a probe that is {text} off is none that can be used; replace it")
    return round(typed * PER_UNIT)
