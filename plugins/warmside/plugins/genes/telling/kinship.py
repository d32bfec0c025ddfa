"""How closely a planned pair is related, as a plugin at work answers it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import About, Animal, Ask, Fact, Pair, Unit


def kinship_facts(ask: Ask, mother: Animal, fathers: Sequence[Animal], on: date) -> Iterator[Fact]:
    """The inbreeding of the young of each pair; nothing where no plugin answers it."""
    for number, father in enumerate(fathers, 1):
        pair = Pair(About(mother.id), About(father.id))
        for answered in ask.answers("kinship", pair, on)[:1]:
            found = answered.estimate
            several = len(fathers) > 1
            title = f"inbreeding with {father.label}" if several else "inbreeding of young"
            key = f"inbreeding_{number}" if several else "inbreeding"
            yield Fact(key, title, found.value, Unit.RATIO, found.basis)
