"""Pictures on the screen of an animal or an enclosure: the newest, and the camera."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from warmside.core.answers.parts import Answer
from warmside.core.answers.strips import Strip
from warmside.core.asking.ask import Ask
from warmside.core.asking.pictures.parts import strip_of
from warmside.core.asking.pictures.portraits import portraits
from warmside.core.record.entities import Animal, Enclosure
from warmside.core.record.pictures import Picture
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Child, Markup, element
from warmside.page.pieces.frame import hidden
from warmside.page.visits.visit import Visit, links_of, look_of, picture_address

UPLOADS = "/picture"
AS = "observed"  # who may record that, may take a picture
SHOWN = 4
PHOTOS = "image/*"
ANY = "image/*,.heic,application/pdf"


def pictures_of_animal(visit: Visit, ask: Ask, animal: Animal, back: str) -> Child:
    """The newest pictures of the animal, and a form to add one."""
    found = ask.book.pictures_of(animal=animal.id)
    return _section(visit, ask, strip_of(_photos(found)), found, animal.code, animal.name, back)


def pictures_of_place(
    visit: Visit, ask: Ask, place: Enclosure, inside: Sequence[Animal], back: str
) -> Child:
    """The newest picture of each who lives there, then those of the enclosure itself."""
    found = ask.book.pictures_of(enclosure=place.id)
    shots = []
    for animal in inside:
        newest = strip_of(portraits(ask.book.pictures_of(animal=animal.id))[-1:])
        shots += [replace(s, words=(animal.name, *s.words)) for s in newest.shots]
    shots += strip_of(_photos(found)).shots
    strip = Strip("pictures", "", tuple(shots))
    return _section(visit, ask, strip, found, place.code, place.name, back)


def _photos(pictures: Iterable[Picture]) -> list[Picture]:
    return [p for p in pictures if not p.is_paper][-SHOWN:]


def _section(
    visit: Visit, ask: Ask, strip: Strip, found: list[Picture], code: str, name: str, back: str
) -> Child:
    may = visit.rights.may_record(AS)
    if not strip.shots and not may:
        return None
    look, link = look_of(ask.book), links_of(ask.book)
    shown = render_html(Answer("", (strip,)), look, link=link, picture=picture_address)
    views = sorted({p.view for p in found if p.view})
    forms = _forms(code, name, views, back, visit.rights.is_keeper) if may else None
    return element(
        "section",
        element("h2", "Pictures"),
        shown if strip.shots else None,
        forms,
        class_="log",
    )


def _forms(code: str, name: str, views: list[str], back: str, keeper: bool) -> list[Markup]:
    """The camera at once; what lies in the phone already, and papers, unfold."""
    camera = _form(code, f"Take a picture of {name}", views, back, accept=PHOTOS, capture=True)
    if not keeper:
        return [element("details", element("summary", "Take a picture"), camera)]
    other = _form(code, f"From this phone, of {name}", views, back, accept=ANY, capture=False)
    return [
        element("details", element("summary", "Take a picture"), camera),
        element("details", element("summary", "From this phone: pictures, papers"), other),
    ]


def _form(
    code: str, words: str, views: list[str], back: str, *, accept: str, capture: bool
) -> Markup:
    field = element(
        "input",
        type="file",
        name="photo",
        accept=accept,
        capture="environment" if capture else None,
        multiple=not capture,
        required=True,
    )
    known = f"views-{code}-{'camera' if capture else 'phone'}"
    view = element("input", name="view", list=known, autocomplete="off", maxlength=80)
    options = element("datalist", [element("option", value=v) for v in views], id=known)
    note = element("input", name="note", autocomplete="off")
    return element(
        "form",
        hidden(back, subject=code),
        element("label", element("span", words), field),
        element("label", element("span", "What it shows, the same words each time"), view),
        options,
        element("label", element("span", "Note"), note),
        element("button", "Keep it"),
        method="post",
        action=UPLOADS,
        enctype="multipart/form-data",
        class_="whole",
    )
