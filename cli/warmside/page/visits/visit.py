"""One request of one paired phone: what it asks for, and what its answer is made with."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from functools import cached_property
from typing import TypeVar
from urllib.parse import quote

from werkzeug.wrappers import Request

from warmside.core.answers.strips import Shot
from warmside.core.asking.ask import Ask
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal, Enclosure, Sender
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, NotFound
from warmside.faces.look import Look
from warmside.faces.web.html import Link
from warmside.faces.web.markup import Child, Markup, element, joined
from warmside.page.phones.doors import local
from warmside.page.phones.people import Device
from warmside.page.visits.served import Served

Made = TypeVar("Made")
QUARTER = 900  # seconds for which a screen may be shown again, though the clock goes on
LONGEST_AGE = timedelta(days=14)
LONGEST_REF = 80
SHELL_WIDTH = 80


class Visit:
    """A request, the phone that sent it, and a session of its own."""

    def __init__(self, page: Served, request: Request, device: Device) -> None:
        self.page = page
        self.request = request
        self.device = device
        self.rights = device.rights

    @cached_property
    def session(self) -> Session:
        """The session, which writes in the name of this phone."""
        return self.page.live.session(Sender(self.device.name, self._ref))

    @property
    def _ref(self) -> str | None:
        """What the phone calls its post, apart from those of other phones."""
        ref = self.typed("ref")
        return f"{self.device.id}:{ref}"[:LONGEST_REF] if ref else None

    def typed(self, name: str) -> str:
        """What a form sent under a name, without blanks around; empty where nothing."""
        return self.request.form.get(name, "").strip()

    def asked(self, name: str) -> str:
        """What stands in the address under a name; empty where nothing."""
        return self.request.args.get(name, "").strip()

    def number(self, name: str) -> int:
        """A whole number that a form sent."""
        text = self.typed(name)
        if not text.isascii() or not text.isdigit() or len(text) > 12:
            raise BadInput(f"{name} is a whole number, not {text[:20]!r}")
        return int(text)

    @property
    def back(self) -> str:
        """Where to go after a post."""
        return local(self.request.form.get("back", "/"))

    @property
    def at(self) -> str | None:
        """When it was done: as typed, or by the age of what waited in the phone; None for now."""
        if said := self.typed("at"):
            return said
        waited = self.waited_since
        return waited.isoformat() if waited else None

    @property
    def waited_since(self) -> datetime | None:
        """Since when it waited in the phone, by its age; None for what was sent at once."""
        if not self.typed("age"):
            return None
        age = timedelta(seconds=self.number("age"))
        if age > LONGEST_AGE:
            raise BadInput("this entry waited for more than 14 days; record it with its day")
        done: datetime = self.session.now - age
        return done.replace(microsecond=0) if age >= timedelta(minutes=1) else None

    @contextmanager
    def ask(self) -> Iterator[Ask]:
        """A snapshot with the plugins."""
        with self.session.ask() as ask:
            yield ask

    def cached(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """What was made for this phone's rights, from the file as it is, in this quarter hour."""
        quarter = int(self.session.now.timestamp()) // QUARTER
        whose = "" if self.rights.is_keeper else self.device.id
        return self.page.cache.get((key, whose, quarter), make)

    def screen(self, key: Hashable, make: Callable[[], Markup]) -> Markup:
        """As `cached`, with what plugins failed in and the file has to say meanwhile."""

        def made() -> Markup:
            return joined([make(), self._troubles()])  # in this order: it is told by then

        return self.cached(key, made)

    def _troubles(self) -> Child:
        """Each failure and notice once, for a keeper."""
        opened = self.session.opened
        if opened is None or not self.rights.is_keeper:
            return None
        failed = [f"{failure}; the rest went on" for failure in opened.host.failures]
        told = dict.fromkeys([*opened.notices, *failed])
        return [element("p", words, class_="caution") for words in told]

    def enclosure(self, book: Book, code: str) -> Enclosure:
        """The enclosure of that code, if this phone may see it."""
        place = book.enclosure(code)
        if not self.rights.may_see(place.code):
            raise NotFound(f"{code} is none of the enclosures that you look after")
        return place

    def animal(self, book: Book, code: str) -> Animal:
        """The animal of that code, if this phone may see where it lives."""
        animal = book.animal(code)
        if not self.rights.is_keeper and not self.rights.may_see(home_code(book, animal.id)):
            raise NotFound(f"{code} is none of the animals that you look after")
        return animal


def home_code(book: Book, animal_id: int) -> str | None:
    """The code of the enclosure in which an animal lives today."""
    place = book.whereabouts_of(animal_id, book.today).enclosure_id
    return book.enclosures[place].code if place is not None else None


def picture_address(shot: Shot) -> str:
    """The address of a picture or paper; with `?small=1` that of its preview."""
    return f"/picture/{shot.number}"


def look_of(book: Book) -> Look:
    """How answers look on the page of this collection."""
    return Look(SHELL_WIDTH, book.home.display, book.home.zone)


def links_of(book: Book) -> Link:
    """The address of the page about a code: of the enclosure that has it, else of the animal."""
    places = {e.code for e in book.enclosures.values()}
    animals = {a.code for a in book.animals.values()}

    def link(code: str) -> str | None:
        if code in places:
            return address("E", code)
        return address("A", code) if code in animals else None

    return link


def address(what: str, code: str) -> str:
    """The path of an enclosure (E) or an animal (A), as labels carry it."""
    return f"/WS.{what}.{quote(code, safe='')}"
