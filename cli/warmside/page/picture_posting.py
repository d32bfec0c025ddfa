"""Pictures on the page: taken in from a phone, and shown to those who may see their subject."""

from __future__ import annotations

from datetime import date

from werkzeug.datastructures import FileStorage
from werkzeug.exceptions import NotFound as NoPage
from werkzeug.wrappers import Response

from warmside.core.doing.pictures.taking import TakingIn, take_in
from warmside.core.file.pictures.places import places
from warmside.core.file.pictures.reading import Upload
from warmside.core.file.pictures.store import found, small_of
from warmside.core.pictures.content import MOST_BYTES as MOST_OF_ONE
from warmside.core.record.book import Book
from warmside.core.record.pictures import KeptFile, Picture
from warmside.core.values.errors import BadInput, Doubtful, FileProblem, NotFound
from warmside.page.posting import check_may_record, done
from warmside.page.visit import Visit

UPLOADS = "/picture"
MOST_UPLOAD = MOST_OF_ONE + (1 << 20)  # bytes of one post: the largest picture, and the form
AS = "observed"  # who may record that, may take a picture
KINDS = {"jpg": "image/jpeg", "png": "image/png", "pdf": "application/pdf"}


def post_picture(visit: Visit) -> Response:
    """Take in what the phone sent; of several all or none."""
    subject = visit.typed("subject")
    check_may_record(visit, AS, subject)
    sent = tuple(_upload(f) for f in visit.request.files.getlist("photo") if f.filename)
    if not sent:
        raise BadInput("choose a picture first, or take one")
    view, note = visit.typed("view"), visit.typed("note")
    wanted = TakingIn(subject, sent, view, note, given_on=_waited_since(visit))
    try:
        return done(visit, lambda session: take_in(session, wanted))
    except Doubtful as doubt:  # a form cannot send its files again
        raise BadInput(
            f"{'; '.join(doubt.doubts)}; nothing was taken in; send the others alone"
        ) from doubt


def _waited_since(visit: Visit) -> date | None:
    """The day in home time on which a picture that waited in the phone was chosen."""
    since = visit.waited_since
    if since is None:
        return None
    with visit.session.read() as book:
        return since.astimezone(book.home.zone).date()


def _upload(file: FileStorage) -> Upload:
    return Upload(file.filename or "", file.read)


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
