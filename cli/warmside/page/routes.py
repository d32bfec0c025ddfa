"""Which address shows or does what, and who may."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct
from werkzeug.exceptions import NotFound as NoPage
from werkzeug.routing import Map, Rule
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from warmside.core.values.errors import Refused
from warmside.faces.web.markup import Child, Markup, element, unbroken
from warmside.page.files.answer_paper import answer_paper
from warmside.page.files.picture_file import picture_file
from warmside.page.pieces.frame import hidden, post, screen
from warmside.page.pieces.picture_forms import UPLOADS
from warmside.page.posts.papers import post_paper
from warmside.page.posts.people import post_forget, post_pair, post_sitter
from warmside.page.posts.pictures import post_picture
from warmside.page.posts.recording import post_record
from warmside.page.posts.settling import post_settle
from warmside.page.posts.steps import post_steps
from warmside.page.posts.undoing import post_redo, post_undo
from warmside.page.screens.found_screen import found_at, found_screen
from warmside.page.screens.help_screen import help_screen
from warmside.page.screens.history_screen import events_screen, history_screen, report_screen
from warmside.page.screens.log_screen import log_screen
from warmside.page.screens.people_screen import people_screen
from warmside.page.screens.round_screen import round_screen
from warmside.page.screens.steps_screen import steps_screen
from warmside.page.screens.subject_screen import animal_screen, enclosure_screen
from warmside.page.screens.tell_screen import tell_screen
from warmside.page.visits.own_steps import step_numbered
from warmside.page.visits.visit import Visit

Shows = Callable[..., Markup]
Does = Callable[[Visit], Response | Markup]
PAPER = "/tell.pdf"


class Shown(Struct, frozen=True):
    """A screen: its title, what makes it, and whether it is for keepers alone."""

    title: str
    make: Shows
    keepers: bool = False


SCREENS = {
    "round": Shown("Round", round_screen),
    "enclosure": Shown("Enclosure", enclosure_screen),
    "animal": Shown("Animal", animal_screen),
    "history": Shown("History", history_screen),
    "find": Shown("Find", lambda visit: found_screen(visit, visit.asked("q"))),
    "events": Shown("What happened", lambda visit: events_screen(visit, None), True),
    "events_of": Shown("What happened", events_screen, True),
    "report": Shown("Story", report_screen, True),
    "tell": Shown("More", lambda visit: tell_screen(visit, visit.asked("ask")), True),
    "log": Shown("Log", lambda visit, code: log_screen(visit, code, ""), True),
    "log_kind": Shown("Log", log_screen, True),
    "people": Shown("People", people_screen, True),
    "help": Shown("Help", help_screen),
    "steps": Shown("For a sitter", steps_screen, True),
}
POSTS: dict[str, tuple[Does, bool]] = {
    "record": (post_record, False),
    "settle": (post_settle, False),
    "undo": (post_undo, False),
    "picture": (post_picture, False),
    "redo": (post_redo, True),
    "paper": (post_paper, True),
    "pair_other": (post_pair, True),
    "sitter": (post_sitter, True),
    "forget": (post_forget, True),
    "keep_steps": (post_steps, True),
}
ROUTES = Map(
    [
        Rule("/", endpoint="round", methods=["GET"]),
        Rule("/WS.E.<code>", endpoint="enclosure", methods=["GET"]),
        Rule("/WS.A.<code>", endpoint="animal", methods=["GET"]),
        Rule("/history", endpoint="history", methods=["GET"]),
        Rule("/events", endpoint="events", methods=["GET"]),
        Rule("/history/<subject>", endpoint="events_of", methods=["GET"]),
        Rule("/report/<subject>", endpoint="report", methods=["GET"]),
        Rule("/log/<code>", endpoint="log", methods=["GET"]),
        Rule("/log/<code>/<kind_name>", endpoint="log_kind", methods=["GET"]),
        Rule("/find", endpoint="find", methods=["GET"]),
        Rule("/tell", endpoint="tell", methods=["GET"]),
        Rule(PAPER, endpoint="tell", methods=["GET"]),
        Rule("/people", endpoint="people", methods=["GET"]),
        Rule("/help", endpoint="help", methods=["GET"]),
        Rule("/steps/<code>", endpoint="steps", methods=["GET"]),
        Rule("/steps", endpoint="keep_steps", methods=["POST"]),
        Rule("/picture/<int:number>", endpoint="picture_file", methods=["GET"]),
        Rule("/record", endpoint="record", methods=["POST"]),
        Rule("/settle", endpoint="settle", methods=["POST"]),
        Rule("/undo", endpoint="undo", methods=["POST"]),
        Rule("/redo", endpoint="redo", methods=["POST"]),
        Rule(UPLOADS, endpoint="picture", methods=["POST"]),
        Rule("/paper", endpoint="paper", methods=["POST"]),
        Rule("/people/pair", endpoint="pair_other", methods=["POST"]),
        Rule("/people/sitter", endpoint="sitter", methods=["POST"]),
        Rule("/people/forget", endpoint="forget", methods=["POST"]),
    ]
)
KEEPERS_ONLY = "that is for the keeper alone"


def answered(visit: Visit, token: str) -> Response:
    """The answer of one request of a paired phone."""
    path = visit.request.path
    if path[:4].upper() == "/WS.":  # as labels carry it, in capitals or not
        path = path[:6].upper() + path[6:]
    adapter = ROUTES.bind("", url_scheme="http")
    name, arguments = adapter.match(path, method=visit.request.method)
    if visit.request.method == "POST":
        return _did(visit, token, name)
    if name == "find" and visit.asked("q") and (to := found_at(visit, visit.asked("q"))):
        return redirect(to, 303)
    if name == "picture_file":
        return picture_file(visit, **arguments)
    shown = SCREENS[name]
    if shown.keepers and not visit.rights.is_keeper:
        raise Refused(KEEPERS_ONLY)
    if name == "tell" and path == PAPER:
        return answer_paper(visit)
    body = shown.make(visit, **arguments)
    here = visit.request.path
    return screen(visit.device, shown.title, body, token=token, banner=_banner(visit), here=here)


def _did(visit: Visit, token: str, name: str) -> Response:
    """What a post did; a screen where there is something to be shown once."""
    if name not in POSTS:
        raise NoPage
    do, keepers = POSTS[name]
    if keepers and not visit.rights.is_keeper:
        raise Refused(KEEPERS_ONLY)
    made = do(visit)
    if isinstance(made, Response):
        return made
    return screen(visit.device, "People", made, token=token, here="/people")


def _banner(visit: Visit) -> Child:
    """What was just recorded, with undo, and what was said to it; or that it was taken back."""
    lines = visit.page.said.of(visit.device.id, visit.asked("said"))
    notices = [element("p", unbroken(words), class_="notice", role="status") for words in lines]
    return [_recorded(visit), notices]


def _recorded(visit: Visit) -> Child:
    if visit.asked("undone"):
        return _taken_back(visit)
    step = step_numbered(visit, visit.asked("step"))
    if step is None or step.undone_by or step.kind != "do":
        return None
    said = element("span", "Recorded: ", unbroken(step.words), role="status")
    button = element("button", "Undo", class_="plain")
    sent = hidden(visit.request.path, step=str(step.id))
    return post("/undo", sent, said, button, class_="banner")


def _taken_back(visit: Visit) -> Markup:
    """That it was taken back; a keeper may put it in force again."""
    said = element("span", "Taken back.", role="status")
    if not visit.rights.is_keeper:
        return element("p", said, class_="banner")
    again = element("button", "Do it again", class_="plain")
    return post("/redo", hidden(visit.request.path), said, again, class_="banner")
