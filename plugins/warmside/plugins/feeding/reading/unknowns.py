"""Findings that ask the keeper once: a diet that is not known, words that are no known food."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date

from warmside.api import About, Ask, Basis, Finding, Level, quoted
from warmside.plugins.feeding.prey.classes import classes_meant, known_prey
from warmside.plugins.feeding.prey.words import plain
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.noted import own_words

MOST_TOLD = 3


def findings(ask: Ask, on: date, about: About | None = None) -> Iterator[Finding]:
    """Animals whose diet nobody said, and words of recent meals that are no known food."""
    if about is not None and about.animal_id is None:
        return
    reading = Reading(ask, on, alone=about is not None)
    if about is None:
        ids = reading.here()
        yield from _no_diets(reading, ids)
        yield from _unknown_food(reading, ids)
    elif reading.where(about.animal_id or 0).custody.is_here:
        yield from _no_diets(reading, (about.animal_id or 0,))


def _no_diets(reading: Reading, ids: tuple[int, ...]) -> Iterator[Finding]:
    for animal_id in ids:
        species = reading.species(animal_id)
        if species is not None and not species.diet.parts:
            animal = reading.book.animals[animal_id]
            words = (
                f"what {animal.species.common} eats is not known here: ask its breeder or a vet, "
                f"then say so once: warmside feeding diet set {animal.code} DIET"
            )
            basis = Basis("no row for its species and no diet set", species.source)
            yield Finding("feeding.no-diet", Level.LOOK_SOON, words, basis, About(animal_id))


def _unknown_food(reading: Reading, ids: tuple[int, ...]) -> Iterator[Finding]:
    """One finding for all words, since the keeper maps each once for the whole collection."""
    found = Counter({w: n for w, n in unknown_words(reading, ids).items() if not classes_meant(w)})
    if not found:
        return
    told = ", ".join(f"{quoted(w)!r} ({n})" for w, n in found.most_common(MOST_TOLD))
    more = f" and {len(found) - MOST_TOLD} more" if len(found) > MOST_TOLD else ""
    meals = "1 recent meal" if found.total() == 1 else f"{found.total()} recent meals"
    words = (
        f"{meals} whose food is no known class: {told}{more}; "
        "map each word once: warmside feeding word list"
    )
    yield Finding("feeding.unknown-food", Level.NOTE, words, Basis("words of recorded meals"))


def unknown_words(reading: Reading, ids: tuple[int, ...]) -> Counter[str]:
    """Words of recent meals that are no one class of food, nor mapped, nor a part of the diet."""
    known, found = own_words(reading.book), Counter[str]()
    for animal_id in ids:
        species = reading.species(animal_id)
        parts = {p.name for p in species.diet.parts} if species else set[str]()
        for said, meals in Counter(o.prey for o in reading.meals(animal_id).offers).items():
            word = plain(said)
            if known_prey(word) is None and word not in known and word not in parts:
                found[word] += meals
    return found
