"""The kind of event that this plugin adds."""

from __future__ import annotations

from warmside.api import EventKind, Subject, fields


class ReadOut:
    """A logger's readings were imported."""

    sensor: str = fields.words("which sensor", optional=False)
    readings: int = fields.whole("how many new readings", most=100_000_000, required=True)


READ_OUT = EventKind("climatelog.readout", "logger read out", ReadOut, Subject.ENCLOSURE)
