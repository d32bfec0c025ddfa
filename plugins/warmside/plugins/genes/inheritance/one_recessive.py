"""One autosomal recessive trait in a plain pedigree: id, dam, sire, looks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from warmside.api import BadInput
from warmside.plugins.genes.inheritance.facts import Candidates, Member, looks
from warmside.plugins.genes.inheritance.group import Group
from warmside.plugins.genes.inheritance.loci import NORMAL, Allele, Locus, Shows
from warmside.plugins.genes.inheritance.model import Family

TRAIT = "visual"
LOCUS = Locus(TRAIT, (Allele(TRAIT, Shows.RECESSIVE),))
SEEN = {"": None, NORMAL: NORMAL, TRAIT: TRAIT}


class PedigreeRow(NamedTuple):
    """A row of a file; a parent or looks that are not known are empty."""

    line: int
    id: str
    dam: str
    sire: str
    looks: str


def check_frequency(frequency: float) -> None:
    """Raise BadInput unless it is a share of alleles that leaves both kinds."""
    if not 0 < frequency < 1:
        raise BadInput(f"--frequency is a share between 0 and 1, such as 0.1, not {frequency:g}")


def family_of(rows: Sequence[PedigreeRow], frequency: float) -> Family:
    """The family of a file.

    Raises BadInput, naming the line, for an id that is there twice, a parent without a row, looks
    that are none, a dam that is somewhere a sire, and a loop in the parents.
    """
    by_id: dict[str, PedigreeRow] = {}
    for row in rows:
        if row.id in by_id:
            raise BadInput(f"line {row.line}: {row.id} is there in line {by_id[row.id].line}, too")
        by_id[row.id] = row
    sexes = _sexes(rows, by_id)
    _check_no_loop(by_id)
    members = tuple(
        Member(row.id, sexes.get(row.id, "unknown"), _certain(row.dam), _certain(row.sire))
        for row in rows
    )
    facts = tuple(looks(r.id, LOCUS, seen) for r in rows if (seen := _look(r)) is not None)
    return Family(members, (Group((LOCUS,)),), facts, (), {TRAIT: {TRAIT: frequency}})


def _certain(parent: str) -> Candidates:
    return Candidates({parent: 1.0}) if parent else Candidates()


def _look(row: PedigreeRow) -> str | None:
    look = row.looks.casefold()
    if look not in SEEN:
        raise BadInput(f"line {row.line}: looks are normal, visual or empty, not {row.looks!r}")
    return SEEN[look]


def _sexes(rows: Sequence[PedigreeRow], by_id: Mapping[str, PedigreeRow]) -> dict[str, str]:
    found: dict[str, str] = {}
    for row in rows:
        for parent, sex in ((row.dam, "female"), (row.sire, "male")):
            if parent and parent not in by_id:
                raise BadInput(f"line {row.line}: {parent} has no row of its own; add one")
            if parent and found.setdefault(parent, sex) != sex:
                raise BadInput(f"line {row.line}: {parent} is a dam and a sire; one is wrong")
    return found


def _check_no_loop(by_id: Mapping[str, PedigreeRow]) -> None:
    """Take away whoever has no parents left, again and again: what stays goes round in a loop."""
    left = {id: {p for p in (row.dam, row.sire) if p} for id, row in by_id.items()}
    while free := [id for id, parents in left.items() if not parents & left.keys()]:
        for id in free:
            del left[id]
    if left:
        lines = ", ".join(str(by_id[id].line) for id in sorted(left))
        raise BadInput(f"lines {lines}: a loop, an animal is its own ancestor; check the parents")
