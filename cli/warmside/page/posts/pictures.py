"""The post that takes in pictures from a phone."""

from __future__ import annotations

from datetime import date

from werkzeug.datastructures import FileStorage
from werkzeug.wrappers import Response

from warmside.core.doing.pictures.taking import TakingIn, take_in
from warmside.core.file.pictures.reading import Upload
from warmside.core.pictures.content import MOST_BYTES as MOST_OF_ONE
from warmside.core.values.errors import BadInput, Doubtful
from warmside.page.pieces.picture_forms import AS
from warmside.page.posts.done import done
from warmside.page.posts.recording import check_may_record
from warmside.page.visits.visit import Visit

MOST_UPLOAD = MOST_OF_ONE + (1 << 20)  # bytes of one post: the largest picture, and the form


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
