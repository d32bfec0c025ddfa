"""Quantities that plugins answer each other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec import Struct

from warmside.core.plugins.manifest import Manifest
from warmside.core.plugins.quantities import QUANTITIES
from warmside.core.values.basis import Estimate
from warmside.core.values.estimates import DayRange, Distribution
from warmside.core.values.hints import near_miss

Given = Estimate | DayRange | Distribution


class Answered(Struct, frozen=True):
    """An answer, with the plugin that gave it."""

    plugin: str
    given: Given

    @property
    def estimate(self) -> Estimate:
        """The answer as the number with a range that most quantities are; TypeError otherwise."""
        if not isinstance(self.given, Estimate):
            raise TypeError(f"{self.plugin} answered {type(self.given).__name__}, not an Estimate")
        return self.given


def narrowest_first(answers: Iterable[Answered]) -> list[Answered]:
    """The answers in the order in which they help."""
    return sorted(answers, key=lambda a: (width(a.given), a.plugin))


def declaring(what: str, manifests: Mapping[str, Manifest]) -> frozenset[str]:
    """The plugins at work that declare a quantity.

    LookupError where neither core lists it nor one of them declares it; a quantity of a plugin
    that is not at work has no answer, which is no error.
    """
    declared = {name: {a.what for a in m.answers} for name, m in manifests.items()}
    known = set(QUANTITIES).union(*declared.values())
    owner, dot, _ = what.partition(".")
    if what not in known and (not dot or owner in manifests):
        raise LookupError(f"no plugin declares the quantity {what!r}{near_miss(what, known)}")
    return frozenset(name for name, mine in declared.items() if what in mine)


def width(given: Given) -> float:
    """How wide the answer is, in its own unit or in days."""
    if isinstance(given, Estimate):
        return given.high - given.low
    if isinstance(given, DayRange):
        return (given.latest - given.earliest).days
    values = [value for value, chance in given.chances if chance > 0]
    return max(values) - min(values)
