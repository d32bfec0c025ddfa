"""What the words about an animal's genes mean for its genotype at a locus."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import NamedTuple

from warmside.api import BadInput
from warmside.plugins.genes.inheritance.facts import Fact, Id, Prior
from warmside.plugins.genes.inheritance.loci import (
    ABSENT,
    NORMAL,
    WILD,
    Genotype,
    Locus,
    Shows,
    genotype,
)
from warmside.plugins.genes.traits.words import Carries, Known

UNSURE = (Carries.PART, Carries.POSSIBLE)
SHOWING = (Carries.VISUAL, Carries.TWO, Carries.BOTH)


class Word(NamedTuple):
    """Something said of an animal, and how it is known."""

    known: Known
    source: str


def facts(animal: Id, words: Sequence[Word], locus: Locus) -> Iterator[Fact]:
    """What is said of an animal at a locus, as facts; a chance of a visible trait is none.

    Two alleles of which one copy shows, both said to show, are one of each. What was called het by
    chance, and shows the trait by now, is no more called so.
    """
    shown = [w.known.trait.name for w in words if _shows_once(w.known)]
    seen = {w.known.trait.name for w in words if w.known.carries in SHOWING}
    for known, source in words:
        if known.carries in UNSURE and not _hidden(known, seen):
            continue
        if len(shown) == 2 and known.trait.name in shown:
            pair = frozenset({genotype(*shown)})
            yield Fact(animal, locus.name, pair, known.words, source)
        else:
            yield Fact(animal, locus.name, genotypes(known, locus), known.words, source)


def _hidden(known: Known, seen: Collection[str]) -> bool:
    """Whether "66 % het" and "possible het" say that an animal does not show the trait."""
    return known.trait.shows is Shows.RECESSIVE and known.trait.name not in seen


def _shows_once(known: Known) -> bool:
    return known.carries is Carries.VISUAL and known.trait.shows is not Shows.RECESSIVE


def genotypes(known: Known, locus: Locus) -> frozenset[Genotype]:
    """The genotypes that are possible by what is known; all that do not show it for a chance."""
    name = known.trait.name
    match known.carries:
        case Carries.VISUAL:
            return locus.showing(locus.look(genotype(*_least(known))))
        case Carries.TWO:
            return locus.showing(locus.look(genotype(name, name)))
        case Carries.BOTH:
            return locus.showing(known.words)
        case Carries.HET:
            return frozenset({genotype(WILD, name)})
        case Carries.NORMAL | Carries.PART | Carries.POSSIBLE:
            return frozenset(g for g in _every(locus) if not _shows(locus, g, name))
        case Carries.FREE:
            return frozenset(g for g in _every(locus) if name not in g)


def _least(known: Known) -> Genotype:
    """The fewest copies that show."""
    name = known.trait.name
    return genotype(name, name if known.trait.shows is Shows.RECESSIVE else WILD)


def _every(locus: Locus) -> frozenset[Genotype]:
    return frozenset(locus.genotypes()) | {genotype(a, ABSENT) for a in locus.names}


def _shows(locus: Locus, pair: Genotype, name: str) -> bool:
    return name in pair and locus.look(pair) != NORMAL


def prior(animal: Id, known: Known, locus: Locus) -> Prior | None:
    """A stated chance, as the prior of an animal without known parents; None where it is none.

    The rest is taken as free of the trait: the animal looks normal, or it would be called visual.
    """
    if known.carries is not Carries.PART or known.share is None:
        return None
    one = {genotype(WILD, known.trait.name): known.share, genotype(WILD, WILD): 1 - known.share}
    return Prior(animal, locus.name, one, known.words)


def whole(animal: Id, said: Iterable[Known], locus: Locus) -> Prior:
    """All that an animal carries at a locus, for a planned pairing of two that are not on record.

    What is not named is not there. Raises BadInput where words leave open what it carries.
    """
    words = [Word(k, "stated") for k in said]
    for known, _ in words:
        if known.carries in (Carries.POSSIBLE, Carries.NORMAL):
            name = known.trait.name
            raise BadInput(
                f'"{known.words}" does not say how likely it carries {name}; '
                f'write "50 % het {name}", or "no {name}"'
            )
        if (found := prior(animal, known, locus)) is not None:
            return found
    possible = set(_every(locus))
    for one in facts(animal, words, locus):
        possible &= one.possible
    return Prior(animal, locus.name, _fewest(possible, words), "")


def _fewest(possible: set[Genotype], words: Sequence[Word]) -> dict[Genotype, float]:
    """The one genotype with the fewest copies: an allele that shows is there once unless said."""
    named = {w.known.trait.name for w in words if w.known.carries is not Carries.FREE}
    named |= {a for w in words if w.known.pair for a in w.known.pair.alleles}
    fitting = [p for p in possible if set(p) <= named | {WILD}]
    if not fitting:
        raise BadInput(f"{' and '.join(w.known.words for w in words)}: both cannot be true")
    return {min(fitting, key=lambda p: (sum(a != WILD for a in p), p)): 1.0}
