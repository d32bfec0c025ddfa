"""The pace of growth before a weighing and since it; pure computation.

Fitted to log mass are two curves of Gompertz (1825) that meet at the weighing: y = a + s G(t), with
one slope s before and one since, G(t) = (1 - exp(-k t)) / k, t in days from it. Weighted least
squares; older weighings count less. A course that nobody disturbed keeps one slope.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, hypot, log, sqrt

from msgspec import Struct

from warmside.plugins.weight.course.local_fit import curved
from warmside.plugins.weight.course.noise import noise_of
from warmside.plugins.weight.course.series import Weighings

SLOWING = 0.003
"""Fall of the slope of growth a day (k) where the species is not known: about a corn snake's."""
GROWN = 3.0
"""At the age at which its kind is adult, growth is down to exp(-GROWN) of its first pace (our rule:
simulated corn snakes and leopard geckos)."""
BEFORE = 12
"""At most so many weighings make the pace before."""
_NEAR_DAYS = 45.0  # weights of those before fall to 1/e over so many days
_WANDER = 0.013  # standard deviation of true mass about its course, a part (simulated herds)
_STEEPEST = 0.02  # 2 % a day: slopes are drawn towards 0 as by one weighing of that slope
_WIDEST = 2.5  # a scatter beyond so many times the usual is a change of pace, not noise
_PACE = 0.2  # an animal's growth runs so much faster or slower for weeks (a part of the slope)


def slowing_of(adult_days: Sequence[float | None]) -> float:
    """How growth slows, by the ages at which its kind is adult: of the sexes that it may be."""
    known = [days for days in adult_days if days]
    return GROWN / (sum(known) / len(known)) if known else SLOWING


class Paces(Struct, frozen=True):
    """Growth in log mass from a weighing to the last: `expected` by the pace before, and `seen`.

    `before` and `since` are slopes a day at the weighing; the rest are variances of them.
    """

    before: float
    since: float
    days: float
    before_variance: float
    since_variance: float
    covariance: float

    @property
    def expected(self) -> float:
        """The gain by the pace before."""
        return self.before * self.days

    def short_of(self, share: float) -> float:
        """By how many standard deviations the pace since is slower than a share of that before."""
        variance = share**2 * (self.before_variance + (_PACE * self.before) ** 2)
        variance += self.since_variance - 2 * share * self.covariance
        variance += 2 * (0.75 * _WANDER / self.days) ** 2
        return (share * self.before - self.since) / sqrt(variance)


class _Side(Struct):
    """Weighted sums of the weighings on one side: of x, of its squares, and of x times y."""

    x: float = 0.0
    squares: float = 0.0
    y: float = 0.0

    @property
    def lean(self) -> float:
        """How much the slope falls where the level rises by 1."""
        return self.x / self.squares

    def slope(self, level: float) -> float:
        """The best slope from that level."""
        return (self.y - self.x * level) / self.squares


_Row = tuple[float, float, float]
"""Weight, place on the curve, and log mass against that of the weighing."""


def paces(those: Weighings, start: int, slowing: float = SLOWING) -> Paces:
    """The paces before and since the weighing at a position; one or more lie on either side."""
    rows = _rows(those, start, slowing)
    noise = hypot(noise_of(those), _WANDER)
    before, since = _sides(rows, (noise / _STEEPEST) ** 2)
    total = sum([w for w, _, _ in rows])
    known = total - before.x * before.lean - since.x * since.lean
    level = sum([w * y for w, _, y in rows]) - before.lean * before.y - since.lean * since.y
    one, two = before.slope(level / known), since.slope(level / known)
    squares = sum([w * (y - level / known - (one if x < 0 else two) * x) ** 2 for w, x, y in rows])
    scatter = min(max(squares / max(total - 3, 1.0), noise**2), (_WIDEST * noise) ** 2)
    return Paces(
        one,
        two,
        rows[-1][1],
        scatter * (1 / before.squares + before.lean**2 / known),
        scatter * (1 / since.squares + since.lean**2 / known),
        scatter * before.lean * since.lean / known,
    )


def _rows(those: Weighings, start: int, slowing: float) -> list[_Row]:
    part, day, mass = those[max(start - BEFORE, 0) :], those.days[start], those.masses_g[start]
    return [
        (exp(min(d - day, 0.0) / _NEAR_DAYS), curved(slowing, d - day), log(m / mass))
        for d, m in zip(part.days, part.masses_g, strict=True)
    ]


def _sides(rows: Sequence[_Row], drawn: float) -> tuple[_Side, _Side]:
    """The sums before and since; the slope before is drawn towards 0."""
    before, since = _Side(squares=drawn), _Side()
    for w, x, y in rows:
        side = before if x < 0 else since
        side.x += w * x
        side.squares += w * x * x
        side.y += w * x * y
    return before, since
