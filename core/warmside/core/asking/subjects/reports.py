"""The whole story of an animal, or of an enclosure and those inside."""

from __future__ import annotations

from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.answers.parts import Answer, Part, Section, Table, Tone, Words
from warmside.core.asking.ask import Ask
from warmside.core.asking.pictures.sections import pictures_section
from warmside.core.asking.rounds.findings_told import findings_table
from warmside.core.asking.rounds.put_off import apart, put_off_table
from warmside.core.asking.subjects.bodies import body_facts
from warmside.core.asking.subjects.cards import enclosure_facts, identity, kin, places
from warmside.core.asking.subjects.histories import unknown
from warmside.core.asking.subjects.recorded import columns_for, event_row
from warmside.core.plugins.hook_values import Level
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal, Enclosure, Event
from warmside.core.record.pictures import Picture
from warmside.core.values.about import About
from warmside.core.values.errors import NotFound

DEFER = (
    "A record of what the keeper noted, not a diagnosis. Health questions belong to a vet who "
    "treats reptiles."
)

FIRST = -1
"""The order of what a vet must not read last."""


class Report(Struct, frozen=True):
    """Of whom, as of which day, and with at most how many events, the newest."""

    subject: str
    on: date
    last: int = 100


def report(ask: Ask, wanted: Report) -> Answer:
    """Identity, plugins' sections, findings, history; a code names an animal before a place."""
    book = ask.book
    try:
        return _of_animal(ask, book.animal(wanted.subject), wanted)
    except NotFound as no_animal:
        try:
            place = book.enclosure(wanted.subject)
        except NotFound:
            raise unknown(book, wanted.subject, no_animal) from None
    return _of_enclosure(ask, place, wanted)


def _of_animal(ask: Ask, animal: Animal, wanted: Report) -> Answer:
    book = ask.book
    facts: tuple[Part, ...] = (
        *identity(book, animal, wanted.on),
        *body_facts(ask, animal, wanted.on),
        *kin(book, animal),
        places(book, animal),
    )
    events = book.events(animal=animal.id, until=wanted.on)
    return _told(ask, f"{animal.label}, as of {wanted.on}", About(animal.id), facts, events, wanted)


def _of_enclosure(ask: Ask, place: Enclosure, wanted: Report) -> Answer:
    title = f"{place.name} ({place.code}), as of {wanted.on}"
    events = ask.book.events(enclosure=place.id, until=wanted.on)
    facts = enclosure_facts(ask.book, place, wanted.on)
    return _told(ask, title, About(enclosure_id=place.id), facts, events, wanted)


def _told(
    ask: Ask,
    title: str,
    about: About,
    facts: tuple[Part, ...],
    events: list[Event],
    wanted: Report,
) -> Answer:
    shown = events[-wanted.last :]
    rows = tuple(event_row(ask, e) for e in shown)
    columns = columns_for(shown, one_animal=about.animal_id is not None)
    more = f" (the last {wanted.last} of {len(events)})" if len(events) > wanted.last else ""
    sections = [
        *map(_in_sentences, ask.sections(about, wanted.on)),
        *pictures_section(ask.book, _pictures(ask.book, about, wanted.on)),
        _findings(ask, about, wanted.on),
        Section(f"History{more}", (Table("events", columns, rows),), 900),
    ]
    ordered = tuple(sorted(sections, key=lambda s: (s.order, s.title)))
    return Answer(title, (Words(DEFER, Tone.CAUTION), *facts), ordered)


def _in_sentences(section: Section) -> Section:
    """The section with each table of one row said as a sentence."""
    parts = (replace(p, prose=True) if isinstance(p, Table) else p for p in section.parts)
    return replace(section, parts=tuple(parts))


def _pictures(book: Book, about: About, on: date) -> list[Picture]:
    found = book.pictures_of(animal=about.animal_id, enclosure=about.enclosure_id)
    return [p for p in found if p.day <= on]


def _findings(ask: Ask, about: About, on: date) -> Section:
    """What was found: before all else where it wants to be looked at, near the end otherwise."""
    found, waiting = apart(ask.book, ask.findings(on, about), on)
    shown = findings_table(ask.book, found, "", about) if found else Words("none")
    later = (put_off_table(ask.book, waiting, sentence=False),) if waiting else ()
    presses = any(finding.level is not Level.NOTE for finding in found)
    return Section("Findings", (shown, *later), FIRST if presses else 800)
