"""Where an animal's weight stands on a day: what its weighings and its reference say together."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from msgspec import Struct

from warmside.api import Estimate
from warmside.plugins.weight.course.body import Body, seen_beside
from warmside.plugins.weight.course.centile_checks import Channel, channel
from warmside.plugins.weight.course.judging import doubts_of, judged
from warmside.plugins.weight.course.limits import CUSTOM, Limits
from warmside.plugins.weight.course.series import END_OF_DAY, Weighings
from warmside.plugins.weight.course.sign import WeightSign
from warmside.plugins.weight.course.trend import expected_from_trend, reaches
from warmside.plugins.weight.course.weights import Weights
from warmside.plugins.weight.lms.held import Held
from warmside.plugins.weight.lms.lms import Score, score
from warmside.plugins.weight.slips.suspicion import Suspicion


class Standing(Struct, frozen=True):
    """An animal's weighings, its reference and the thresholds, as of a day.

    `others` gives the weighings of all animals by code, for doubts about mix-ups; `body` what the
    keeper saw and wants, asked only where there is a sign; `gone` whether it died or went for good,
    so that no mass is expected of it; `adults` what grown ones of its kind and sex usually weigh.
    """

    weights: Weights
    reference: Held | None
    limits: Limits
    on: date
    others: Callable[[], Mapping[str, Weighings]]
    body: Callable[[], Body] = Body
    gone: Callable[[], bool] = bool
    adults: Callable[[], Estimate | None] = lambda: None

    @property
    def last_day(self) -> date:
        """The day of the last weighing that can be rested upon."""
        return date.fromordinal(int(self.weights.sound.days[-1]))

    @property
    def signs(self) -> tuple[WeightSign, ...]:
        """The signs at the last weighing, against its reference if it has one."""
        curve = self.reference.curve if self.reference else None
        source = self.reference.source if self.reference else CUSTOM
        day = float(self.on.toordinal())
        found = judged(self.weights, curve, source, self.limits, day)
        if not found:
            return ()
        body, last_g = self.body().on(day), self.weights.course.weighings.masses_g[-1]
        seen = (seen_beside(sign, body, last_g, self.limits.display) for sign in found)
        return tuple(sign for sign in seen if sign is not None)

    @property
    def doubts(self) -> tuple[Suspicion, ...]:
        """Weighings that look mistyped or like another animal's."""
        return doubts_of(self.weights, self.others)

    @property
    def score(self) -> Score | None:
        """The last weighing against the reference; None where that does not reach."""
        weights, those = self.weights, self.weights.course.weighings
        if self.reference is None or weights.hatched is None:
            return None
        age = those.days[-1] - weights.hatched
        if not self.reference.curve.covers(age):
            return None
        return score(those.masses_g[-1], self.reference.curve.at(age))

    @property
    def channel(self) -> Channel | None:
        """The animal's usual place in the reference."""
        if self.reference is None or self.weights.hatched is None:
            return None
        those = self.weights.course.weighings
        return channel(those, self.weights.hatched, self.reference.curve)

    def expected(self, days_ahead: int = 0) -> Estimate | None:
        """The mass so many days on, by the last weighings less their meals."""
        return expected_on(self.weights, self.on.toordinal() + days_ahead)

    @property
    def expected_within_reach(self) -> Estimate | None:
        """The mass where weighings reach as far as that day; doubtful ones do not count.

        Further on nothing is said, so that who asks may reckon with growth.
        """
        near = reaches(self.weights.course.weighings, self.on.toordinal() + END_OF_DAY)
        return self.expected() if near else None


def expected_on(weights: Weights, day: int) -> Estimate | None:
    """The mass at the end of a day by the last weighings; None with no weighing."""
    course = weights.course
    return expected_from_trend(course.weighings, day + END_OF_DAY, course.laid, weights.fit)
