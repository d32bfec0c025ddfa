"""Who may be whose parent."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from warmside.core.record.entities import CERTAINTIES, Animal, Clutch, Parent
from warmside.core.values.errors import BadInput

ROLE_SEX = {"dam": "female", "sire": "male"}
SLACK = 1e-9  # of a sum of decimal fractions


class Candidate(NamedTuple):
    """An animal that is, or may be, a parent; `weight` is None where only words tell how sure."""

    parent: Animal
    weight: float | None = None


def certainties(
    role: str, candidates: Sequence[Candidate], certainty: str | None = None
) -> list[str]:
    """The word for each candidate for a role; BadInput where weights or words contradict.

    A weight says all, and its word follows: 1 is certain, more likely than not is probable, less
    is possible. Without weights one candidate is certain and several are possible, unless the
    keeper says otherwise; no number is made up for a word.
    """
    names = [c.parent.label for c in candidates]
    for name in names:
        if names.count(name) > 1:
            raise BadInput(f"{name} is named twice as {role}")
    weights = [c.weight for c in candidates if c.weight is not None]
    if weights:
        if certainty is not None:
            raise BadInput("a weight says how sure it is; leave out --certainty")
        if len(weights) < len(candidates):
            raise BadInput(f"give each {role} a weight, such as {candidates[0].parent.code}=0.5")
        check_weights(role, weights)
        return [_word(w) for w in weights]
    if certainty == "certain" and len(candidates) > 1:
        raise BadInput(f"there are {len(candidates)} {role}s, so none is certain")
    return [certainty or ("possible" if len(candidates) > 1 else "certain")] * len(candidates)


def check_weights(role: str, weights: Sequence[float]) -> None:
    """Raise BadInput unless each is a share of probability and all together at most 1."""
    for weight in weights:
        if not 0 < weight <= 1:
            raise BadInput(f"the weight of a {role} is more than 0 and at most 1, not {weight:g}")
    if sum(weights) > 1 + SLACK:
        raise BadInput(f"the weights of the {role}s sum to {sum(weights):g}, which is more than 1")


def _word(weight: float) -> str:
    certain, probable, possible = CERTAINTIES
    return certain if weight == 1 else probable if weight > 0.5 else possible


def check_parent(
    child: Animal, role: str, parent: Animal, parents: Mapping[int, tuple[Parent, ...]]
) -> None:
    """Raise BadInput with the reason where `parent` cannot be the dam or sire of `child`."""
    if parent.id == child.id:
        raise BadInput(f"{child.label} cannot be its own {role}")
    if parent.sex not in (ROLE_SEX[role], "unknown"):
        raise BadInput(f"{parent.label} is {parent.sex} and cannot be a {role}")
    if child.id in ancestors(parent.id, parents):
        raise BadInput(f"{parent.label} descends from {child.label} and cannot be its {role}")
    if child.hatched and parent.hatched and not parent.hatched.earliest < child.hatched.latest:
        raise BadInput(
            f"{parent.label} hatched {parent.hatched.text}, not before {child.label} "
            f"({child.hatched.text}), and cannot be its {role}"
        )


def of_other_species(animals: Iterable[Animal]) -> str:
    """What is odd of relatives of several species, in words; empty where they are of one.

    Subspecies of one species are of one.
    """
    by_species: dict[str, str] = {}
    for animal in animals:
        species = " ".join(animal.species.scientific.split()[:2])
        by_species.setdefault(species, animal.label)
    if len(by_species) < 2:
        return ""
    named = ", ".join(f"{label} is {species}" for species, label in by_species.items())
    return (
        f"{named}: look at the codes again; young of two species are hybrids, where there are any"
    )


def ancestors(animal_id: int, parents: Mapping[int, tuple[Parent, ...]]) -> set[int]:
    """The ids of all known ancestors of an animal."""
    found: set[int] = set()
    waiting = [animal_id]
    while waiting:
        for parent in parents.get(waiting.pop(), ()):
            if parent.parent_id not in found:
                found.add(parent.parent_id)
                waiting.append(parent.parent_id)
    return found


def check_clutch(clutch: Clutch, animals: Mapping[int, Animal]) -> None:
    """Raise BadInput with the reason where the parents or the days of a clutch cannot be."""
    parents = [("dam", clutch.dam_id)] if clutch.dam_id is not None else []
    parents += [("sire", s.animal_id) for s in clutch.sires]
    for role, id in parents:
        parent = animals[id]
        if parent.sex not in (ROLE_SEX[role], "unknown"):
            raise BadInput(f"{parent.label} is {parent.sex} and cannot be a {role}")
        if clutch.dam_id == id and role == "sire":
            raise BadInput(f"{parent.label} cannot be dam and sire of {clutch.label}")
        if parent.hatched and clutch.laid and not parent.hatched.earliest < clutch.laid:
            raise BadInput(
                f"{parent.label} hatched {parent.hatched.text}, not before {clutch.label} was laid "
                f"({clutch.laid}), and cannot be its {role}"
            )
    _check_days(clutch)


def _check_days(clutch: Clutch) -> None:
    days = (
        ("laid", clutch.laid),
        ("hatched", clutch.hatched_first),
        ("the last hatched", clutch.hatched_last),
    )
    known = [(what, day) for what, day in days if day is not None]
    for (earlier, before), (later, after) in pairwise(known):
        if after < before:
            raise BadInput(f"{clutch.label}: {later} {after} is before {earlier} {before}")
    if clutch.hatched_last and not clutch.hatched_first:
        raise BadInput(f"{clutch.label}: say when the first hatched, with --hatched")
    if clutch.good is not None and clutch.eggs is not None and clutch.good > clutch.eggs:
        raise BadInput(f"{clutch.label}: {clutch.good} good of {clutch.eggs} eggs cannot be")


def hatched_in(clutch: Clutch) -> str:
    """The date of hatching that all young of a clutch share, as far as it is known; else empty."""
    first, last = clutch.hatched_first, clutch.hatched_last or clutch.hatched_first
    if first is None or last is None:
        return ""
    for known in (first.isoformat(), first.isoformat()[:7], first.isoformat()[:4]):
        if last.isoformat().startswith(known):
            return known
    return ""
