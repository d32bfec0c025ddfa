"""An animal in treatment is fed as its vet said."""

from __future__ import annotations

from warmside.api import OWN_RECORDS, About, Basis, Finding, Level
from warmside.plugins.health.cases.treatment import Told


def food(animal: int, code: str, told: Told) -> Finding:
    """The vet's word; where it is missing, that no meal is planned until it is on record."""
    basis = Basis("an animal in treatment is fed as the vet says", OWN_RECORDS, told.events)
    words, level = told.words, Level.NOTE
    if told.asked:
        level = Level.LOOK_SOON
        words += (
            ": no meal is planned meanwhile, ask the vet today and write it down: "
            f'warmside health food {code} "as usual", "no food", or in the vet\'s words'
        )
    return Finding("health.food", level, words, basis, About(animal))
