"""Whose eggs or young are entered, and what is asked back before they are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from warmside.api import Animal, Ask, BadInput, Doubtful, NewEvent, Session, StepWriter, When
from warmside.plugins.lineage.reading.season import figures_of
from warmside.plugins.lineage.season.figures import SeasonFigures


class Mother(NamedTuple):
    """A mother at the moment of laying or birth; `figures` are those of her species, if any."""

    ask: Ask
    animal: Animal
    when: When
    figures: SeasonFigures | None

    def event(self, kind: str, data: Mapping[str, Any], note: str = "") -> NewEvent:
        """Something of her at this moment."""
        return NewEvent(kind, self.when.day, dict(data), self.animal.id, at=self.when.at, note=note)

    @property
    def largest(self) -> int | None:
        """The largest clutch that is known of the species."""
        return self.figures.largest if self.figures else None


def mother_of(
    session: Session, writer: StepWriter, dam: str, at: str | None, *, live: bool
) -> Mother:
    """Who laid or gave birth, and when; BadInput where her species does the other."""
    ask, when = session.asking(writer.book), session.when(at, writer.book)
    animal = ask.book.animal(dam)
    figures = figures_of(ask, animal)
    if figures is not None and figures.bears_live != live:
        does, word = ("lays eggs", "laid") if live else ("bears live young", "born")
        raise BadInput(f"{animal.label} {does}: warmside lineage {word} {animal.code}")
    return Mother(ask, animal, when, figures)


def doubt(doubts: Iterable[str], confirm: bool) -> None:
    """Raise Doubtful with all that looks odd, unless the keeper confirmed it."""
    found = list(doubts)
    if found and not confirm:
        raise Doubtful("; ".join(found))
