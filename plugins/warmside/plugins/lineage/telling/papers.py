"""Two papers: the agreement on a loan, and all that goes with an animal to its next keeper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import (
    About,
    Animal,
    Answer,
    Ask,
    Column,
    Event,
    Fact,
    Kind,
    Part,
    Section,
    Table,
    Tone,
    Words,
    paragraphs,
    shapes,
)
from warmside.plugins.lineage.loans.loan import ODD, Loan
from warmside.plugins.lineage.telling.forms import (
    BLANK,
    HANDED,
    LOAN_HEADINGS,
    NOT_LEGAL,
    signatures,
    to_fill_in,
)

EVENTS = (
    Column("when", "when"),
    Column("what", "what happened"),
    Column("note", "note", text=False),
    Column("event", "event", text=False),
)
VET = ("examined", "treated", "sign")
BREEDING = ("mated", "gravid", "laid", "hatched", "cooling")
CAUTION = Words(NOT_LEGAL, Tone.CAUTION)


def identity(animal: Animal) -> tuple[Fact, ...]:
    """Who the animal is, as far as it is on record."""
    known = "" if animal.sex_known_by == "not known" else f" ({animal.sex_known_by})"
    facts = (
        Fact("name", "name", animal.name),
        Fact("code", "code", animal.code, Kind.CODE),
        Fact("species", "species", animal.species.scientific, Kind.LATIN),
        Fact("common_name", "common name", animal.species.common or None),
        Fact("sex", "sex", animal.sex + known),
        Fact("hatched", "hatched", animal.hatched.text if animal.hatched else None),
        Fact("origin", "origin", animal.origin or None),
    )
    return tuple(f for f in facts if f.value is not None)


def genes_fact(ask: Ask, animal: Animal, on: date) -> Iterator[Fact]:
    """What the animal carries, as it stands on labels."""
    lines = [x.text for x in ask.label_lines(About(animal.id), on) if x.key == "genes.known"]
    if lines:
        yield Fact("genes", "genes, as recorded", "; ".join(lines))


def agreement(ask: Ask, animal: Animal, loan: Loan | None, on: date) -> Answer:
    """A loan on paper, with room for what is not on record."""
    facts: tuple[Part, ...] = (*identity(animal), *genes_fact(ask, animal, on))
    parts = (CAUTION, *facts, *_terms(loan), _further())
    return Answer(f"Loan agreement: {animal.label}", (*parts, signatures("owner", "keeper")))


def _further() -> shapes.Drawing:
    return to_fill_in("further", "Further terms, to be agreed", LOAN_HEADINGS)


def _terms(loan: Loan | None) -> tuple[Fact, ...]:
    """Who, from when, until when; blank where there is no loan on record yet."""
    if loan is None:
        names = ("lent to", "from", "until", "young", "terms")
        return tuple(Fact(name.replace(" ", "_"), name, BLANK) for name in names)
    return (
        Fact("other", "lent to" if loan.out else "lent by", loan.other or BLANK),
        Fact("since", "from", loan.since, Kind.DATE),
        Fact("until", "until", loan.until_said or BLANK),
        Fact("share", "young", on_paper(loan) or BLANK),
        Fact("terms", "terms", loan.agreed.terms or BLANK),
    )


def on_paper(loan: Loan) -> str:
    """What was agreed on the young, in words that both sides can sign."""
    agreed = loan.agreed
    if agreed.ours_percent is None:
        return agreed.young
    us, them = ("the owner", "the keeper") if loan.out else ("the keeper", "the owner")
    odd = {ODD["us"]: f"; an odd one to {us}", ODD["them"]: f"; an odd one to {them}"}
    share, rest = agreed.ours_percent, 100 - agreed.ours_percent
    said = f"{share:g} % {agreed.over} to {us}, {rest:g} % to {them}{odd.get(agreed.odd or '', '')}"
    return f"{said}; {agreed.young}" if agreed.young else said


def handover(ask: Ask, animal: Animal, to: str, on: date, last: int) -> Answer:
    """All that is on record of an animal, with a part of every plugin, for its next keeper."""
    about = About(animal.id)
    facts: tuple[Part, ...] = (
        *identity(animal),
        *genes_fact(ask, animal, on),
        Fact("to", "handed to", to or BLANK),
        Fact("day", "on", on, Kind.DATE),
    )
    sections = (*ask.sections(about, on), *_own_sections(ask, animal, on, last))
    ordered = tuple(sorted(sections, key=lambda s: (s.order, s.title)))
    return Answer(f"Hand-over: {animal.label}", (CAUTION, *facts), ordered)


def _own_sections(ask: Ask, animal: Animal, on: date, last: int) -> Iterator[Section]:
    events = ask.book.events(animal=animal.id, until=on)
    for title, kinds, order in (("Vet and signs", VET, 300), ("Breeding", BREEDING, 425)):
        told = [e for e in events if e.kind in kinds]
        yield Section(title, (_events_table(ask, told, "nothing of it is on record"),), order)
    found = [f"{f.level}: {f.words}" for f in ask.findings(on, About(animal.id))]
    yield Section("What to know", paragraphs(*(found or ["nothing is known to be wrong"])), 700)
    more = f" (the last {last} of {len(events)})" if len(events) > last else ""
    yield Section(f"History{more}", (_events_table(ask, events[-last:], "none"),), 900)
    form = to_fill_in("with_it", "Beside what is on record", HANDED)
    signed = signatures("from", "to")
    yield Section("Handed over", (form, signed), 950)


def _events_table(ask: Ask, events: Sequence[Event], empty: str) -> Table:
    rows = tuple(
        (ask.when_words(e), "; ".join(filter(None, (ask.event_words(e), e.note))), e.note, e.id)
        for e in events
    )
    return Table("events", EVENTS, rows, empty=empty)
