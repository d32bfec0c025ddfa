"""The list by the door: who lives where, what to grab, how long the heat may be off."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from warmside.core.answers.parts import (
    Answer,
    Cell,
    Column,
    Kind,
    Section,
    Table,
    Tone,
    Words,
)
from warmside.core.asking.ask import Ask
from warmside.core.asking.sheets.call import whom_to_call
from warmside.core.asking.sheets.given import beside, parts_at
from warmside.core.asking.sheets.paper import paper_named
from warmside.core.asking.sheets.pictured import faces
from warmside.core.asking.sheets.residents import is_venomous, residents
from warmside.core.asking.sheets.who import identifiers
from warmside.core.plugins.sheets import Sheet
from warmside.core.record.entities import Animal
from warmside.core.values.about import About
from warmside.core.values.basis import Estimate
from warmside.core.values.errors import BadInput
from warmside.core.values.units import Unit

CALL = 100
WARM = "hours without heat"
PEOPLE_FIRST = (
    "People first: nobody goes back into smoke, fire or water for an animal. Leave doors of rooms "
    "shut; tell the fire brigade which rooms hold animals, and which of them are venomous."
)
GRAB = (
    "for each animal a box or cloth bag with its code on it; large snakes one to a bag, knotted",
    "this list, the papers and transponder numbers, medicines with what the vet wrote",
    "an insulated box, a thermometer; water, no food",
)
HEAT_OFF = (
    "Heat off: keep doors, lids and vents shut and do not feed. After the hours in the list, or "
    "when it is cold to the hand inside, put each animal in a small insulated box in the warmest "
    "room, between 17 and 30 °C; a heat pack outside the inner box, never against the skin, never "
    "in a closed car in the sun. Do not warm up fast. Call a vet for one that is limp."
)
SOURCES = (
    "Carrying between 17 and 30 °C in an insulated box: Ashleigh Vets 4 Exotics, page on "
    "transport, undated. What to grab and the rest: common practice, no source."
)
COLUMNS = (
    Column("room", "room"),
    Column("enclosure", "in", Kind.CODE),
    Column("animal", "who"),
    Column("species", "what"),
    Column("mass", "mass", Unit.MASS),
    Column("identifiers", "marks", below=True),
    Column("warm", "heat may be off"),
    Column("least", "hours at least", Unit.HOURS, text=False),
    Column("most", "hours at most", Unit.HOURS, text=False),
    Column("why", "why", text=False),
)
LONG_H = 72.0
"""Beyond so many hours nobody is asked to hurry."""
NOT_KNOWN = "not known: act at once"
RESTING = "in winter rest: leave it cool, not below its rest's temperature"


class EmergencySheet(Struct, frozen=True):
    """Whom to call, and on which paper."""

    call: tuple[str, ...] = ()
    paper: str | None = None


def emergency_sheet(ask: Ask, wanted: EmergencySheet) -> Answer:
    """Who is where, by room, on as few pages as it takes; for the door and the fire brigade."""
    on = ask.book.today
    animals = sorted(residents(ask, on), key=lambda a: _room(ask, a, on))
    if not animals:
        raise BadInput("no animal is here; the list would be empty")
    given = ask.sheet_sections(Sheet.EMERGENCY, on, on)
    call = whom_to_call(wanted.call, parts_at(given, CALL), "somebody with a key:")
    sections = (
        Section("Call", tuple(call), CALL),
        Section("Who is where", (_table(ask, animals, on), *faces(ask.book, animals, on)), 200),
        Section("Heat or power off", (Words(HEAT_OFF), *_reasons(ask, animals, on)), 300),
        Section("Grab", tuple(Words(f"– {text}") for text in GRAB), 400),
        Section("Where this comes from", (Words(SOURCES),), 900),
    )
    return Answer(
        f"In an emergency, as of {on}",
        (Words(PEOPLE_FIRST, Tone.CAUTION), *_venomous(ask, animals, on)),
        tuple(sorted((*sections, *beside(given, CALL)), key=lambda s: s.order)),
        paper=paper_named(wanted.paper, ask.book.home.display),
    )


def _venomous(ask: Ask, animals: Sequence[Animal], on: date) -> tuple[Words, ...]:
    found = [
        f"{a.label} in {_code(ask, a, on) or 'no enclosure'}" for a in animals if is_venomous(a)
    ]
    text = f"VENOMOUS: {'; '.join(found)}. Do not open; trained people only."
    return (Words(text, Tone.CAUTION),) if found else ()


def _room(ask: Ask, animal: Animal, on: date) -> tuple[str, str]:
    place = ask.book.enclosures.get(ask.book.whereabouts(on)[animal.id].enclosure_id or 0)
    return (place.room, place.code) if place else ("", "")


def _code(ask: Ask, animal: Animal, on: date) -> str:
    return _room(ask, animal, on)[1]


def _table(ask: Ask, animals: Sequence[Animal], on: date) -> Table:
    rows = [_row(ask, animal, on) for animal in animals]
    shown = [n for n, c in enumerate(COLUMNS) if any(row[n] is not None for row in rows)]
    columns = tuple(COLUMNS[n] for n in shown)
    return Table("animals", columns, tuple(tuple(row[n] for n in shown) for row in rows))


def _row(ask: Ask, animal: Animal, on: date) -> tuple[Cell, ...]:
    room, code = _room(ask, animal, on)
    weighed = ask.book.latest("weighed", on=on)["weighed"].get(animal.id)
    warm = _warm(ask, animal, on)
    what = animal.species.common or animal.species.scientific
    return (
        room or None,
        code or None,
        animal.label,
        f"{what}, venomous" if is_venomous(animal) else what,
        weighed.data["mass_g"] if weighed else None,
        "; ".join(identifiers(ask, animal, on)) or None,
        RESTING if _rests(ask, animal, on) else _hours_words(warm),
        warm.low if warm else None,
        warm.high if warm else None,
        warm.basis.rule if warm else None,
    )


def _warm(ask: Ask, animal: Animal, on: date) -> Estimate | None:
    """How long its enclosure stays warm enough, where a plugin can say it."""
    home = ask.book.whereabouts(on)[animal.id].enclosure_id
    if home is None:
        return None
    answers = ask.answers(WARM, About(animal.id, home), on)
    return next((a.given for a in answers if isinstance(a.given, Estimate)), None)


def _reasons(ask: Ask, animals: Sequence[Animal], on: date) -> tuple[Words, ...]:
    """What the hours of each enclosure rest on."""
    known = {_code(ask, a, on): warm for a in animals if (warm := _warm(ask, a, on)) is not None}
    told = "; ".join(f"{code} {warm.basis.rule}" for code, warm in known.items())
    return (Words(f"The hours, a rough reckoning: {told}."),) if told else ()


def _rests(ask: Ask, animal: Animal, on: date) -> bool:
    """Whether it is in winter cooling, which nobody should break by warming it."""
    event = ask.book.latest("cooling", on=on)["cooling"].get(animal.id)
    return event is not None and event.data["state"] == "begun"


def _hours_words(warm: Estimate | None) -> str:
    if warm is None:
        return NOT_KNOWN
    if warm.low >= LONG_H:
        return f"{LONG_H:.0f} h or more"
    return f"{warm.low:.0f} to {warm.high:.0f} h" if warm.high >= 1 else "less than an hour"
