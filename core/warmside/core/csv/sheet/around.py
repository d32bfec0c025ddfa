"""What is known beside a sheet: kinds, animals and places by name, the collection's own units."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date

from msgspec import Struct

from warmside.core.csv.sheet.usual_words import folded
from warmside.core.kinds.fields import FieldSpec
from warmside.core.kinds.known import Kinds
from warmside.core.values.errors import UnknownWord
from warmside.core.values.units import Unit


class Around(Struct, frozen=True):
    """What is known beside the sheet: kinds, animals and places by name, today, its file's name.

    `unit` gives the collection's own unit of a kind of quantity, `dates` the order of day and month
    in which its keeper types; both are proposed. `unknown` gives the words, of those in a field,
    of which no plugin knows the meaning.
    """

    kinds: Kinds
    animals: Mapping[str, str]
    today: date
    name: str
    unit: Callable[[Unit], str]
    places: frozenset[str] = frozenset()
    dates: str = ""
    unknown: Callable[[Mapping[str, Mapping[str, int]]], Sequence[UnknownWord]] = lambda words: ()

    def animal(self, word: str) -> bool:
        """Whether a word is the code or name of an animal."""
        return folded(word) in self.animals


def spec_of(field: str, kinds: Kinds) -> FieldSpec | None:
    """The field of a name such as `fed.outcome`; None where no kind has it."""
    kind, _, key = field.rpartition(".")
    found = [s for s in kinds[kind].fields if s.key == key] if kind in kinds else []
    return found[0] if found else None
