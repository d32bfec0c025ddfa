"""What past intervals and a prior say about the next one: Student's t on the logarithm of days.

Log-normal intervals with a normal-inverse-gamma prior are conjugate: the next log interval is
Student's t (Gelman et al., Bayesian Data Analysis, section 3.3). Left without a prior, it is the
plain prediction exp(m ± t s √(1 + 1/n)) with n - 1 degrees of freedom.
"""

from __future__ import annotations

import functools
import math

from msgspec import Struct

from warmside.api import BadInput, Source, figures, sourced_rows

PACKAGE = "warmside.plugins.shed"


class Prior(Struct, frozen=True):
    """What is believed before any interval; the custom of the trade in a few numbers.

    `mean_log` is the log of the middle interval in days, `weight` what it is worth in intervals;
    `shape` and `rate` are of the inverse gamma of the variance.
    """

    life_stage: str
    mean_log: float
    weight: float
    shape: float
    rate: float
    source: Source


class Summary(Struct, frozen=True):
    """Log intervals in three numbers: how many, their mean, their squared distance from it."""

    count: float
    mean: float
    squares: float


LEAST_SCALE = 1e-6
"""Intervals that are equal, with no prior, leave no spread at all; a millionth is less than a
minute of a month."""


class Belief(Struct, frozen=True):
    """A normal-inverse-gamma belief about mean and variance of log intervals."""

    mean: float
    weight: float
    shape: float
    rate: float

    @property
    def variance(self) -> float:
        """The variance at the peak of the belief; with no prior the maximum likelihood one."""
        return self.rate / (self.shape + 0.5)

    def predictive(self) -> Predictive:
        """The distribution of the next log interval."""
        spread = self.rate * (self.weight + 1) / (self.shape * self.weight)
        return Predictive(self.mean, max(math.sqrt(spread), LEAST_SCALE), 2 * self.shape)


class Predictive(Struct, frozen=True):
    """The next interval: its log is Student's t with this location, scale and df."""

    location: float
    scale: float
    df: float

    def log_chance_longer(self, days: float) -> float:
        """The log of the chance that the interval is longer than so many days."""
        if days <= 0:
            return 0.0
        return figures.log_t_tail((math.log(days) - self.location) / self.scale, self.df)

    def days_exceeded_with(self, log_chance: float) -> float:
        """The days that the interval exceeds with that chance, given as its log."""
        return math.exp(self.location + self.scale * figures.log_t_quantile(log_chance, self.df))


def life_stages() -> tuple[str, ...]:
    """The life stages that have a prior."""
    rows = sourced_rows(PACKAGE, "priors")
    return tuple(r["life_stage"] for r in rows if not r.get("groups"))


@functools.cache
def prior_for(life_stage: str, group: str = "") -> Prior:
    """The prior of a life stage, of that group of species where one is shipped for it.

    Raises BadInput naming the stages there are.
    """
    rows = [r for r in sourced_rows(PACKAGE, "priors") if r["life_stage"] == life_stage]
    for row in sorted(rows, key=lambda r: not r.get("groups")):
        if group in row.get("groups", (group,)):
            middle = math.log(row["median_days"])
            numbers = middle, row["weight"], row["shape"], row["rate"]
            return Prior(life_stage, *numbers, row.source)
    raise BadInput(f"no life stage {life_stage!r}; it is one of: {', '.join(life_stages())}")


def before(prior: Prior | None) -> Belief:
    """The belief before any interval; without a prior all means and log variances are alike."""
    if prior is None:
        return Belief(0.0, 0.0, -0.5, 0.0)
    return Belief(prior.mean_log, prior.weight, prior.shape, prior.rate)


def updated(belief: Belief, seen: Summary) -> Belief:
    """The belief after the intervals of a summary (at least one, or a belief of some weight)."""
    weight = belief.weight + seen.count
    apart = seen.mean - belief.mean
    rate = belief.rate + (seen.squares + belief.weight * seen.count * apart**2 / weight) / 2
    mean = (belief.weight * belief.mean + seen.count * seen.mean) / weight
    return Belief(mean, weight, belief.shape + seen.count / 2, rate)
