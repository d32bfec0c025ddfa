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


def check_declared(what: str, manifests: Mapping[str, Manifest]) -> None:
    """Raise LookupError unless core lists the quantity or a plugin at work declares it.

    A quantity of a plugin that is not at work has no answer, which is no error.
    """
    known = {*QUANTITIES, *(a.what for m in manifests.values() for a in m.answers)}
    owner, dot, _ = what.partition(".")
    if what not in known and (not dot or owner in manifests):
        raise LookupError(f"no plugin declares the quantity {what!r}{near_miss(what, known)}")


def width(given: Given) -> float:
    """How wide the answer is, in its own unit or in days."""
    if isinstance(given, Estimate):
        return given.high - given.low
    if isinstance(given, DayRange):
        return (given.latest - given.earliest).days
    values = [value for value, chance in given.chances if chance > 0]
    return max(values) - min(values)
