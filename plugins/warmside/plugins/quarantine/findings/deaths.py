"""A death in quarantine, or beside an animal in quarantine: what to do while it can be done."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import About, Animal, Basis, Finding, Level, Mark, Source
from warmside.plugins.quarantine.contact.deaths import CONTACT_DAYS, Mourned

BODY_DAYS = 3  # a cold body keeps for about 72 hours: state veterinary laboratories
LABORATORIES = Source(
    "advice of state veterinary laboratories (Missouri, New Jersey) on sending in bodies: soon, "
    "cool, not frozen, with a full history",
    Mark.SECONDARY,
)


def death_finding(mourned: Mourned, on: date, about: About, *, body_told: bool = False) -> Finding:
    """The finding of one death; about the animal that died, or one of those asked about.

    `body_told`: another plugin asks about the body and those that were with it.
    """
    day = mourned.death.at.date()
    where = "in quarantine" if mourned.in_quarantine else "beside an animal in quarantine"
    who = "" if about.animal_id == mourned.animal.id else f"{mourned.animal.label} "
    do = () if body_told else (_advice((on - day).days),)
    said = "; ".join((*do, *_others(mourned, watched=body_told)))
    words = (
        f"{who}died {where} on {day}{': ' if said else ''}{said}; record the vet's word: "
        f"warmside record examined {_told(mourned).code} --told WORDS"
    )
    shared = f"those that shared its air within {CONTACT_DAYS} days may have what it had"
    rule = shared if mourned.contacts else "a body can be examined for so long as it keeps cold"
    basis = Basis(rule, LABORATORIES, (mourned.death.event_id,))
    soon = mourned.contacts or (on - day).days <= BODY_DAYS
    level = Level.ACT_NOW if soon else Level.LOOK_SOON
    return Finding("quarantine.death", level, words, basis, about)


def _others(mourned: Mourned, *, watched: bool) -> Iterator[str]:
    """Who shared its air, and whose clock it started again; `watched` where that is asked for."""
    if not mourned.contacts:
        return
    do = "" if watched else "watch and weigh "
    yield f"{do}those that shared its air: {_named(mourned.contacts)}"
    if mourned.restarted == mourned.contacts:
        yield "the clock started again"
    elif mourned.restarted:
        yield f"the clock started again for {_named(mourned.restarted)}"


def _advice(days: int) -> str:
    if days > BODY_DAYS:
        return "no vet's word on it is on record: ask what the others need"
    return (
        "ask a reptile vet today whether a necropsy is worth while, the sooner the better; until "
        "then keep the body cool (refrigerator, double bagged, away from food), never frozen"
    )


def _told(mourned: Mourned) -> Animal:
    return mourned.contacts[0] if mourned.contacts else mourned.animal


def _named(animals: Sequence[Animal]) -> str:
    return ", ".join(a.label for a in animals)
