"""A protocol as an answer: every value with its source."""

from __future__ import annotations

from warmside.api import Answer, Column, Fact, Kind, Table, Tone, Unit, paragraphs
from warmside.plugins.quarantine.protocol.flat import values
from warmside.plugins.quarantine.protocol.terms import Protocol, cautions
from warmside.plugins.quarantine.protocol.typed import value_text
from warmside.plugins.quarantine.telling.wording import DEFER

VALUE_COLUMNS = (
    Column("key", "value of"),
    Column("value", "value"),
    Column("source_number", "source", Unit.COUNT),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
    Column("original", "as shipped or added", text=False),
)
SOURCE_COLUMNS = (
    Column("number", "no", Unit.COUNT),
    Column("source", "source"),
    Column("mark", "mark"),
)


def told(protocol: Protocol, original: Protocol) -> Answer:
    """The protocol as an answer; sources are numbered, since many values share one."""
    before = values(original)
    sources = list(dict.fromkeys(protocol.sources[key] for key in before))
    rows = tuple(
        (
            key,
            value_text(value) or "–",
            sources.index(protocol.sources[key]) + 1,
            protocol.sources[key].text,
            protocol.sources[key].mark.value,
            value_text(before[key]),
        )
        for key, value in values(protocol).items()
    )
    listed = tuple((n, s.text, s.mark.value) for n, s in enumerate(sources, 1))
    hints = (
        f"warmside quarantine protocol edit {protocol.name} days=120 (for the whole collection)",
        "warmside quarantine edit ANIMAL --set days=120 (for one animal)",
    )
    return Answer(
        f"Protocol {protocol.name}",
        (
            Fact("name", "protocol", protocol.name, Kind.CODE),
            *paragraphs(*cautions(protocol), DEFER, tone=Tone.CAUTION),
            Table("values", VALUE_COLUMNS, rows),
            Table("sources", SOURCE_COLUMNS, listed, "Sources"),
            *paragraphs(*hints, tone=Tone.HINT),
        ),
    )
