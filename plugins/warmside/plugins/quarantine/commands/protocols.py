"""`warmside quarantine protocols` and `protocol show`: the protocols themselves."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, Column, Kind, Table, Tone, Unit, paragraphs, session_of
from warmside.plugins.quarantine.protocol.parsing import shipped_protocols
from warmside.plugins.quarantine.protocol.terms import named_protocol
from warmside.plugins.quarantine.reading.stored import (
    default_protocol,
    edits_of,
    originals,
    protocols,
)
from warmside.plugins.quarantine.telling.protocols import told
from warmside.plugins.quarantine.telling.wording import DEFER

Name = Annotated[str, typer.Argument(help="Name of the protocol.")]


def list_protocols(context: typer.Context) -> Answer:
    """List the protocols."""
    columns = (
        Column("name", "protocol", Kind.CODE),
        Column("title", "what it is"),
        Column("days", "days", Unit.COUNT),
        Column("tests", "tests", Kind.LIST),
        Column("restarts", "started again by", Kind.LIST, text=False),
        Column("own", "own", Kind.YESNO),
        Column("usual", "usual", Kind.YESNO),
    )
    with session_of(context).ask() as ask:
        usual = default_protocol(ask)
        changed = edits_of(ask.book)
        rows = tuple(
            (
                p.name,
                p.title,
                p.days,
                tuple(f"{t.negatives} × {t.title}" for t in p.tests if t.negatives),
                tuple(sorted(c.value for c in p.restarts)),
                p.name not in shipped_protocols() or p.name in changed,
                p.name == usual,
            )
            for p in protocols(ask).values()
        )
    hints = paragraphs("warmside quarantine protocol show general", tone=Tone.HINT)
    caution = paragraphs(DEFER, tone=Tone.CAUTION)
    return Answer("Protocols", (Table("protocols", columns, rows), *caution, *hints))


def show_protocol(context: typer.Context, name: Name) -> Answer:
    """Every value of a protocol, with its source."""
    with session_of(context).ask() as ask:
        found = named_protocol(protocols(ask), name)
        return told(found, named_protocol(originals(ask.book), name))
