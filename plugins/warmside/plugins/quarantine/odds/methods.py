"""Test methods and the range of sensitivities that studies print for them."""

from __future__ import annotations

import functools

from msgspec import Struct

from warmside.api import BadInput, Mark, Source, SourcedRow, near_miss, sourced_rows
from warmside.plugins.quarantine.odds.freedom import Evidence
from warmside.plugins.quarantine.odds.shares import check_range, share

PACKAGE = "warmside.plugins.quarantine"
BY_VET = "by a vet"
SNAKES = ("python", "boa", "colubrid", "viper", "elapid")


class Method(Struct, frozen=True):
    """One way of testing: which agent it looks for, in what sample, and in which animals.

    `of` is snakes or reptiles: elsewhere it was not studied, and has no figure.
    """

    key: str
    agent: str
    of: str
    sample: str
    title: str
    source: Source

    @property
    def looks_for(self) -> str:
        """The agent as it is called: `C. serpentis`."""
        return self.agent.replace("cryptosporidium-", "C. ")

    def applies_to(self, group: str) -> bool:
        """Whether it was studied in animals like those of a group of species."""
        return self.of != "snakes" or group in SNAKES


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


def agents_of(test_methods: tuple[str, ...], method_key: str) -> set[str]:
    """What a sample was tested for: by its method, or by any method of its test."""
    keys = (method_key,) if method_key in _methods() else test_methods
    return {m.agent for m in methods() if m.key in keys}


def taken_by_vet(keys: tuple[str, ...]) -> bool:
    """Whether every one of these methods needs a sample that only a vet takes."""
    samples = [m.sample for m in methods() if m.key in keys]
    return bool(samples) and all(BY_VET in s for s in samples)


@functools.cache
def performance(key: str) -> Performance | None:
    """What the studies on file allow for a method; None where no sensitivity is published."""
    studies = [s for s in sourced_rows(PACKAGE, "tests", "study") if s["method"] == method(key).key]
    ends = [found for s in studies if (found := _ends(s)) is not None]
    if not ends:
        return None
    printed = [s["specificity"] for s in studies if "specificity" in s]
    return Performance(
        min(low for low, _ in ends),
        max(high for _, high in ends),
        min(printed, default=1.0),
        tuple(Source(f"{s['animals']} ({s.source.text})", s.source.mark) for s in studies),
        specificity_assumed=not printed,
    )


def laboratory(low: float, high: float, specificity: float = 1.0) -> Performance:
    """A laboratory's own figures, as the keeper typed them; raises BadInput for absurd ones."""
    check_range("sensitivity", low, high)
    share("specificity", specificity, zero=False)
    return Performance(
        low, high, specificity, (Source("figures of the laboratory", Mark.KEEPERS_OWN),)
    )


def _ends(study: SourcedRow) -> tuple[float, float] | None:
    """The lowest and highest sensitivity that a study allows, never 1; None where it cannot say.

    Where all of so many infected were found, the upper end is the sensitivity with which that
    happens half the time; with a 1 a single negative would be a proof.
    """
    point = study["sensitivity"]
    low, high = min(point, study.get("low", point)), max(point, study.get("high", point))
    if high < 1:
        return low, high
    if "infected" not in study:
        return None
    return low, 0.5 ** (1 / study["infected"])


@functools.cache
def _methods() -> dict[str, Method]:
    rows = sourced_rows(PACKAGE, "tests", "method")
    return {r["key"]: _method(r) for r in rows}


def _method(row: SourcedRow) -> Method:
    return Method(row["key"], row["agent"], row["of"], row["sample"], row["title"], row.source)
