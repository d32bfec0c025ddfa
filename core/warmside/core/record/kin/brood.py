"""The young of a clutch, entered with its parents; a clutch's candidates as they are typed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from warmside.core.record import tables
from warmside.core.record.book import Book
from warmside.core.record.entities import Clutch
from warmside.core.record.kin.lineage import Candidate, certainties, check_parent
from warmside.core.record.kin.many_kin import Newcomer, enter
from warmside.core.record.kin.parentage import clutch_candidates, clutch_certainty
from warmside.core.record.steps import StepWriter
from warmside.core.record.typed_subjects import typed_subjects
from warmside.core.values.errors import BadInput


def candidates(book: Book, role: str, typed: Iterable[str]) -> list[Candidate]:
    """The animals named, each with the weight behind its `=`."""
    return [
        Candidate(book.animal(t.name), _weight(role, t.value) if t.value else None)
        for t in typed_subjects(tuple(typed))
    ]


def _weight(role: str, text: str) -> float:
    percent = text.strip().endswith("%")
    try:
        weight = float(text.strip().removesuffix("%"))
    except ValueError:
        raise BadInput(
            f"the weight of a {role} is a share such as 0.7 or 70%, not {text!r}"
        ) from None
    return weight / 100 if percent else weight


def _silent() -> None:
    """What is called for each young where nobody watches."""


def enter_young(
    writer: StepWriter,
    clutch: Clutch,
    young: Iterable[Newcomer],
    done: Callable[[], None] = _silent,
) -> list[int]:
    """Enter animals that hatched from a clutch, with its parents; their ids, in their order."""
    ids = enter(writer, young, done)
    for id in ids:
        writer.insert(tables.clutch_young, young_id=id, clutch_id=clutch.id)
    book = writer.reread()
    for role in ("dam", "sire"):
        _give_parents(writer, book, clutch, role, ids)
    writer.reread()
    return ids


def _give_parents(
    writer: StepWriter, book: Book, clutch: Clutch, role: str, young: Sequence[int]
) -> None:
    candidates = clutch_candidates(book, clutch, role)
    words = certainties(role, candidates, clutch_certainty(clutch, role)) if candidates else ()
    for (parent, weight), word in zip(candidates, words, strict=True):
        for id in young:
            check_parent(book.animals[id], role, parent, book.parents)
            writer.insert(
                tables.parentage,
                child_id=id,
                role=role,
                parent_id=parent.id,
                certainty=word,
                weight=weight,
            )
