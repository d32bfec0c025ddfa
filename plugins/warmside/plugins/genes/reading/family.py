"""The family of an animal as it is reckoned with: who descends from whom, and what is known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from msgspec import Struct

from warmside.api import About, Animal, Ask, BadInput, Book, Parent
from warmside.plugins.genes.inheritance.facts import Candidates, Fact, Member, Prior
from warmside.plugins.genes.inheritance.model import Family
from warmside.plugins.genes.reading.said import Said, said_of_all
from warmside.plugins.genes.reading.traits import catalogue
from warmside.plugins.genes.traits.catalogue import Catalogue
from warmside.plugins.genes.traits.meaning import Word, facts, prior

MOST_KIN = 400
"""So many animals are reckoned with, and more only where something is known of them."""
CUT = (
    "the family is too large to reckon with whole: ancestors further back, of which nothing is "
    "known, are taken as unrelated"
)


class Kin(Struct, frozen=True):
    """A family with the traits that are asked about.

    `assumptions` say in words what is taken for granted where the record says nothing.
    """

    family: Family
    catalogue: Catalogue
    said: Mapping[int, tuple[Said, ...]]
    assumptions: tuple[str, ...]


def kin_of(
    ask: Ask, animals: Sequence[Animal], on: date | None, loci: Iterable[str] | None = None
) -> Kin:
    """The family around animals of one species; without `loci` all of which anything is known."""
    book = ask.book
    species = animals[0].species
    traits = catalogue(book, species)
    related = _related(book, animals)
    said = {id: s for id, s in said_of_all(book, on).items() if id in related}
    ids, is_cut = _with_ancestors(book, {*said, *(a.id for a in animals)})
    wanted = list(loci) if loci is not None else _loci_of(said)
    members = tuple(_member(book, book.animals[id], ids) for id in sorted(ids))
    share = float(ask.setting("genes", "assumed_frequency", About(animals[0].id))) / 100
    family = Family(
        members,
        traits.groups(wanted),
        tuple(_facts(traits, said, wanted)),
        tuple(_priors(traits, said, wanted, members)),
        {name: {a.name: share for a in traits.loci[name].alleles} for name in wanted},
    )
    assumptions = (*_assumptions(book, ids, share), *((CUT,) if is_cut else ()))
    return Kin(family, traits, said, assumptions)


def check_pair(one: Animal, other: Animal) -> None:
    """Raise BadInput for two that are no pair."""
    if one.species.id != other.species.id:
        raise BadInput(f"{other.label} is of another species than {one.label}")
    if one.id == other.id:
        raise BadInput(f"{one.label} is named as dam and as sire")
    if one.sex == other.sex != "unknown":
        raise BadInput(f"{one.label} and {other.label} are both {one.sex}, and so no pair")


def check_roles(dam: Animal, sire: Animal) -> None:
    """Raise BadInput for a male dam or a female sire."""
    for one, role, sex in ((dam, "dam", "male"), (sire, "sire", "female")):
        if one.sex == sex:
            raise BadInput(f"{one.label} is {sex} and cannot be a {role}; name the dam first")


def _loci_of(said: Mapping[int, tuple[Said, ...]]) -> list[str]:
    known = [s.locus for all_said in said.values() for s in all_said if s.known]
    return list(dict.fromkeys(known))


def _related(book: Book, animals: Iterable[Animal]) -> set[int]:
    """All of the same species that are joined by parents, on any path."""
    near = book.once(("genes", "near"), lambda: _near(book))
    found: set[int] = set()
    waiting = [a.id for a in animals]
    while waiting:
        if (id := waiting.pop()) not in found:
            found.add(id)
            waiting.extend(near.get(id, ()))
    return found


def _near(book: Book) -> dict[int, set[int]]:
    """Parents and young of each animal that has any."""
    near: dict[int, set[int]] = {}
    for child, parents in book.parents.items():
        for parent in parents:
            near.setdefault(child, set()).add(parent.parent_id)
            near.setdefault(parent.parent_id, set()).add(child)
    return near


def _with_ancestors(book: Book, known: set[int]) -> tuple[set[int], bool]:
    """Animals of which something is known or asked, with their ancestors, and if some are left out.

    Young of which nothing is known tell nothing. Of a family that is too large only so many
    generations of ancestors are taken as it allows.
    """
    found, edge = set(known), set(known)
    while edge:
        edge = {p.parent_id for id in edge for p in book.parents.get(id, ())} - found
        if len(found) + len(edge) > max(MOST_KIN, len(known)):
            return found, True
        found |= edge
    return found, False


def _member(book: Book, animal: Animal, ids: set[int]) -> Member:
    """An animal with its candidates; those of a role count as strangers where one is left out."""
    parents = book.parents.get(animal.id, ())
    dams, sires = ([p for p in parents if p.role == role] for role in ("dam", "sire"))
    dams, sires = (r if ids.issuperset(p.parent_id for p in r) else [] for r in (dams, sires))
    together = ("clutch", animal.clutch_id) if animal.clutch_id is not None else None
    return Member(
        animal.id,
        animal.sex,
        Candidates(_shares(dams), together),
        Candidates(_shares(sires), together),
    )


def _shares(parents: Sequence[Parent]) -> dict[object, float]:
    """The share of each candidate; without weights all are taken as equally likely."""
    equal = 1 / len(parents) if parents else 0.0
    return {p.parent_id: equal if p.weight is None else p.weight for p in parents}


def _facts(
    traits: Catalogue, said: Mapping[int, tuple[Said, ...]], wanted: Sequence[str]
) -> Iterator[Fact]:
    for id, all_said in said.items():
        for name in wanted:
            words = [Word(s.known, s.evidence) for s in all_said if s.known and s.locus == name]
            yield from facts(id, words, traits.loci[name])


def _priors(
    traits: Catalogue,
    said: Mapping[int, tuple[Said, ...]],
    wanted: Sequence[str],
    members: Iterable[Member],
) -> Iterator[Prior]:
    """Stated chances, of animals whose parents are not on record: else the parents tell."""
    founders = {m.id for m in members if m.is_founder}
    for id in founders & said.keys():
        last: dict[str, Prior] = {}
        for one in said[int(str(id))]:
            if one.known and one.locus in wanted:
                locus = traits.loci[one.locus]
                if (found := prior(id, one.known, locus)) is not None:
                    last[locus.name] = found
        yield from last.values()


def _assumptions(book: Book, ids: set[int], share: float) -> Iterator[str]:
    yield (
        "animals without known parents are taken as unrelated, with a share of "
        f"{100 * share:g} % of each recessive allele where nothing else is known"
    )
    parents = [p for id in ids for p in book.parents.get(id, ())]
    unweighted = [p for p in parents if p.weight is None and p.certainty != "certain"]
    if unweighted:
        yield (
            "parents that were recorded as probable or possible without a weight are taken as "
            "equally likely, and as the only ones"
        )
