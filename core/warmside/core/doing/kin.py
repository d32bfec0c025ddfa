"""Recording parents and clutches, from what a keeper types."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.answers.parts import Answer, said
from warmside.core.asking.subjects.clutch_cards import clutch_card, clutch_words
from warmside.core.asking.subjects.kin_words import share_words
from warmside.core.asking.subjects.recorded import TAKE_BACK
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal, Clutch
from warmside.core.record.kin.brood import candidates
from warmside.core.record.kin.clutches import add_clutch, change_clutch
from warmside.core.record.kin.lineage import Candidate, of_other_species
from warmside.core.record.kin.parentage import in_role, set_parents
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput


class Parents(Struct, frozen=True):
    """Candidates for dam and sire as typed, each with its weight where one is: `PEP=0.7`."""

    child: str
    dams: tuple[str, ...] = ()
    sires: tuple[str, ...] = ()
    certainty: str | None = None


def record_parents(session: Session, wanted: Parents) -> Answer:
    """Record the parents; those recorded before in a role that is named are replaced."""
    if not wanted.dams and not wanted.sires:
        raise BadInput("name a parent: --dam CODE, --sire CODE or both")
    with session.step(f"parents of {wanted.child}") as writer:
        child = writer.book.animal(wanted.child)
        told, family = [], [child]
        for role, typed in (("dam", wanted.dams), ("sire", wanted.sires)):
            if typed:
                found = candidates(writer.book, role, typed)
                set_parents(writer, child, role, found, wanted.certainty)
                family += [c.parent for c in found]
                told += [
                    f"{role} {writer.book.animals[p.parent_id].label}, {share_words(p)}"
                    for p in in_role(writer.book, child.id, role)
                ]
        words = f"{child.label}: {'; '.join(told)}"
        writer.say(words)
    return _told(words, family)


def _told(words: str, family: Sequence[Animal], *hints: str) -> Answer:
    """What was recorded of relatives, with a warning where they are not of one species."""
    odd = of_other_species(family)
    return replace(said(words, hints=[TAKE_BACK, *hints]), warnings=(odd,) if odd else ())


class ClutchTyped(Struct, frozen=True):
    """A clutch as typed; None is not known, or left as it was."""

    code: str | None = None
    dam: str | None = None
    sires: tuple[str, ...] = ()
    certainty: str | None = None
    laid: str | None = None
    hatched: str | None = None
    last_hatched: str | None = None
    eggs: int | None = None
    good: int | None = None
    note: str | None = None


def enter_clutch(session: Session, wanted: ClutchTyped) -> Answer:
    """Enter a clutch."""
    with session.step("entered a clutch") as writer:
        values, sires = _read(session, writer.book, wanted)
        made = add_clutch(writer, values, sires, wanted.certainty)
        words = f"entered {clutch_words(writer.book, made)}"
        writer.say(words)
        family = _parents_of(writer.book, made)
    return _told(words, family, f"warmside animal add NAME --clutch {made.code}")


def alter_clutch(session: Session, code: str, wanted: ClutchTyped) -> Answer:
    """Change what was entered of a clutch."""
    with session.step(f"changed clutch {code}") as writer:
        values, sires = _read(session, writer.book, wanted)
        old = writer.book.clutch(code)
        new = change_clutch(writer, old, values, sires, wanted.certainty)
        words = f"changed {clutch_words(writer.book, new)}"
        writer.say(words)
        family = _parents_of(writer.book, new)
    return _told(words, family)


def _parents_of(book: Book, clutch: Clutch) -> list[Animal]:
    """Its dam and all that may be its sire."""
    ids = [clutch.dam_id, *(s.animal_id for s in clutch.sires)]
    return [book.animals[id] for id in ids if id is not None]


def show_clutch(session: Session, code: str) -> Answer:
    """One clutch, its parents, its young and its events."""
    with session.ask() as ask:
        return clutch_card(ask, ask.book.clutch(code))


def _read(
    session: Session, book: Book, wanted: ClutchTyped
) -> tuple[Mapping[str, Any], Sequence[Candidate]]:
    days = {
        "laid": wanted.laid,
        "hatched_first": wanted.hatched,
        "hatched_last": wanted.last_hatched,
    }
    values = {
        "code": wanted.code,
        "dam_id": book.animal(wanted.dam).id if wanted.dam else None,
        **{name: session.day(text, book) if text else None for name, text in days.items()},
        "eggs": wanted.eggs,
        "good": wanted.good,
        "note": wanted.note,
    }
    return values, candidates(book, "sire", wanted.sires)
