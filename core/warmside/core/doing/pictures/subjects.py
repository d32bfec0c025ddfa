"""Whom a picture is of: an animal or an enclosure, with an event or a plugin's thing of it."""

from __future__ import annotations

import re

from msgspec import Struct

from warmside.core.asking.subjects.histories import unknown
from warmside.core.record.book import Book
from warmside.core.record.entities import Event
from warmside.core.values.errors import BadInput, NotFound
from warmside.core.values.hints import quoted

THING = re.compile(r"([a-z][a-z0-9]*)\.([a-z][a-z0-9_]*):(\d{1,18})")


class Of(Struct, frozen=True):
    """Whom a picture is of, as a row holds it."""

    animal_id: int | None = None
    enclosure_id: int | None = None
    event_id: int | None = None
    thing: str = ""
    thing_id: int | None = None

    def words(self, book: Book) -> str:
        """Whom, in the keeper's words."""
        if self.animal_id is not None:
            return book.animals[self.animal_id].label
        return book.enclosures[self.enclosure_id].code if self.enclosure_id else self.thing


def of_whom(book: Book, subject: str, event: int | None = None, thing: str | None = None) -> Of:
    """Whom was typed; a code names an animal before an enclosure. BadInput, NotFound."""
    animal_id, enclosure_id = _subject(book, subject)
    if event is not None:
        _check_event(book.event(event), animal_id, enclosure_id, subject)
    name, id = _thing(book, thing) if thing else ("", None)
    return Of(animal_id, enclosure_id, event, name, id)


def _subject(book: Book, subject: str) -> tuple[int | None, int | None]:
    try:
        return book.animal(subject).id, None
    except NotFound as no_animal:
        try:
            return None, book.enclosure(subject).id
        except NotFound:
            raise unknown(book, subject, no_animal) from None


def _check_event(
    event: Event, animal_id: int | None, enclosure_id: int | None, subject: str
) -> None:
    """Raise BadInput where the event is about another."""
    if (animal_id or enclosure_id) not in (event.animal_id, event.enclosure_id):
        raise BadInput(f"event {event.id} is not about {quoted(subject)}; see: warmside history")
    if event.replaced_by:
        raise BadInput(
            f"event {event.id} was corrected; name the one in its place: {event.replaced_by}"
        )


def _thing(book: Book, typed: str) -> tuple[str, int]:
    """A row of a plugin's table that was typed as `health.paper:3`."""
    found = THING.fullmatch(typed)
    if found is None:
        raise BadInput(f"{quoted(typed)} names nothing; write what it is of as health.paper:3")
    plugin, word, number = found.groups()
    if not has_thing(book, f"{plugin}.{word}", int(number)):
        raise NotFound(f"there is no {plugin}.{word} {number}")
    return f"{plugin}.{word}", int(number)


def has_thing(book: Book, thing: str, id: int) -> bool:
    """Whether there is that row: `health.paper` stands for the table `health_paper`."""
    table = thing.replace(".", "_", 1)
    query = "SELECT count(*) FROM pragma_table_info(?) WHERE name = 'id'"
    if "." not in thing or not book.rows(query, (table,))[0][0]:
        return False
    return bool(book.rows(f'SELECT 1 FROM "{table}" WHERE id = ?', (id,)))
