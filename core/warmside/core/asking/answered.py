"""Quantities that plugins answer each other."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from warmside.core.plugins.quantities import QUANTITIES
from warmside.core.values.about import Whom
from warmside.core.values.basis import Estimate
from warmside.core.values.estimates import DayRange, Distribution
from warmside.core.values.hints import near_miss

if TYPE_CHECKING:
    from collections.abc import Mapping

    from warmside.core.asking.ask import Ask
    from warmside.core.plugins.manifest import Manifest

Given = Estimate | DayRange | Distribution


@dataclass(frozen=True, slots=True)
class Answered:
    """An answer, with the plugin that gave it."""

    plugin: str
    given: Given

    @property
    def estimate(self) -> Estimate:
        """The answer as the number with a range that most quantities are; TypeError otherwise."""
        if not isinstance(self.given, Estimate):
            raise TypeError(f"{self.plugin} answered {type(self.given).__name__}, not an Estimate")
        return self.given


def answers_to(ask: Ask, what: str, about: Whom, on: date) -> list[Answered]:
    """What plugins answer to a quantity for a day, the narrowest first.

    Raises LookupError for a quantity that nobody has declared: a slip in the asker's code.
    """
    check_declared(what, ask.host.manifests)
    found = ask.host.collect(
        "warmside_answer",
        Estimate,
        DayRange,
        Distribution,
        book=ask.book,
        ask=ask,
        what=what,
        about=about,
        on=on,
    )
    answered = [Answered(plugin, given) for plugin, given in found]  # type: ignore[arg-type]
    return sorted(answered, key=lambda a: (width(a.given), a.plugin))


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
