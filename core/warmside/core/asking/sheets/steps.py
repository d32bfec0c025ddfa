"""How a sitter does it: the keeper's own steps for an animal or an enclosure, with pictures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.answers.parts import Part, Shot, Strip, Words
from warmside.core.asking.ask import Ask
from warmside.core.asking.own_values import CORE, SITTER_STEPS
from warmside.core.asking.pictures.parts import strip_of
from warmside.core.record.entities import Animal, Enclosure
from warmside.core.record.pictures import Picture
from warmside.core.values.about import About

NEVER = "never"


class OneStep(Struct, frozen=True):
    """What is done, and the picture that shows it, if there is one."""

    words: str
    shot: Shot | None = None


class Steps(Struct, frozen=True):
    """The steps for one animal or enclosure in their order, and what is never done there."""

    who: str
    steps: tuple[OneStep, ...]
    never: tuple[str, ...]


def typed_steps(text: str) -> tuple[str, ...]:
    """The steps in a text: parted by semicolons or lines."""
    return tuple(part for line in text.splitlines() for s in line.split(";") if (part := s.strip()))


def steps_of(ask: Ask, subject: Animal | Enclosure) -> Steps | None:
    """The keeper's steps for it; None where none are set.

    Those of an enclosure are told there, not again at each animal that lives in it. A photo of
    the subject whose view is `step 2` shows the second step; the newest counts.
    """
    about = About(subject.id) if isinstance(subject, Animal) else About(enclosure_id=subject.id)
    found = ask.value(CORE.name, SITTER_STEPS, about)
    if not found.value or (found.scope == "enclosure" and isinstance(subject, Animal)):
        return None
    typed = typed_steps(str(found.value))
    never = tuple(s for s in typed if is_never(s))
    shots = _shots(ask, subject)
    todo = [s for s in typed if not is_never(s)]
    steps = tuple(OneStep(s, shots.get(f"step {n}")) for n, s in enumerate(todo, 1))
    return Steps(subject.name, steps, never)


def is_never(step: str) -> bool:
    """Whether a step says what not to do."""
    return step.casefold().startswith(f"{NEVER} ")


def steps_here(ask: Ask, place: Enclosure | None, animals: Iterable[Animal]) -> list[Steps]:
    """The steps for an enclosure, then those for each animal in it."""
    subjects: list[Animal | Enclosure] = [*([place] if place else []), *animals]
    return [found for s in subjects if (found := steps_of(ask, s)) is not None]


def steps_at_home(ask: Ask, on: date, animals: Sequence[Animal]) -> list[Steps]:
    """The steps for all these, each enclosure before who lives in it."""
    where = ask.book.whereabouts(on)
    homes: dict[int, list[Animal]] = {}
    for animal in animals:
        homes.setdefault(where[animal.id].enclosure_id or 0, []).append(animal)
    places = ask.book.enclosures
    return [s for home, inside in homes.items() for s in steps_here(ask, places.get(home), inside)]


def told_steps(found: Sequence[Steps]) -> Iterator[Part]:
    """The steps on paper, a numbered list for each, with their pictures below."""
    for one in found:
        lines = [f"{n}. {step.words}" for n, step in enumerate(one.steps, 1)]
        if lines:
            yield Words("\n".join((f"{one.who}:", *lines)))
        shots = [
            replace(step.shot, words=(f"step {n}",))
            for n, step in enumerate(one.steps, 1)
            if step.shot
        ]
        if shots:
            yield Strip("steps", "", tuple(shots), small=True)


def told_never(found: Iterable[Steps]) -> Iterator[Words]:
    """What is never done, with whom it is about."""
    for one in found:
        yield from (Words(f"– {one.who}: {text}") for text in one.never)


def _shots(ask: Ask, subject: Animal | Enclosure) -> dict[str, Shot]:
    """The newest photo of each view."""
    book, views = ask.book, dict[str, Picture]()
    mine = (
        book.pictures_of(animal=subject.id)
        if isinstance(subject, Animal)
        else book.pictures_of(enclosure=subject.id)
    )
    for picture in mine:
        if picture.view and not picture.is_paper:
            views[picture.view.casefold()] = picture
    return {view: strip_of([picture]).shots[0] for view, picture in views.items()}
