"""The agreement on a loan, on paper."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import (
    About,
    Animal,
    Answer,
    Ask,
    Fact,
    Kind,
    Part,
    Tone,
    Words,
    forms,
    shapes,
)
from warmside.plugins.lineage.loans.loan import ODD, Loan
from warmside.plugins.lineage.telling.forms import LOAN_HEADINGS

CAUTION = Words(forms.NOT_LEGAL, Tone.CAUTION)


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
    return Answer(f"Loan agreement: {animal.label}", (*parts, forms.signatures("owner", "keeper")))


def _further() -> shapes.Drawing:
    return forms.to_fill_in("further", "Further terms, to be agreed", *LOAN_HEADINGS)


def _terms(loan: Loan | None) -> tuple[Fact, ...]:
    """Who, from when, until when; blank where there is no loan on record yet."""
    if loan is None:
        names = ("lent to", "from", "until", "young", "terms")
        return tuple(Fact(name.replace(" ", "_"), name, forms.BLANK) for name in names)
    return (
        Fact("other", "lent to" if loan.out else "lent by", loan.other or forms.BLANK),
        Fact("since", "from", loan.since, Kind.DATE),
        Fact("until", "until", loan.until_said or forms.BLANK),
        Fact("share", "young", on_paper(loan) or forms.BLANK),
        Fact("terms", "terms", loan.agreed.terms or forms.BLANK),
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
