"""Which pictures and papers there are: of all, of one, of one view."""

from __future__ import annotations

from msgspec import Struct

from warmside.core.answers.parts import Answer
from warmside.core.asking.pictures.parts import series_of, strip_of
from warmside.core.asking.pictures.told import pictures_table, whose
from warmside.core.asking.subjects.histories import unknown
from warmside.core.record.book import Book
from warmside.core.record.pictures import Picture
from warmside.core.values.errors import NotFound
from warmside.core.values.hints import near_miss, quoted


class Which(Struct, frozen=True):
    """Of whom (of all where nobody is named), of which view, and at most the newest `last`."""

    subject: str | None = None
    view: str | None = None
    last: int = 50


def picture_list(book: Book, wanted: Which) -> Answer:
    """The pictures, the newest last."""
    found = chosen(book, wanted)
    shown = found[-wanted.last :]
    more = f" (the last {wanted.last} of {len(found)})" if len(found) > len(shown) else ""
    return Answer(f"Pictures{more}", (pictures_table(book, shown),))


def picture_strip(book: Book, wanted: Which) -> Answer:
    """The photos side by side, the oldest first; of one view with what changed in between."""
    photos = [p for p in chosen(book, wanted) if not p.is_paper]
    if not photos:
        raise NotFound("there is no photo yet; take one in: warmside picture add CODE FILE")
    shown = photos[-wanted.last :]
    title = f"{whose(book, shown[-1])}: {shown[-1].view}" if wanted.view else "Pictures"
    more = f" (the last {wanted.last} of {len(photos)})" if len(photos) > len(shown) else ""
    part = series_of(book, shown) if wanted.view else strip_of(shown)
    return Answer(f"{title}{more}", (part,))


def chosen(book: Book, wanted: Which) -> list[Picture]:
    """The pictures that are meant, the oldest first; NotFound where there is no such view."""
    found = of_subject(book, wanted.subject) if wanted.subject else [*book.pictures.values()]
    if wanted.view is None:
        return found
    of_view = [p for p in found if p.view.casefold() == wanted.view.strip().casefold()]
    if not of_view:
        known = {p.view for p in found if p.view}
        raise NotFound(
            f"there is no picture of the view {quoted(wanted.view)}"
            f"{near_miss(wanted.view, known)}; views are in: warmside picture list"
        )
    return of_view


def of_subject(book: Book, subject: str) -> list[Picture]:
    """The pictures of an animal or an enclosure; a code names an animal before an enclosure."""
    try:
        return book.pictures_of(animal=book.animal(subject).id)
    except NotFound as no_animal:
        try:
            return book.pictures_of(enclosure=book.enclosure(subject).id)
        except NotFound:
            raise unknown(book, subject, no_animal) from None
