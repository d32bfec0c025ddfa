"""The animals and families of a drawing, from the record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from warmside.api import Animal, Book, Parent
from warmside.plugins.lineage.pedigree.people import Drawn, Family, Shows
from warmside.plugins.lineage.reading.kin import by_age, with_ancestors

KNOWN = "genes.known"
DEAD = "died"


def drawn(book: Book, ids: Iterable[int], index: Animal, trait: str) -> list[Drawn]:
    """The animals, the oldest first, with what is recorded of a trait."""
    shows = _shown(book, trait)
    dead = {e.animal_id for e in book.events("departed") if e.data.get("how") == DEAD}
    return [
        Drawn(
            id,
            book.animals[id].sex,
            _words(book.animals[id]),
            shows.get(id, Shows.NOTHING),
            id in dead,
            id == index.id,
        )
        for id in sorted(ids, key=by_age(book))
    ]


def _words(animal: Animal) -> tuple[str, ...]:
    born = animal.hatched.text if animal.hatched else ""
    return (animal.name, animal.code if animal.code != animal.name else "", born)


def _shown(book: Book, trait: str) -> dict[int, Shows]:
    """What the plugin for genes has recorded of a trait, read from its events."""
    found: dict[int, Shows] = {}
    if trait:
        for event in book.events(KNOWN):
            says = str(event.data["says"]).casefold()
            if says.endswith(f" {trait.casefold()}") and event.animal_id is not None:
                found[event.animal_id] = _meant(says.removesuffix(trait.casefold()).strip())
    return found


def _meant(word: str) -> Shows:
    if word in ("visual", "two copies of"):
        return Shows.VISUAL
    return Shows.CARRIES if word.endswith("het") and "possible" not in word else Shows.NOTHING


def families(book: Book, ids: Sequence[int]) -> list[Family]:
    """The young by their parents, the likeliest of several first, then what else may be."""
    inside = set(ids)
    return [*_surest(book, ids, inside), *_others(book, ids, inside)]


def _surest(book: Book, ids: Sequence[int], inside: set[int]) -> Iterator[Family]:
    together: dict[tuple[int | None, int | None], list[int]] = {}
    unsure: dict[tuple[int | None, int | None], dict[object, float | None]] = {}
    for id in ids:
        dam, sire = (_likeliest(book, id, role, inside) for role in ("dam", "sire"))
        key = (dam.parent_id if dam else None, sire.parent_id if sire else None)
        if any(key):
            together.setdefault(key, []).append(id)
            doubts = unsure.setdefault(key, {})
            doubts |= {p.parent_id: p.weight for p in (dam, sire) if p and p.certainty != "certain"}
    for pair, young in together.items():
        yield Family(*pair, tuple(young), unsure[pair], _related(book, *pair))


def _others(book: Book, ids: Sequence[int], inside: set[int]) -> Iterator[Family]:
    """Each less likely candidate with the likeliest mate, and the young that may be theirs."""
    together: dict[tuple[int | None, int | None], list[int]] = {}
    shares: dict[object, float | None] = {}
    for id in ids:
        likeliest = {role: _likeliest(book, id, role, inside) for role in ("dam", "sire")}
        for parent in book.parents.get(id, ()):
            if parent.parent_id in inside and parent != likeliest[parent.role]:
                pair = {r: p.parent_id if p else None for r, p in likeliest.items()}
                pair[parent.role] = parent.parent_id
                together.setdefault((pair["dam"], pair["sire"]), []).append(id)
                shares[parent.parent_id] = parent.weight
    for (dam, sire), young in together.items():
        unsure: dict[object, float | None] = {
            p: share for p, share in shares.items() if p in (dam, sire)
        }
        yield Family(dam, sire, tuple(young), unsure, _related(book, dam, sire), maybe=True)


def _likeliest(book: Book, id: int, role: str, inside: set[int]) -> Parent | None:
    found = [p for p in book.parents.get(id, ()) if p.role == role and p.parent_id in inside]
    return max(found, key=lambda p: p.weight or 0.0, default=None)


def _related(book: Book, dam: int | None, sire: int | None) -> bool:
    if dam is None or sire is None:
        return False
    return not with_ancestors(book, [dam]).isdisjoint(with_ancestors(book, [sire]))
