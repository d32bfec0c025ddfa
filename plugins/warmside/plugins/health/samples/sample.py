"""Samples of one animal, handed in at a laboratory or looked at in the practice, and results."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from msgspec import Struct

USUAL_WAIT = timedelta(days=14)
"""After so long a laboratory is asked, where it named no day (common practice, no source)."""
OF_FAECES = ("faec", "fec", "dropping", "stool", "poo")
"""How words for a sample of droppings begin, as keepers and vets write them."""


class Sample(Struct, frozen=True):
    """One entry: a sample was handed in, or a result came; `ref` is the laboratory's number."""

    event: int
    day: date
    what: str
    is_result: bool = False
    lab: str = ""
    ref: str = ""
    expected: date | None = None
    says: str = ""

    @property
    def words(self) -> str:
        """`faeces, Laboratory A, number 17`."""
        said = (self.what, self.lab, f"number {self.ref}" if self.ref else "")
        return ", ".join(part for part in said if part)

    @property
    def asked_from(self) -> date:
        """From which day on the result is asked for."""
        return self.expected or self.day + USUAL_WAIT


def awaited(said: Sequence[Sample]) -> list[Sample]:
    """The samples without a result, the oldest first.

    A result is that of the sample of its number, else of the oldest of what it is of.
    """
    waiting: list[Sample] = []
    for one in sorted(said, key=lambda s: (s.day, s.event)):
        if not one.is_result:
            waiting.append(one)
        elif (found := sample_of(one, waiting)) is not None:
            waiting.remove(found)
    return waiting


def sample_of(result: Sample, waiting: Sequence[Sample]) -> Sample | None:
    """The sample that a result is of; None where none is waiting for it."""
    if result.ref:
        by_number = [s for s in waiting if _same(s.ref, result.ref)]
        if by_number:
            return by_number[0]
    alike = (s for s in waiting if _same(s.what, result.what) and not (s.ref and result.ref))
    return next(alike, None)


def _same(one: str, other: str) -> bool:
    return one.casefold().split() == other.casefold().split()


def is_of_faeces(sample: Sample) -> bool:
    """Whether it is one of droppings, by the words of what it is."""
    words = sample.what.casefold().replace("æ", "ae").split()
    return any(word.startswith(OF_FAECES) for word in words)
