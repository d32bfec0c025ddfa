"""The sheet for the next owner: all that goes with an animal, and the hand-over to sign."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date

from msgspec import Struct

from warmside.core.answers.forms import BLANK, NOT_LEGAL, signatures, to_fill_in
from warmside.core.answers.parts import (
    Answer,
    Column,
    Fact,
    Kind,
    Part,
    Section,
    Table,
    Tone,
    Words,
    paragraphs,
)
from warmside.core.asking.ask import Ask
from warmside.core.asking.pictures.sections import pictures_section
from warmside.core.asking.rounds.put_off import apart
from warmside.core.asking.sheets.paper import paper_named
from warmside.core.asking.sheets.who import genes, who
from warmside.core.plugins.sheets import Sheet
from warmside.core.record.entities import Animal, Event
from warmside.core.values.about import About
from warmside.core.values.errors import BadInput

EVENTS = (
    Column("when", "when"),
    Column("what", "what happened"),
    Column("note", "note", text=False),
    Column("event", "event", text=False),
)
VET = ("examined", "treated", "sign")
BREEDING = ("mated", "gravid", "laid", "hatched", "cooling")
HANDED = (
    "proof of legal origin, permits",
    "microchip or other mark",
    "temper and handling",
    "prey it takes and how it is offered",
    "warm side, cool side, light, humidity as kept here",
    "how it travelled, and at what temperature",
)
"""What goes with an animal, beside what is on record (common practice, no source)."""


class OwnerSheet(Struct, frozen=True):
    """Of which animal, to whom it goes, as of which day, with so many events, the newest."""

    animal: str
    on: date
    to: str = ""
    last: int = 60
    paper: str | None = None


def owner_sheet(ask: Ask, wanted: OwnerSheet) -> Answer:
    """All that is on record of an animal, with a part of every plugin, for its next keeper."""
    if wanted.last < 1:
        raise BadInput(f"--last is at least 1, not {wanted.last}")
    animal, on = ask.book.animal(wanted.animal), wanted.on
    about = About(animal.id)
    facts: tuple[Part, ...] = (
        Fact("name", "name", animal.name),
        Fact("code", "code", animal.code, Kind.CODE),
        *who(ask, animal, on),
        *genes(ask, animal, on),
        Fact("to", "handed to", wanted.to or BLANK),
        Fact("day", "on", on, Kind.DATE),
    )
    sections = (
        *ask.sections(about, on),
        *ask.sheet_sections(Sheet.OWNER, on, on, about),
        *pictures_section(ask.book, ask.book.pictures_of(animal=animal.id)),
        *_own(ask, animal, on, wanted.last),
    )
    return Answer(
        f"Hand-over: {animal.label}",
        (Words(NOT_LEGAL, Tone.CAUTION), *facts),
        tuple(sorted(sections, key=lambda s: (s.order, s.title))),
        paper=paper_named(wanted.paper, ask.book.home.display),
    )


def _own(ask: Ask, animal: Animal, on: date, last: int) -> Iterator[Section]:
    events = ask.book.events(animal=animal.id, until=on)
    for title, kinds, order in (("Vet and signs", VET, 300), ("Breeding", BREEDING, 425)):
        told = [e for e in events if e.kind in kinds]
        if told or kinds is VET:
            yield Section(title, (_events(ask, told, "nothing of it is on record"),), order)
    found, _ = apart(ask.book, ask.findings(on, About(animal.id)), on)
    known = [f"{f.level}: {without_commands(f.words)}" for f in found] or [
        "nothing is known to be wrong"
    ]
    yield Section("What to know", paragraphs(*known), 700)
    more = f" (the last {last} of {len(events)})" if len(events) > last else ""
    yield Section(f"History{more}", (_events(ask, events[-last:], "none"),), 900)
    form = to_fill_in("with_it", "Beside what is on record", *HANDED)
    yield Section("Handed over", (form, signatures("from", "to")), 950)


def without_commands(words: str) -> str:
    """A finding for somebody who has no such program: without the parts that say what to type."""
    sentences = [s for s in re.split(r"(?<=[.;]) ", words) if "warmside " not in s]
    return " ".join(sentences).rstrip(";. ") or words


def _events(ask: Ask, events: Sequence[Event], empty: str) -> Table:
    rows = tuple((ask.when_words(e), ask.event_words(e), e.note or None, e.id) for e in events)
    return Table("events", EVENTS, rows, empty=empty)
