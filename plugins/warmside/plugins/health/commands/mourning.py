"""The command that writes down a death, and what was found and done after it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any

import typer

from warmside.api import Answer, Book
from warmside.plugins.health.commands.entering import (
    AnimalName,
    At,
    Confirm,
    Note,
    Whom,
    entered,
)
from warmside.plugins.health.commands.settled import necropsy_word
from warmside.plugins.health.kinds import DEATH, DIED
from warmside.plugins.health.reading.deaths import death_of, said_of
from warmside.plugins.health.telling.deaths import still_asked


def death(
    context: typer.Context,
    animal: AnimalName,
    found: Annotated[str, typer.Option(help="What was found.")] = "",
    necropsy: Annotated[str, typer.Option(help="asked for, no, or done.")] = "",
    contacts: Annotated[str, typer.Option(help="What was done for those with it.")] = "",
    equipment: Annotated[str, typer.Option(help="What became of what it lived with.")] = "",
    prey: Annotated[str, typer.Option(help="What became of frozen prey of the same bag.")] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Write down a death, or what was found and done after it; what is open is asked."""
    said = {"found": found, "contacts": contacts, "equipment": equipment, "prey": prey}
    said |= {"necropsy": necropsy_word(necropsy)} if necropsy else {}
    data = {name: text for name, text in said.items() if text.strip()}
    with entered(context, Whom(animal, at, note, confirm), lambda x: f"death of {x}") as entry:
        for kind, what in _events(entry.book, entry.animal.id, data):
            entry.record(kind, what)
    with entry.session.ask() as ask:
        (died,) = ask.book.events(DIED, animal=entry.animal.id)[-1:]
        known = said_of(ask.book, entry.animal.id, ask.book.today)
        open_ones = still_asked(death_of(ask.book, died), known, ask.book.today)
    return entry.told(*open_ones)


def _events(book: Book, animal: int, data: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """That it died, where that is not on record, and what is said of it."""
    if not book.events(DIED, animal=animal):
        yield DIED, {"circumstances": data.get("found", "")}
        data = {name: text for name, text in data.items() if name != "found"}
    if data:
        yield DEATH, data
