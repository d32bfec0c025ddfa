"""Recording who an animal's parents are, or may be."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.core.record import tables
from warmside.core.record.book import Book
from warmside.core.record.entities import CERTAINTIES, Animal, Clutch, Parent
from warmside.core.record.entry_checks import one_of
from warmside.core.record.kin.lineage import Candidate, certainties, check_parent
from warmside.core.record.steps import StepWriter


def set_parents(
    writer: StepWriter,
    child: Animal,
    role: str,
    candidates: Sequence[Candidate],
    certainty: str | None = None,
) -> None:
    """Record all candidates for a role; those recorded before are replaced."""
    book = writer.book
    for candidate in candidates:
        check_parent(child, role, candidate.parent, book.parents)
    if certainty is not None:
        certainty = one_of("certainty", certainty, CERTAINTIES)
    words = certainties(role, candidates, certainty)
    before = {p.parent_id for p in in_role(book, child.id, role)}
    key = {"child_id": child.id, "role": role}
    for gone in sorted(before - {c.parent.id for c in candidates}):
        writer.remove(tables.parentage, key | {"parent_id": gone})
    for (parent, weight), word in zip(candidates, words, strict=True):
        whole = key | {"parent_id": parent.id}
        if parent.id in before:
            writer.change(tables.parentage, whole, weight=weight, certainty=word)
        else:
            writer.insert(tables.parentage, **whole, weight=weight, certainty=word)
    writer.reread()


def in_role(book: Book, child_id: int, role: str) -> list[Parent]:
    """The recorded candidates of a child for a role."""
    return [p for p in book.parents.get(child_id, ()) if p.role == role]


def clutch_candidates(book: Book, clutch: Clutch, role: str) -> list[Candidate]:
    """The candidates of a clutch for a role."""
    if role == "sire":
        return [Candidate(book.animals[s.animal_id], s.weight) for s in clutch.sires]
    return [Candidate(book.animals[clutch.dam_id])] if clutch.dam_id is not None else []


def clutch_certainty(clutch: Clutch, role: str) -> str | None:
    """The word for its candidates, where no weight says it."""
    words = {s.certainty for s in clutch.sires if s.weight is None}
    return words.pop() if role == "sire" and words else None


def put_into(writer: StepWriter, child: Animal, clutch: Clutch) -> Animal:
    """Record that it hatched from the clutch, whose parents are its own where none is recorded."""
    key = {"young_id": child.id}
    if child.clutch_id is None:
        writer.insert(tables.clutch_young, **key, clutch_id=clutch.id)
    else:
        writer.change(tables.clutch_young, key, clutch_id=clutch.id)
    writer.reread()
    for role in ("dam", "sire"):
        book = writer.book
        candidates = clutch_candidates(book, clutch, role)
        if candidates and not in_role(book, child.id, role):
            set_parents(writer, child, role, candidates, clutch_certainty(clutch, role))
    return writer.reread().animals[child.id]
