"""The page: a WSGI application on one live collection."""

from __future__ import annotations

import sys
import traceback
from collections.abc import Iterable
from functools import cached_property
from importlib.resources import files
from typing import TYPE_CHECKING

from werkzeug.exceptions import HTTPException, RequestEntityTooLarge
from werkzeug.wrappers import Request, Response

from warmside.page.phones.doors import COOKIE, HEADERS, is_from_our_page, is_our_host, is_token
from warmside.page.pieces.frame import plain, screen
from warmside.page.pieces.picture_forms import UPLOADS
from warmside.page.posts.pairing import pairing
from warmside.page.posts.pictures import MOST_UPLOAD
from warmside.page.refusals import refused
from warmside.page.routes import answered
from warmside.page.visits.served import Served
from warmside.page.visits.visit import Visit

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment

MOST_BYTES = 64_000  # of a form; a note is never as long
TOO_MUCH = "That is too much for one form; of pictures, send fewer or smaller ones."
ASSETS = {
    "/style.css": "text/css",
    "/page.js": "text/javascript",
    "/pictures.js": "text/javascript",
}


class Page(Served):
    """Answers requests of paired phones."""

    @cached_property
    def _assets(self) -> dict[str, bytes]:
        folder = files("warmside.page") / "static"
        return {path: (folder / path[1:]).read_bytes() for path in ASSETS}

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        """Answer one request, whatever it is."""
        request = Request(environ)
        request.max_content_length = request.max_form_memory_size = MOST_BYTES
        request.max_form_parts = 100
        try:
            response = self._answer(request)
        except HTTPException as error:
            response = self._http_problem(error)
        except Exception:
            traceback.print_exc(file=sys.stderr)
            words = "A fault in Warmside itself; the round and all that was recorded stand."
            response = screen(None, "Fault", plain("That went wrong", words), status=500)
        finally:
            request.close()  # the files that were sent
        for name, value in HEADERS.items():
            response.headers.setdefault(name, value)
        return response(environ, start_response)

    def _answer(self, request: Request) -> Response:
        if not is_our_host(request.environ.get("HTTP_HOST", ""), self.hosts):
            return Response("this page does not answer under that name\n", status=421)
        if request.path in ASSETS:
            asset, kind = self._assets[request.path], ASSETS[request.path]
            return Response(asset, mimetype=kind, headers={"Cache-Control": "max-age=3600"})
        if request.path == "/favicon.ico":
            return Response(status=204)
        if request.method not in ("GET", "HEAD", "POST"):
            return Response("GET or POST\n", status=405, headers={"Allow": "GET, HEAD, POST"})
        is_post = request.method == "POST"
        if is_post and not is_from_our_page(request.headers, self.hosts):
            return _forbidden(
                "This was not sent from this page. Open it again, then try once more."
            )
        if request.path == "/pair":
            return pairing(self, request)
        device = self.devices.of(request.cookies.get(COOKIE, ""), self.now())
        if device is None:
            return _unpaired()
        token = self.devices.token(device)
        if request.path == UPLOADS:  # of a paired phone
            request.max_content_length = MOST_UPLOAD
        if is_post and not is_token(request.form.get("token", ""), token):
            return _forbidden("This form is from before the phone was paired. Open the page again.")
        return self._visited(Visit(self, request, device), token)

    def _visited(self, visit: Visit, token: str) -> Response:
        if visit.rights.early(self.now()):
            return _early(visit)
        try:
            return answered(visit, token)
        except HTTPException:
            raise
        except Exception as problem:
            return refused(visit, token, problem)

    def _http_problem(self, error: HTTPException) -> Response:
        too_large = isinstance(error, RequestEntityTooLarge)
        words = TOO_MUCH if too_large else "There is no such page."
        return screen(None, "Not here", plain("Not here", words), status=error.code or 500)


def _forbidden(words: str) -> Response:
    return screen(None, "Refused", plain("Refused", words), status=403)


def _early(visit: Visit) -> Response:
    begins = visit.rights.begins
    words = f"You look after them from {begins.date() if begins else 'later'} on. Come again then."
    return screen(None, "Not yet", plain("Not yet", words), status=403)


def _unpaired() -> Response:
    words = "This phone is not paired. Ask the keeper for a code, then open /pair."
    return screen(None, "Not paired", plain("Not paired", words), status=401)
