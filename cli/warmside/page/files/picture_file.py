"""A picture, shown to those who may see its subject."""

from __future__ import annotations

from werkzeug.exceptions import NotFound as NoPage
from werkzeug.wrappers import Response

from warmside.core.file.pictures.places import places
from warmside.core.file.pictures.store import found, small_of
from warmside.core.record.book import Book
from warmside.core.record.pictures import KeptFile, Picture
from warmside.core.values.errors import FileProblem, NotFound
from warmside.page.visits.visit import Visit

KINDS = {"jpg": "image/jpeg", "png": "image/png", "pdf": "application/pdf"}


def picture_file(visit: Visit, number: int) -> Response:
    """The picture, or with `small` its preview, for who may see its subject."""
    with visit.session.read() as book:
        picture = book.pictures.get(number)
        if picture is None or not _may_see(visit, book, picture):
            raise NoPage
    small = bool(visit.asked("small")) and not picture.is_paper
    raw = _content(visit, picture, small)
    kind = "jpg" if small else picture.kind
    headers = {"Content-Disposition": f'inline; filename="picture-{number}.{kind}"'}
    return Response(raw, mimetype=KINDS[kind], headers=headers)


def _may_see(visit: Visit, book: Book, picture: Picture) -> bool:
    """A sitter sees photos of whom he looks after; papers are the keeper's own."""
    if visit.rights.is_keeper:
        return True
    animal = book.animals.get(picture.animal_id or 0)
    place = book.enclosures.get(picture.enclosure_id or 0)
    try:
        if animal is not None:
            visit.animal(book, animal.code)
        elif place is not None:
            visit.enclosure(book, place.code)
    except NotFound:
        return False
    return not picture.is_paper and (animal or place) is not None


def _content(visit: Visit, picture: Picture, small: bool) -> bytes:
    where = places(visit.page.live.path)
    kept = KeptFile(picture.digest, picture.kind)
    if small:
        raw = small_of(where, kept)
    else:
        source = found(where, kept)
        raw = source.read_bytes() if source else None
    if raw is None:
        raise FileProblem(f"the file of picture {picture.id} is missing; see the desk")
    return raw
