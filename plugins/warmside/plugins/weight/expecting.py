"""The mass to be expected of an animal on a day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Book, Estimate
from warmside.plugins.weight.reading import END_OF_DAY, recent, whole
from warmside.plugins.weight.trend import expected_from_trend, reaches
from warmside.plugins.weight.weights import Weights


def expected_on(book: Book, animal_id: int, on: date) -> Iterator[Estimate]:
    """The estimate, where weighings reach as far as that day; doubtful ones do not count.

    Further on nothing is said, so that who asks may reckon with growth.
    """
    weights = weights_for(book, animal_id, on)
    found = expected(weights, on)
    if found is not None and reaches(weights.course.weighings, on.toordinal() + END_OF_DAY):
        yield found


def weights_for(book: Book, animal_id: int, on: date) -> Weights:
    """The weighings up to a day: for today and after, those that were read for all animals."""
    if on >= book.today and animal_id in (known := recent(book, on)):
        return known[animal_id]
    return whole(book, animal_id, on)


def expected(weights: Weights, on: date) -> Estimate | None:
    """The mass on a day by the last weighings less their meals; None with no weighing."""
    return expected_from_trend(weights.course.weighings, on.toordinal() + END_OF_DAY)
