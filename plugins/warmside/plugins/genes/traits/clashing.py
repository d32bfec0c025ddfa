"""Whether what is said of one animal can be true beside what is known of it."""

from __future__ import annotations

from collections.abc import Iterable

from warmside.plugins.genes.inheritance.loci import Locus
from warmside.plugins.genes.inheritance.settled import STATED
from warmside.plugins.genes.traits.meaning import Word, facts


def contradicts(new: Word, before: Iterable[Word], locus: Locus) -> Word | None:
    """The first word known of the same locus that cannot be true with the new one.

    What was only stated gives way, and is none.
    """
    if new.source == STATED:
        return None
    for word in before:
        if word.source != STATED:
            sets = [fact.possible for fact in facts(0, (word, new), locus)]
            if len(sets) == 2 and not sets[0] & sets[1]:
                return word
    return None
