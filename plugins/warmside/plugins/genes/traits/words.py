"""What keepers write of an animal's genes: "visual albino, 66 % het piebald", read and said.

The words are those of the trade. "Het" is one copy that does not show; a percentage is the chance
of it, where 66 and 33 stand for two thirds and one third; "possible het" gives no number; "super"
or "two copies of" is two copies of a trait that shows with one; "no albino" is free of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from enum import StrEnum
from typing import NamedTuple

from warmside.api import BadInput
from warmside.plugins.genes.inheritance.loci import Shows
from warmside.plugins.genes.traits.catalogue import Catalogue, Pair, Trait


class Carries(StrEnum):
    """What is said of an animal and a trait."""

    VISUAL = "visual"  # it shows
    TWO = "two copies"  # of a trait that one copy shows already
    HET = "het"  # one copy, which does not show
    PART = "chance of het"  # with a percentage
    POSSIBLE = "possible het"  # without a number
    NORMAL = "normal"  # it does not show
    FREE = "free"  # no copy
    BOTH = "both"  # one copy of each of two alleles of one locus, where that has a name


class Known(NamedTuple):
    """One trait of an animal.

    `share` is the chance between 0 and 1 of Carries.PART; `pair` the two alleles of Carries.BOTH;
    `proven` says that the keeper called it so.
    """

    trait: Trait
    carries: Carries
    share: float | None = None
    pair: Pair | None = None
    proven: bool = False

    @property
    def words(self) -> str:
        """As the trade writes it."""
        name = self.trait.name
        if self.pair is not None:
            return self.pair.look
        if self.carries is Carries.PART:
            share = self.share or 0
            return f"{THIRDS.get(share, f'{100 * share:.4g}')} % het {name}"
        said = {Carries.TWO: f"two copies of {name}", Carries.FREE: f"no {name}"}
        return said.get(self.carries, f"{self.carries.value} {name}")


THIRDS = {1 / 3: "33", 2 / 3: "66"}
"""Shares that the trade writes as whole percentages: 66 % is two of three, not 66 of 100."""
_NEAR = 0.0075

_PATTERNS = (
    (
        r"(?P<share>\d+(?:[.,]\d+)?) ?% ?(?:possible |poss\.? )?het(?: for)? (?P<name>.+)",
        Carries.PART,
    ),
    (r"(?:possible|poss\.?|ph) het(?: for)? (?P<name>.+)", Carries.POSSIBLE),
    (r"(?:proven |100 ?% )?het(?:erozygous)?(?: for)? (?P<name>.+)", Carries.HET),
    (r"(?:super|two copies of|homozygous) (?P<name>.+)", Carries.TWO),
    (r"(?:not|no|free of|without) (?P<name>.+)", Carries.FREE),
    (r"normal (?:for )?(?P<name>.+)|(?P<name2>.+) normal", Carries.NORMAL),
    (r"(?:visual )?(?P<name>.+)", Carries.VISUAL),
)


def read_known(text: str, catalogue: Catalogue) -> tuple[Known, ...]:
    """What a keeper wrote, parted by commas.

    "Normal" alone says nothing of any trait. Raises BadInput for words without a trait or a share
    that is none, NotFound for a trait that the catalogue does not have.
    """
    if text.strip().casefold() in ("normal", "wild type"):
        return ()
    parts = [" ".join(part.split()) for part in re.split(r"(?<!\d),|,(?!\d)|[;+]| and ", text)]
    found = tuple(
        _one(part, catalogue)._replace(proven=part.casefold().startswith("proven "))
        for part in parts
        if part
    )
    if not found:
        raise BadInput('say what it carries, such as "visual albino, 66 % het piebald"')
    _check_once(found)
    return found


def _one(text: str, catalogue: Catalogue) -> Known:
    for trait in catalogue.traits:
        if trait.two_copies and text.casefold() == trait.two_copies.casefold():
            return Known(trait, Carries.TWO)
    for pair in catalogue.pairs:
        if text.casefold() == pair.look.casefold():
            return Known(catalogue.trait(pair.alleles[0]), Carries.BOTH, pair=pair)
    for pattern, carries in _PATTERNS:
        if match := re.fullmatch(pattern, text, re.IGNORECASE):
            trait = catalogue.trait(next(filter(None, _named(match))))
            return _checked(trait, carries, match, text)
    raise BadInput(f"{text!r} names no trait")


def _named(match: re.Match[str]) -> Iterator[str]:
    groups = match.groupdict()
    yield groups.get("name") or ""
    yield groups.get("name2") or ""


def _checked(trait: Trait, carries: Carries, match: re.Match[str], text: str) -> Known:
    shows = trait.shows is not Shows.RECESSIVE
    if carries is Carries.PART:
        share = _share(match["share"].replace(",", "."))
        if not 0 < share <= 1:
            raise BadInput(f"{text!r}: a share is more than 0 and at most 100 %")
        return Known(trait, carries, share) if share < 1 else Known(trait, Carries.HET)
    if carries is Carries.HET and shows:
        return Known(trait, Carries.VISUAL)
    if carries is Carries.TWO and not shows:
        return Known(trait, Carries.VISUAL)
    return Known(trait, carries)


def _share(percent: str) -> float:
    """What a percentage stands for; 66, 66.7 and 67 are two thirds."""
    share = float(percent) / 100
    return next((third for third in THIRDS if abs(third - share) < _NEAR), share)


def _check_once(found: tuple[Known, ...]) -> None:
    names = [k.trait.name for k in found]
    for name in names:
        if names.count(name) > 1:
            raise BadInput(f"{name} is named twice; say one thing of it")
