"""The sheet for a vet: one page, what is wrong first, then the history as a vet asks for it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.core.answers.forms import lines_to_write
from warmside.core.answers.parts import Answer, Part, Section, Tone, Words
from warmside.core.asking.ask import Ask
from warmside.core.asking.sheets.history import sections_of_history
from warmside.core.asking.sheets.paper import paper_named
from warmside.core.asking.sheets.pictured import for_a_vet
from warmside.core.asking.sheets.who import who
from warmside.core.asking.sheets.why import why
from warmside.core.plugins.sheets import Place, Sheet
from warmside.core.record.entities import Animal
from warmside.core.values.about import About
from warmside.core.values.errors import BadInput

NO_DIAGNOSIS = "What the keeper saw and wrote down: no diagnosis, and nothing was prescribed by it."
LOOK_BACK = timedelta(days=365)
MOST_QUESTIONS = 12
TAKE_ALONG = (
    "take along: a fresh dropping or what was brought up, cool and closed; the shed skin; every "
    "medicine and powder in use; photos of the enclosure; the animal warm, each in a box of its own"
)
"""After Cannon and Johnson, Handling and Nursing Reptiles (Australian Veterinary Association)."""


class VetSheet(Struct, frozen=True):
    """Of which animal, as of which day; why it comes, what to ask, who brings it.

    `whole` lets it run over as many pages as it needs, with all events of a year.
    """

    animal: str
    on: date
    reason: str = ""
    questions: tuple[str, ...] = ()
    keeper: str = ""
    paper: str | None = None
    whole: bool = False


def vet_sheet(ask: Ask, wanted: VetSheet) -> Answer:
    """What a vet asks first, on one page; what has no room is named there."""
    if len(wanted.questions) > MOST_QUESTIONS:
        raise BadInput(f"{len(wanted.questions)} questions do not fit; ask at most 12 at a visit")
    animal = ask.book.animal(wanted.animal)
    given = ask.sheet_sections(Sheet.VET, wanted.on, wanted.on, About(animal.id))
    seen = for_a_vet(ask.book, animal, wanted.on)
    sections = (*_own(ask, animal, wanted), *given, *seen)
    return Answer(
        f"For the vet: {animal.label}, {wanted.on}",
        (Words(NO_DIAGNOSIS, Tone.CAUTION), *who(ask, animal, wanted.on)),
        tuple(sorted(sections, key=lambda s: s.order)),
        page="flow" if wanted.whole else "one",
        paper=paper_named(wanted.paper, ask.book.home.display),
    )


def _own(ask: Ask, animal: Animal, wanted: VetSheet) -> list[Section]:
    since = wanted.on - LOOK_BACK
    return [
        Section("Why it comes", why(ask, animal, since, wanted.on, wanted.reason), Place.WHY),
        *sections_of_history(ask, animal, since, wanted.on, whole=wanted.whole),
        Section("Questions and keeper", tuple(_questions(wanted)), Place.QUESTIONS),
    ]


def _questions(wanted: VetSheet) -> Iterator[Part]:
    yield from (Words(f"{n}. {text}") for n, text in enumerate(wanted.questions, 1))
    if wanted.keeper:
        yield Words(f"brought by {wanted.keeper}")
    else:
        yield lines_to_write("keeper", "keeper, address, telephone:")
    yield Words(TAKE_ALONG, Tone.HINT)
