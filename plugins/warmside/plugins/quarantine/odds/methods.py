"""Test methods and the range of sensitivities that studies print for them."""

from __future__ import annotations

import functools

from msgspec import Struct

from warmside.api import BadInput, Mark, Source, SourcedRow, near_miss, sourced_rows
from warmside.plugins.quarantine.odds.freedom import Evidence
from warmside.plugins.quarantine.odds.shares import check_range, share

PACKAGE = "warmside.plugins.quarantine"
BY_VET = "by a vet"


class Method(Struct, frozen=True):
    """One way of testing: which agent it looks for, and in what sample."""

    key: str
    agent: str
    sample: str
    title: str
    source: Source


class Performance(Struct, frozen=True):
    """How good a method is: the range of its sensitivity, its specificity, who says so.

    `specificity_assumed` where no study prints one and it is taken as 1.
    """

    sensitivity_low: float
    sensitivity_high: float
    specificity: float
    sources: tuple[Source, ...]
    specificity_assumed: bool = False

    def negatives(self, count: int) -> Evidence:
        """That many negative results of the method."""
        return Evidence(self.sensitivity_low, self.sensitivity_high, self.specificity, count)


def methods() -> tuple[Method, ...]:
    """Every method on file, in the order of the data."""
    return tuple(_methods().values())


def method(key: str) -> Method:
    """The method of that key; raises BadInput with a near miss."""
    found = _methods().get(key)
    if found is None:
        raise BadInput(
            f"no test method {key!r}{near_miss(key, _methods())}; known: {', '.join(_methods())}"
        )
    return found


def taken_by_vet(keys: tuple[str, ...]) -> bool:
    """Whether every one of these methods needs a sample that only a vet takes."""
    samples = [m.sample for m in methods() if m.key in keys]
    return bool(samples) and all(BY_VET in s for s in samples)


@functools.cache
def performance(key: str) -> Performance | None:
    """What the studies on file allow for a method; None where no sensitivity is published."""
    studies = [s for s in sourced_rows(PACKAGE, "tests", "study") if s["method"] == method(key).key]
    if not studies:
        return None
    ends = [_ends(s) for s in studies]
    printed = [s["specificity"] for s in studies if "specificity" in s]
    return Performance(
        min(low for low, _ in ends),
        max(high for _, high in ends),
        min(printed, default=1.0),
        tuple(s.source for s in studies),
        specificity_assumed=not printed,
    )


def laboratory(low: float, high: float, specificity: float = 1.0) -> Performance:
    """A laboratory's own figures, as the keeper typed them; raises BadInput for absurd ones."""
    check_range("sensitivity", low, high)
    share("specificity", specificity, zero=False)
    return Performance(
        low, high, specificity, (Source("figures of the laboratory", Mark.KEEPERS_OWN),)
    )


def _ends(study: SourcedRow) -> tuple[float, float]:
    point = study["sensitivity"]
    return min(point, study.get("low", point)), max(point, study.get("high", point))


@functools.cache
def _methods() -> dict[str, Method]:
    rows = sourced_rows(PACKAGE, "tests", "method")
    return {r["key"]: Method(r["key"], r["agent"], r["sample"], r["title"], r.source) for r in rows}
