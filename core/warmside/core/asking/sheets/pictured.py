"""Pictures on sheets: who is who for a stranger, and for a vet what was seen."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from msgspec.structs import replace

from warmside.core.answers.parts import Part, Section, Strip
from warmside.core.asking.pictures.parts import by_view, series_of, strip_of
from warmside.core.asking.pictures.portraits import portraits
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal
from warmside.core.record.pictures import Picture

LOOK_BACK = timedelta(days=180)
FOR_VET = 3
AFTER_ALL = 1100
"""Where a vet's pictures stand: what is told comes first, they take the room that is left."""


def faces(book: Book, animals: Iterable[Animal], on: date) -> tuple[Strip, ...]:
    """The newest photo of each animal that has one, with its name, small."""
    shots = []
    for animal in animals:
        photos = portraits(_photos(book.pictures_of(animal=animal.id), on))
        shots += [replace(s, words=(animal.label,)) for s in strip_of(photos[-1:]).shots]
    return (Strip("faces", "", tuple(shots), small=True),) if shots else ()


def noted_places(book: Book, animals: Iterable[Animal], on: date) -> tuple[Strip, ...]:
    """Photos of their enclosures with a note, such as where the valve is; the newest six."""
    homes = {book.whereabouts(on)[a.id].enclosure_id for a in animals} - {None}
    photos = _photos([p for p in book.pictures.values() if p.enclosure_id in homes and p.note], on)
    shots = [
        replace(shot, words=(book.enclosures[photo.enclosure_id or 0].code, photo.note))
        for photo, shot in zip(photos, strip_of(photos).shots, strict=True)
    ]
    return (Strip("places", "", tuple(shots[-6:])),) if shots else ()


def for_a_vet(book: Book, animal: Animal, on: date) -> tuple[Section, ...]:
    """Photos of the last half year: of a view with several the first and the newest."""
    recent = [p for p in _photos(book.pictures_of(animal=animal.id), on) if p.day >= on - LOOK_BACK]
    parts: list[Part] = []
    for view, shown in by_view(recent).items():
        if view and len(shown) > 1:
            few = [shown[0], *shown[1:][-FOR_VET + 1 :]]
            parts.append(series_of(book, few, view, f"series_{len(parts) + 1}"))
    if not parts and recent:
        parts.append(strip_of(recent[-FOR_VET:]))
    return (Section("Pictures", tuple(parts), AFTER_ALL),) if parts else ()


def _photos(pictures: Iterable[Picture], on: date) -> list[Picture]:
    return [p for p in pictures if not p.is_paper and p.day <= on]
