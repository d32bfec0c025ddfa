"""The animals and families of a drawing, from the record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from warmside.api import About, Animal, Ask, Book, Distribution, Parent
from warmside.plugins.lineage.pedigree.people import Drawn, Family, Shows
from warmside.plugins.lineage.reading.kin import by_age, with_ancestors

KNOWN = "genes.known"
DEAD = "died"
COPIES, CERTAIN = "copies of traits", 0.9995
MEANT = {1: Shows.CARRIES, 2: Shows.VISUAL}
WORDS = {"visual": Shows.VISUAL, "two copies of": Shows.VISUAL, "het": Shows.CARRIES}


def drawn(ask: Ask, ids: Sequence[int], index: Animal, trait: str) -> list[Drawn]:
    """The animals, the oldest first, with what is recorded of a trait, or follows for certain."""
    book = ask.book
    shows = dict(_certain(ask, ids, trait)) | _shown(book, trait) if trait else {}
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


def _certain(ask: Ask, ids: Iterable[int], trait: str) -> Iterator[tuple[int, Shows]]:
    """What follows from the whole family, as a plugin that knows genes answers."""
    for id in ids:
        for answered in ask.answers(COPIES, About(id), ask.book.today):
            given = answered.given
            if isinstance(given, Distribution) and given.basis.rule.casefold() == trait.casefold():
                sure = (n for n, chance in given.chances if chance > CERTAIN)
                yield id, MEANT.get(int(next(sure, 0)), Shows.NOTHING)


def _shown(book: Book, trait: str) -> dict[int, Shows]:
    """What is recorded of a trait, where an animal shows or carries it."""
    found: dict[int, Shows] = {}
    for event in book.events(KNOWN):
        says = str(event.data["says"]).casefold()
        if says.endswith(f" {trait.casefold()}") and event.animal_id is not None:
            word = says.removesuffix(trait.casefold()).strip()
            if word in WORDS:
                found[event.animal_id] = WORDS[word]
    return found


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
