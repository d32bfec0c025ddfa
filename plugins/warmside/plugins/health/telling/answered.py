"""What other plugins may ask: the days of a treatment, of feeding by a vet's word, of mourning."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import OWN_RECORDS, Basis, Book, DayRange
from warmside.plugins.health.reading.deaths import recent_deaths
from warmside.plugins.health.reading.treatment import told_of, treatment_of

TREATMENT, AS_TOLD, AFTER_DEATH = "treatment", "feeding as told", "after a death"


def answered(book: Book, what: str, animal: int, on: date) -> Iterator[DayRange]:
    """The answer, its words as the rule; where no end is known it is the day asked about."""
    if what == TREATMENT and (found := treatment_of(book, animal, on)):
        basis = Basis(f"in treatment since {found.since}: {found.words}", OWN_RECORDS, found.events)
        yield DayRange(found.since, max(found.last or on, on), basis)
    if what == AS_TOLD and (told := told_of(book, animal, on)):
        basis = Basis(told.words, OWN_RECORDS, told.events)
        yield DayRange(told.since, max(told.until or on, on), basis)
    if what == AFTER_DEATH:
        for death, _ in recent_deaths(book, on):
            if death.animal == animal:
                basis = Basis("what follows is asked for", OWN_RECORDS, (death.event,))
                yield DayRange(death.day, on, basis)
