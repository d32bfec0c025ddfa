"""Facts that contradict each other, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from warmside.plugins.genes.inheritance.facts import Fact
from warmside.plugins.genes.inheritance.settled import Settled

Labels = Mapping[int, str]


def clash_words(found: Settled, labels: Labels) -> Iterator[str]:
    """That no chances can be given, and which facts cannot all be true."""
    if found.clash:
        yield (
            "These cannot all be true, so no chances are given for them: "
            f"{'; '.join(fact_words(f, labels) for f in found.clash)}. Check the parents first, "
            "then what was recorded of each."
        )


def disproved_words(found: Settled, labels: Labels) -> Iterator[str]:
    """Statements that what was seen or tested contradicts; they are left out of the reckoning."""
    for fact in found.disproved:
        yield (
            f"{fact_words(fact, labels)}: what was seen of its family contradicts it, so it is "
            "left out here. Or a parent is another than recorded."
        )


def fact_words(fact: Fact, labels: Labels) -> str:
    """Who, what and how it is known."""
    return f"{labels.get(int(str(fact.animal)), fact.animal)} {fact.words} ({fact.source})"
