"""Which animals or enclosures a command is about, from what was typed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from warmside.core.record.book import Book
from warmside.core.values.errors import BadInput, NotFound
from warmside.core.values.hints import near_miss


class Typed(NamedTuple):
    """A subject as typed, with the value after `=` if there was one: `EMB=412g`."""

    name: str
    value: str


def typed_subjects(words: Sequence[str]) -> list[Typed]:
    """What was typed as `EMB=412g`: each word split at its first `=` into name and value."""
    return [Typed(*(w.partition("=")[::2])) for w in words]


def animals_meant(
    book: Book, names: Sequence[str], *, everyone: bool, room: str | None, on: date
) -> list[int]:
    """Ids of the named animals, or of all here, or of all in a room; none is BadInput."""
    found = [book.animal(n).id for n in names]
    if everyone:
        found += list(book.animals_here(on))
    if room:
        rooms = _in_room(book, room)
        found += [a for a, w in book.animals_here(on).items() if w.enclosure_id in rooms]
    if not found:
        raise BadInput("name an animal by code or name, or use --all or --room ROOM")
    return list(dict.fromkeys(found))


def lived_in_meant(
    book: Book, names: Sequence[str], *, everyone: bool, room: str | None, on: date
) -> list[int]:
    """As `enclosures_meant`, but everyone means all lived in: an empty one asks for nothing."""
    if not everyone:
        return enclosures_meant(book, names, everyone=False, room=room, on=on)
    occupied = book.occupants(on)
    lived_in = [e.code for e in book.enclosures.values() if e.id in occupied]
    if not lived_in and not names:
        raise NotFound(f"nobody lives in any enclosure on {on}; name the enclosure")
    return enclosures_meant(book, [*names, *lived_in], everyone=False, room=room, on=on)


def enclosures_meant(
    book: Book, names: Sequence[str], *, everyone: bool, room: str | None, on: date
) -> list[int]:
    """Ids of the named enclosures (an animal means its enclosure), or of all in use."""
    found = [enclosure_of(book, n, on) for n in names]
    if everyone:
        found += [e.id for e in book.enclosures.values() if not e.retired]
    if room:
        found += _in_room(book, room)
    if not found:
        raise BadInput("name an enclosure by code or name, or use --all or --room ROOM")
    return list(dict.fromkeys(found))


def enclosure_of(book: Book, name: str, on: date) -> int:
    """The id of the enclosure of that code or name, or of the one that animal lives in."""
    try:
        return book.enclosure(name).id
    except NotFound as missing:
        try:
            animal = book.animal(name)
        except NotFound:
            raise missing from None
    place = book.whereabouts_of(animal.id, on).enclosure_id
    if place is None:
        raise BadInput(f"{animal.label} is in no enclosure on {on}; name the enclosure")
    return place


def _in_room(book: Book, room: str) -> list[int]:
    used = [e for e in book.enclosures.values() if not e.retired]
    found = [e.id for e in used if e.room.casefold() == room.strip().casefold()]
    if not found:
        rooms = {e.room for e in used if e.room}
        known = ", ".join(sorted(rooms)) or "none has a room yet"
        raise NotFound(f"no enclosure is in room {room!r}{near_miss(room, rooms)}; rooms: {known}")
    return found
