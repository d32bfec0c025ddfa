"""Deaths in quarantine and beside animals in quarantine, on which no vet's word is on record."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date, timedelta

from warmside.api import About, Ask
from warmside.plugins.quarantine.contact.deaths import TOLD_DAYS, Death, Mourned
from warmside.plugins.quarantine.reading.deaths import deaths
from warmside.plugins.quarantine.reading.standing import asked_about, computable, standing


def mourned(ask: Ask, on: date, about: About | None) -> Iterator[tuple[Mourned, About]]:
    """Each such death, with whom to tell it of: the dead, or the contact that is asked about."""
    asked = asked_about(ask.book, about, on)
    for death, codes in deaths(ask.book, on, on - timedelta(days=TOLD_DAYS)):
        found = _mourned(ask, on, death, codes)
        met = {a.id for a in found.contacts}
        if not (found.in_quarantine or found.restarted) or _answered(ask, on, death, met):
            continue
        if about is None or about.animal_id == death.animal_id:
            yield found, About(death.animal_id)
        elif about.animal_id is not None and met & set(asked):
            yield found, about


def _mourned(ask: Ask, on: date, death: Death, codes: Collection[str]) -> Mourned:
    book = ask.book
    here = [book.animals[a] for a in book.animals_here(on) if book.animals[a].code in codes]
    running = standing(ask, on, [a.id for a in here]).states
    restarted = [
        a
        for a in here
        if a.id in running and any(r.event_id == death.event_id for r in running[a.id].restarts)
    ]
    own = computable(ask, death.animal_id, on)
    held = any(s.died is not None for s in own)
    animal = book.animals[death.animal_id]
    return Mourned(animal, death, held, tuple(here), tuple(restarted))


def _answered(ask: Ask, on: date, death: Death, met: Collection[int]) -> bool:
    """Whether a vet's word on the dead animal or one of its contacts is on record since.

    Of a visit on the day of the death, only one written down after it.
    """
    day = death.at.date()
    told = ask.book.events("examined", since=day, until=on)
    since = [e for e in told if e.day > day or e.id > death.event_id]
    return any(e.animal_id == death.animal_id or e.animal_id in met for e in since)
