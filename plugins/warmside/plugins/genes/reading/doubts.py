"""What is wrong with the recorded genes of any family, kept until something of it changes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from warmside.api import Ask, BadInput
from warmside.plugins.genes.inheritance.doubted import doubted
from warmside.plugins.genes.inheritance.facts import Fact
from warmside.plugins.genes.inheritance.settled import settled
from warmside.plugins.genes.reading.family import Kin, kin_of
from warmside.plugins.genes.reading.said import said_of_all
from warmside.plugins.genes.telling.clash import fact_words
from warmside.plugins.genes.telling.wording import percent

RESTS_ON = ("event:genes.known", "animal", "parentage", "clutch_young", "species", "genes_trait")


class Doubt(NamedTuple):
    """One thing that is wrong: which finding, of which animal, in words, from which events."""

    code: str
    animal_id: int
    words: str
    events: tuple[int, ...]


def doubts(ask: Ask) -> list[Doubt]:
    """Contradictions, disproved and doubtful statements, over all families on record."""
    below = float(ask.setting("genes", "doubt_below")) / 100
    key = f"genes.doubts {below:g}"
    kept = ask.book.derived(key, RESTS_ON, lambda: [list(d) for d in _found(ask, below)])
    return [Doubt(code, id, words, tuple(events)) for code, id, words, events in kept]


def _found(ask: Ask, below: float) -> Iterator[Doubt]:
    seen: set[int] = set()
    for id in said_of_all(ask.book):
        if id in seen:
            continue
        kin = kin_of(ask, [ask.book.animals[id]], None)
        seen |= {int(str(m.id)) for m in kin.family.members}
        try:
            yield from _of(ask, kin, below)
        except BadInput:  # too closely interwoven to reckon with: nothing is known to be wrong
            continue


def _of(ask: Ask, kin: Kin, below: float) -> Iterator[Doubt]:
    labels = {id: ask.book.animals[id].label for id in kin.said}
    found = settled(kin.family)
    if found.clash:
        words = "; ".join(fact_words(f, labels) for f in found.clash)
        yield _doubt("clash", found.clash[0], f"cannot all be true: {words}", kin)
    for fact in found.disproved:
        yield _doubt("disproved", fact, f"{fact.words}: what was seen contradicts it", kin)
    if found.model is not None:
        for fact, chance in doubted(kin.family, below):
            words = f"{fact.words}: by its young {percent(chance)} likely, if even before"
            yield _doubt("doubtful", fact, words, kin)


def _doubt(word: str, fact: Fact, words: str, kin: Kin) -> Doubt:
    id = int(str(fact.animal))
    said = [s for s in kin.said.get(id, ()) if s.known and s.known.words == fact.words]
    return Doubt(f"genes.{word}", id, words, tuple(s.event.id for s in said))
