"""A family as a tree of lines for a terminal."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from warmside.api import Animal, Book, Parent

Branches = Callable[[int], Sequence[tuple[str, int]]]
"""What hangs from an animal: a word before it (dam, sire, young) and its id."""


def ancestor_lines(book: Book, animal: Animal, most: int) -> list[str]:
    """The parents, theirs and so on, up to so many generations."""

    def parents(id: int) -> list[tuple[str, int]]:
        found = book.parents.get(id, ())
        return [(f"{p.role}{_how_sure(p)}", p.parent_id) for p in found]

    return [label(animal), *_lines(book.animals, animal.id, parents, most, seen=set())]


def descendant_lines(
    book: Book, animal: Animal, young: Mapping[int, Sequence[int]], most: int
) -> list[str]:
    """The young, theirs and so on, each with its other parent."""

    def below(id: int) -> list[tuple[str, int]]:
        return [(_with(book, one, id), one) for one in young.get(id, ())]

    return [label(animal), *_lines(book.animals, animal.id, below, most, seen=set())]


def label(animal: Animal) -> str:
    """Name, code, sex and when it hatched."""
    born = f", {animal.hatched.text}" if animal.hatched else ""
    return f"{animal.label} {animal.sex_sign}{born}"


def _how_sure(parent: Parent) -> str:
    if parent.certainty == "certain":
        return ""
    share = "" if parent.weight is None else f" {100 * parent.weight:.3g} %"
    return f"?{share}" if share else f" ({parent.certainty})"


def _with(book: Book, child: int, parent: int) -> str:
    """The other parent of a young, as a word before it."""
    others = [p.parent_id for p in book.parents.get(child, ()) if p.parent_id != parent]
    return f"with {', '.join(book.animals[o].code for o in others)}:" if others else "young:"


def _lines(
    animals: Mapping[int, Animal],
    id: int,
    branches: Branches,
    most: int,
    before: str = "",
    *,
    seen: set[int],
) -> Iterator[str]:
    """The lines below an animal; what hangs from one that stands above already is not repeated."""
    found = branches(id) if most else ()
    for n, (word, other) in enumerate(found):
        last = n == len(found) - 1
        again = " (as above)" if other in seen and branches(other) else ""
        yield f"{before}{'└─' if last else '├─'} {word} {label(animals[other])}{again}"
        if not again:
            seen.add(other)
            deeper = before + ("   " if last else "│  ")
            yield from _lines(animals, other, branches, most - 1, deeper, seen=seen)
