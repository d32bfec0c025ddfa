"""Findings about recorded genes."""

from __future__ import annotations

from warmside.api import About, Animal, Basis, Finding, Level
from warmside.plugins.genes.reading.doubts import Doubt
from warmside.plugins.genes.reading.harms import Harm
from warmside.plugins.genes.telling.wording import MENDEL, percent
from warmside.plugins.genes.traits.catalogue import Trait

LEVELS = {"genes.clash": Level.LOOK_SOON}


def finding(doubt: Doubt) -> Finding:
    """A doubt about genes is never urgent: it matters before a pairing."""
    return Finding(
        doubt.code,
        LEVELS.get(doubt.code, Level.NOTE),
        doubt.words,
        Basis(MENDEL.rule, MENDEL.source, doubt.events),
        About(doubt.animal_id),
    )


def harmful(harm: Harm, trait: Trait, sire: Animal) -> Finding:
    """That a pair which may have young now can give them a trait that is known to harm."""
    have = "have two copies of" if trait.harms_twice else "show"
    words = f"{percent(harm.shown)} of young with {sire.name} would {have} {trait.name}"
    told = [trait.welfare] if trait.welfare else []
    if harm.lost and not trait.harms_twice:
        told.append(f"{percent(harm.lost)} would have two copies, which are said not to live")
    advice = "Keep them apart, or ask a vet first; in some countries the law forbids it"
    return Finding(
        "genes.harmful",
        Level.LOOK_SOON,
        f"{words}: {'; '.join(told)}. {advice}",
        Basis(MENDEL.rule, trait.welfare_source or trait.source),
        About(harm.dam),
    )
