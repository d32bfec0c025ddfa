"""Who descends from whom, as the record has it."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping

from warmside.api import Animal, Book, Parent
from warmside.plugins.lineage.kinship.uncertain import Child


def children(book: Book, wanted: Iterable[int] | None = None) -> list[Child]:
    """Animals with the candidates for their parents; all, or some with all their ancestors."""
    ids = book.animals.keys() if wanted is None else with_ancestors(book, wanted)
    return [_child(book, book.animals[id]) for id in sorted(ids)]


def _child(book: Book, animal: Animal) -> Child:
    parents = book.parents.get(animal.id, ())
    dams, sires = ([p for p in parents if p.role == role] for role in ("dam", "sire"))
    together = None if animal.clutch_id is None else ("clutch", animal.clutch_id)
    return Child(animal.id, _shares(dams), _shares(sires), together)


def _shares(parents: list[Parent]) -> Mapping[Hashable, float]:
    """The share of each candidate; without weights all are taken as equally likely."""
    return {p.parent_id: 1 / len(parents) if p.weight is None else p.weight for p in parents}


def with_ancestors(book: Book, wanted: Iterable[int]) -> set[int]:
    """Some animals with all their ancestors, by any candidate."""
    found: set[int] = set()
    waiting = list(wanted)
    while waiting:
        if (id := waiting.pop()) not in found:
            found.add(id)
            waiting.extend(p.parent_id for p in book.parents.get(id, ()))
    return found


def descendants(book: Book, animal: int) -> set[int]:
    """All recorded young of an animal, theirs, and so on."""
    young = young_of_all(book)
    found: set[int] = set()
    waiting = list(young.get(animal, ()))
    while waiting:
        if (id := waiting.pop()) not in found:
            found.add(id)
            waiting.extend(young.get(id, ()))
    return found


def young_of_all(book: Book) -> Mapping[int, list[int]]:
    """The recorded young of each parent, the oldest first."""
    return book.once(("lineage", "young"), lambda: _young(book))


def _young(book: Book) -> dict[int, list[int]]:
    found: dict[int, list[int]] = {}
    for child, parents in book.parents.items():
        for parent in parents:
            found.setdefault(parent.parent_id, []).append(child)
    return {parent: sorted(set(young), key=by_age(book)) for parent, young in found.items()}


def by_age(book: Book) -> Callable[[int], tuple[str, int]]:
    """Sorts ids by the date of hatching, unknown ones last, then by when they were entered."""

    def key(id: int) -> tuple[str, int]:
        hatched = book.animals[id].hatched
        return (hatched.earliest.isoformat() if hatched else "9999", id)

    return key


def is_unsure(parents: Iterable[Parent]) -> bool:
    """Whether any parent is not certain."""
    return any(p.certainty != "certain" for p in parents)


def around(book: Book, animal: Animal, up: int | None, down: int | None) -> set[int]:
    """An animal, its ancestors and descendants up to so many generations, and their mates."""
    found = {animal.id}
    for steps, near in ((up, _parents_of), (down, young_and_mates)):
        edge = {animal.id}
        for _ in range(len(book.animals) if steps is None else steps):
            edge = {id for one in edge for id in near(book, one)} - found
            if not edge:
                break
            found |= edge
    return found


def _parents_of(book: Book, id: int) -> Iterator[int]:
    return (p.parent_id for p in book.parents.get(id, ()))


def young_and_mates(book: Book, id: int) -> Iterator[int]:
    """The young of an animal, and their other parents."""
    for young in young_of_all(book).get(id, ()):
        yield young
        yield from _parents_of(book, young)
