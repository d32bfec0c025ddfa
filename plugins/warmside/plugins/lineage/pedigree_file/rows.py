"""The rows of a pedigree file, and what an animal is on record."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from msgspec import Struct

from warmside.api import PartialDate

Problem = tuple[int, str]
"""A line of the file and what is wrong with it."""


class FileRow(Struct, frozen=True):
    """An animal as the file has it; an empty text is not said, None of a date not known.

    Ids that are on record stand as codes, others as they are typed.
    """

    line: int
    id: str
    dam: str = ""
    sire: str = ""
    sex: str = "unknown"
    hatched: PartialDate | None = None
    species: str = ""
    name: str = ""

    @property
    def parents(self) -> Mapping[str, str]:
        """The parents that are said, by their role."""
        both = {"dam": self.dam, "sire": self.sire}
        return {role: id for role, id in both.items() if id}


class Kept(Struct, frozen=True):
    """An animal on record; parents by code, all candidates of a role."""

    sex: str
    hatched: PartialDate | None
    species: str
    dam: tuple[str, ...] = ()
    sire: tuple[str, ...] = ()

    def candidates(self, role: str) -> tuple[str, ...]:
        """The codes of all that may be the dam or the sire."""
        return self.dam if role == "dam" else self.sire


class Fill(NamedTuple):
    """What the file says of an animal on record that is not known there; None is nothing."""

    code: str
    sex: str | None
    hatched: PartialDate | None


class Plan(Struct, frozen=True):
    """What becomes of each row: animals, facts and parents that are new; lines already on record.

    `links` are (child, role, parent), by code or id.
    """

    new: tuple[FileRow, ...] = ()
    fills: tuple[Fill, ...] = ()
    links: tuple[tuple[str, str, str], ...] = ()
    same: tuple[int, ...] = ()
    bad: tuple[Problem, ...] = ()
