"""What a command writes of one animal at one moment: whom and when, its events, what they say."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

import typer

from warmside.api import Answer, NewEvent, Part, Session, recorded, session_of

if TYPE_CHECKING:
    from warmside.api import Animal, Book, StepWriter, When

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")]
By = Annotated[str, typer.Option(help="Which vet.")]
Note = Annotated[str, typer.Option(help="A note.")]
Confirm = Annotated[bool, typer.Option("--confirm", help="It is meant like that.")]


class Whom(NamedTuple):
    """An animal and a moment as they were typed, and what the keeper notes; a doubt is meant."""

    animal: str
    at: str | None
    note: str = ""
    confirm: bool = False


class Entry(NamedTuple):
    """One animal at one moment, in the step that writes of it."""

    session: Session
    writer: StepWriter
    animal: Animal
    when: When
    note: str

    @property
    def book(self) -> Book:
        """What is on record so far."""
        return self.writer.book

    def day(self, typed: str | None) -> date | None:
        """The day that was typed; None where nothing was."""
        return self.session.typed_day(typed, self.book) if typed else None

    def record(self, kind: str, data: Mapping[str, Any], *, noted: bool = True) -> None:
        """Record an event of the animal; with the note, unless it is that of another event."""
        day, at, note = self.when.day, self.when.at, self.note if noted else ""
        self.writer.record(NewEvent(kind, day, data, self.animal.id, at=at, note=note))

    def told(self, *more: Part) -> Answer:
        """What was recorded, once the step is over; below it `more`."""
        with self.session.ask() as ask:
            return recorded(ask, self.writer.recorded, *more)


@contextmanager
def entered(context: typer.Context, whom: Whom, words: Callable[[str], str]) -> Iterator[Entry]:
    """One step that writes of an animal; `words` tell it of the animal, as labelled."""
    session = session_of(context)
    with session.step(words(whom.animal), confirmed=whom.confirm) as writer:
        animal, when = writer.book.animal(whom.animal), session.when(whom.at, writer.book)
        writer.say(words(animal.label))
        yield Entry(session, writer, animal, when, whom.note)
