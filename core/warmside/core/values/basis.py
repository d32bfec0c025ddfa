"""Where a number comes from: its rule, its source, how sure, and the records it rests on."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from warmside.core.values.units import Unit


class Mark(StrEnum):
    """How far a figure can be trusted, the surest first; `secondary` was read only as quoted."""

    PUBLISHED = "published"
    SECONDARY = "secondary"
    COMMON_PRACTICE = "common practice, no source"
    FROM_MEMORY = "from memory"
    KEEPERS_OWN = "keeper's own"
    INVENTED = "invented example"


class Source(Struct, frozen=True):
    """A publication, a custom of the trade or the keeper, with its mark."""

    text: str
    mark: Mark


OWN_RECORDS = Source("the collection's own records", Mark.KEEPERS_OWN)
"""The source of what was computed from what the keeper recorded."""


class Basis(Struct, frozen=True):
    """The rule by which a number was reached, its source, and the ids of the events used."""

    rule: str
    source: Source = OWN_RECORDS
    events: tuple[int, ...] = ()


class Estimate(Struct, frozen=True):
    """A number with its range; `value` is None where only the range is known."""

    value: float | None
    low: float
    high: float
    unit: Unit
    basis: Basis
