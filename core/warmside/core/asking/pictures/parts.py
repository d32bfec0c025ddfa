"""Pictures side by side, as parts of answers: of whom there are some, and one view over time."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import timedelta

from warmside.core.answers.strips import Shot, Strip
from warmside.core.record.book import Book
from warmside.core.record.entities import Event
from warmside.core.record.pictures import Picture
from warmside.core.values.counts import counted
from warmside.core.values.quantities import format_quantity
from warmside.core.values.units import Unit

__all__ = ("Shot", "Strip", "series_of", "strip_of")

WEIGHED_WITHIN = timedelta(days=14)  # common practice, no source


def strip_of(pictures: Iterable[Picture], title: str = "", key: str = "pictures") -> Strip:
    """Pictures and papers with their day, view and note."""
    return Strip(key, title, tuple(_shot(p, _said(p)) for p in pictures))


def _shot(picture: Picture, words: tuple[str, ...]) -> Shot:
    return Shot(
        picture.id,
        picture.day,
        picture.digest,
        picture.kind,
        picture.size_bytes,
        picture.width,
        picture.height,
        tuple(filter(None, words)),
    )


def _said(picture: Picture) -> tuple[str, ...]:
    view = f", {picture.view}" if picture.view else ""
    return f"{picture.day}{view}", picture.note


def series_of(
    book: Book, pictures: Sequence[Picture], title: str = "", key: str = "series"
) -> Strip:
    """Pictures of one view, each with the days since the one before and the mass of about then."""
    shots = []
    for before, picture in zip([None, *pictures], pictures, strict=False):
        days = (picture.day - before.day).days if before else 0
        later = f"{counted(days, 'day')} later" if days else ""
        shots.append(_shot(picture, (str(picture.day), later, _mass(book, picture), picture.note)))
    return Strip(key, title, tuple(shots))


def _mass(book: Book, picture: Picture) -> str:
    """`412 g`, with its day where it was weighed on another one near; nothing where not."""
    if picture.animal_id is None:
        return ""
    since, until = picture.day - WEIGHED_WITHIN, picture.day + WEIGHED_WITHIN
    weighed = book.events("weighed", animal=picture.animal_id, since=since, until=until)
    if not weighed:
        return ""
    nearest: Event = min(weighed, key=lambda e: (abs(e.day - picture.day), e.order))
    mass = format_quantity(nearest.data["mass_g"], Unit.MASS, book.home.display)
    return mass if nearest.day == picture.day else f"{mass} on {nearest.day}"


def by_view(pictures: Iterable[Picture]) -> dict[str, list[Picture]]:
    """Photos by their view, the oldest first; those without one under an empty name."""
    found: dict[str, list[Picture]] = {}
    for picture in pictures:
        if not picture.is_paper:
            found.setdefault(picture.view, []).append(picture)
    return found
