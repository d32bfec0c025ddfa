"""A reference by its name in the collection, and the curve of it that an animal is held to."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from msgspec import Struct

from warmside.api import BadInput, Source
from warmside.plugins.weight.lms.lms import LmsCurve

if TYPE_CHECKING:
    from warmside.plugins.weight.lms.reference_table import Reference

Ranges = Mapping[float, tuple[tuple[float, float], ...]]
Key = tuple[str, str]  # sex and line
Assigned = Mapping[int, tuple[int | None, str]]


class Stored(Struct, frozen=True):
    """A reference with its name; `ranges` are those of fitted centiles, by sex and line.

    They give for a centile the lowest and highest mass in g at each age of the curve.
    """

    id: int
    name: str
    reference: Reference
    made_from: str
    ranges: Mapping[Key, Ranges]


class Held(Struct, frozen=True):
    """The reference that an animal is held to, and its curve."""

    stored: Stored
    curve: LmsCurve

    @property
    def source(self) -> Source:
        """The reference's name before what it says of its source."""
        source = self.stored.reference.source
        return Source(f"{self.stored.name}, {source.text}", source.mark)


def held_to(stored: Stored | None, line: str, sex: str, species: str) -> Held | None:
    """The curve for a sex and line; None without a reference, or where it has no such curve."""
    if stored is None:
        return None
    try:
        return Held(stored, stored.reference.curve(sex, line, species))
    except BadInput:
        return None
