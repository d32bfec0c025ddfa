"""Which enclosures or animals get a label: by name, room or the state that a plugin gives."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date

from msgspec import Struct

from warmside.api import (
    Animal,
    Ask,
    BadInput,
    Book,
    Enclosure,
    NotFound,
    enclosures_meant,
    near_miss,
    quoted,
)

SORTS = ("code", "name", "room")
_LEAST_STEM = 5
_WORD = re.compile(r"[\w-]+")


class Choice(Struct, frozen=True):
    """What was typed: names add up, `state` then keeps only those in that state."""

    enclosures: tuple[str, ...] = ()
    animals: tuple[str, ...] = ()
    room: str | None = None
    state: str | None = None
    sort: str = SORTS[0]

    @property
    def is_named(self) -> bool:
        """Whether single enclosures or animals were named."""
        return bool(self.enclosures or self.animals)

    @property
    def is_everything(self) -> bool:
        """Whether neither names nor a room were typed."""
        return not self.is_named and self.room is None


def chosen_enclosures(ask: Ask, choice: Choice, on: date) -> list[Enclosure]:
    """The enclosures that were meant, else all in use; an animal means the one it lives in."""
    book, whole = ask.book, choice.is_everything
    if whole and all(e.retired for e in book.enclosures.values()):
        raise BadInput("no enclosure is in use; enter one: warmside enclosure add NAME")
    ids = [_home(book, name, on) for name in choice.animals]
    if whole or choice.enclosures or choice.room is not None:
        ids += enclosures_meant(book, choice.enclosures, everyone=whole, room=choice.room, on=on)
    if choice.state is not None:
        kept = enclosures_in_state(ask, choice.state, on)
        ids = [e for e in ids if e in kept]
        _refuse_none(ids, "enclosure", choice.state)
    chosen = [book.enclosures[e] for e in dict.fromkeys(ids)]
    return sorted(chosen, key=lambda e: _order(choice, e, e.room))


def _home(book: Book, name: str, on: date) -> int:
    animal = book.animal(name)
    place = book.whereabouts(on)[animal.id].enclosure_id
    if place is None:
        raise BadInput(f"{animal.label} is in no enclosure; name one: --enclosure CODE")
    return place


def chosen_animals(ask: Ask, choice: Choice, on: date) -> list[Animal]:
    """The animals that were meant, else all here; an enclosure means those who live in it."""
    book = ask.book
    here = book.animals_here(on)
    places = {a: w.enclosure_id for a, w in here.items()}
    ids = [book.animal(name).id for name in choice.animals]
    if choice.is_everything:
        ids += list(here)
    if choice.enclosures or choice.room is not None:
        wanted = enclosures_meant(book, choice.enclosures, everyone=False, room=choice.room, on=on)
        ids += [a for a, place in places.items() if place in wanted]
    if choice.state is not None:
        kept = enclosures_in_state(ask, choice.state, on)
        ids = [a for a in ids if places.get(a) in kept]
        _refuse_none(ids, "animal", choice.state)
    if not ids:
        raise BadInput("no animal is there; choose others, or see: warmside animal list")
    rooms = {a: book.enclosures[p].room if p else "" for a, p in places.items()}
    chosen = [book.animals[a] for a in dict.fromkeys(ids)]
    return sorted(chosen, key=lambda a: _order(choice, a, rooms.get(a.id, "")))


def _order(choice: Choice, thing: Animal | Enclosure, room: str) -> tuple[str, ...]:
    first = {"code": "", "name": thing.name.casefold(), "room": room.casefold()}
    return (first[choice.sort], thing.code)


def enclosures_in_state(ask: Ask, state: str, on: date) -> frozenset[int]:
    """The enclosures that a plugin ranks in the round for that reason; NotFound where none."""
    ranks = ask.ranks_given(on)
    found = frozenset(
        rank.enclosure_id
        for plugin, rank in ranks
        if says_state(state, (plugin, rank.group, rank.reason))
    )
    if not found:
        known = dict.fromkeys(plugin for plugin, _ in ranks)
        told = f"states now: {', '.join(known)}" if known else "no plugin gives a state now"
        raise NotFound(
            f"no enclosure is in state {quoted(state)!r}{near_miss(state, known)}; {told}"
        )
    return found


def says_state(state: str, texts: Iterable[str]) -> bool:
    """Whether all words of a state are in one of the texts; `quarantined` fits `quarantine`."""
    wanted = state.casefold().split()
    return bool(wanted) and any(
        all(any(_fits(word, said) for said in _WORD.findall(text.casefold())) for word in wanted)
        for text in texts
    )


def _fits(word: str, said: str) -> bool:
    short, long = sorted((word, said), key=len)
    return short == long or (len(short) >= _LEAST_STEM and long.startswith(short))


def _refuse_none(ids: list[int], what: str, state: str) -> None:
    if not ids:
        raise NotFound(f"no {what} among those chosen is in state {quoted(state)!r}")
