"""The command that writes down a death, and what was found and done after it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any

import typer

from warmside.api import Answer, Book, NewEvent, recorded, session_of
from warmside.plugins.health.commands.settled import necropsy_word
from warmside.plugins.health.kinds import DEATH, DIED
from warmside.plugins.health.reading.deaths import death_of, said_of
from warmside.plugins.health.telling.deaths import still_asked

At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")]


def death(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="Code or name of the animal.")],
    found: Annotated[str, typer.Option(help="What was found.")] = "",
    necropsy: Annotated[str, typer.Option(help="asked for, no, or done.")] = "",
    contacts: Annotated[str, typer.Option(help="What was done for those with it.")] = "",
    equipment: Annotated[str, typer.Option(help="What became of what it lived with.")] = "",
    prey: Annotated[str, typer.Option(help="What became of frozen prey of the same bag.")] = "",
    at: At = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Annotated[bool, typer.Option("--confirm", help="It is meant like that.")] = False,
) -> Answer:
    """Write down a death, or what was found and done after it; what is open is asked."""
    session = session_of(context)
    with session.step(f"death of {animal}", confirmed=confirm) as writer:
        book = writer.book
        whom, when = book.animal(animal), session.when(at, book)
        said = {"found": found, "contacts": contacts, "equipment": equipment, "prey": prey}
        said |= {"necropsy": necropsy_word(necropsy)} if necropsy else {}
        data = {name: text for name, text in said.items() if text.strip()}
        for kind, what in _events(book, whom.id, data):
            writer.record(NewEvent(kind, when.day, what, whom.id, at=when.at, note=note))
        writer.say(f"death of {whom.label}")
    with session.ask() as ask:
        (died,) = ask.book.events(DIED, animal=whom.id)[-1:]
        known = said_of(ask.book, whom.id, ask.book.today)
        open_ones = still_asked(death_of(ask.book, died), known, ask.book.today)
        return recorded(ask, writer.recorded, *open_ones)


def _events(book: Book, animal: int, data: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """That it died, where that is not on record, and what is said of it."""
    if not book.events(DIED, animal=animal):
        yield DIED, {"circumstances": data.get("found", "")}
        data = {name: text for name, text in data.items() if name != "found"}
    if data:
        yield DEATH, data
