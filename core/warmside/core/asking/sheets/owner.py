"""The sheet for the next owner: all that goes with an animal, and the hand-over to sign."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from msgspec import Struct
from msgspec.structs import replace

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
from warmside.core.asking.sheets.history import sections_of_history
from warmside.core.asking.sheets.paper import paper_named
from warmside.core.asking.sheets.who import genes, who
from warmside.core.plugins.sheets import Place, Sheet
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


FEW, MANY = 12, 60
"""So many events of its history on the short sheet, and on the whole one."""
SHORT = (Place.WEIGHT, Place.FOOD, Place.DROPPINGS, Place.SHEDS, Place.HOUSING)
"""Of what a vet asks the next keeper needs these, in as few words."""
YEAR = timedelta(days=365)


class OwnerSheet(Struct, frozen=True):
    """Of which animal, to whom it goes, as of which day, with so many events, the newest.

    `whole` has all that plugins report of it, on as many pages as that takes; else it is short.
    """

    animal: str
    on: date
    to: str = ""
    last: int | None = None
    paper: str | None = None
    whole: bool = False

    @property
    def most(self) -> int:
        """How many events of its history are shown."""
        return (MANY if self.whole else FEW) if self.last is None else self.last


def owner_sheet(ask: Ask, wanted: OwnerSheet) -> Answer:
    """What its next keeper needs to know of an animal, and the hand-over to sign."""
    if wanted.most < 1:
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
    told = list(ask.sections(about, on) if wanted.whole else _short(ask, animal, on))
    titles = {section.title for section in told}
    sections = (
        *told,
        *(s for s in ask.sheet_sections(Sheet.OWNER, on, on, about) if s.title not in titles),
        *pictures_section(ask.book, ask.book.pictures_of(animal=animal.id)),
        *_own(ask, animal, on, wanted.most),
    )
    return Answer(
        f"Hand-over: {animal.label}",
        (Words(NOT_LEGAL, Tone.CAUTION), *facts),
        tuple(sorted(sections, key=lambda s: (s.order, s.title))),
        paper=paper_named(wanted.paper, ask.book.home.display),
    )


def _short(ask: Ask, animal: Animal, on: date) -> Iterator[Section]:
    """Weight, food, droppings, sheds and housing, and what plugins tell a vet, in few words."""
    for section in sections_of_history(ask, animal, on - YEAR, on, whole=False):
        if section.order in SHORT:
            yield _moved(section)
    for section in ask.sheet_sections(Sheet.VET, on, on, About(animal.id)):
        yield _moved(section)


def _moved(section: Section) -> Section:
    """A vet's section in the order of this sheet, before the events."""
    return replace(section, order=section.order // 10)


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
