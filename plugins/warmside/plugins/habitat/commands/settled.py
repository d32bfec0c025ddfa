"""What a settled task notes of a logger or a probe."""

from __future__ import annotations

from datetime import date

from warmside.api import BadInput, NotFound, StepWriter, Task
from warmside.plugins.habitat import tables
from warmside.plugins.habitat.commands.stored import store
from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.described.editing import with_changed
from warmside.plugins.habitat.described.marks import part_called
from warmside.plugins.habitat.logs.probes import PER_UNIT
from warmside.plugins.habitat.reading.describing import description_text
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
    if "lamp" in task.data:
        return _new_lamp(writer, task, value, on)
    return _checked(writer, task.data["probe"], value, on)


def _new_lamp(writer: StepWriter, task: Task, value: str, on: date) -> str:
    """Write the day of the new lamp into the description, from that day on."""
    if value:
        raise BadInput("a new lamp takes no value; of another kind: warmside habitat change")
    enclosure = task.about.enclosure_id
    where = writer.book.enclosures[enclosure] if enclosure is not None else None
    text = description_text(writer.book, where.id, on) if where else None
    if where is None or text is None:
        raise NotFound("the enclosure is not described any more; look again: warmside today")
    part = part_called(read_description(text, ""), task.data["lamp"])
    new = with_changed(text, part.table, part.number, {"since": on})
    store(writer, where, on, new, confirmed=True)
    return f"new {part.words} in {where.code}"


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
