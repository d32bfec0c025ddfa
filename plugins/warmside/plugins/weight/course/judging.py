"""All that is to be said of an animal's weighings: signs of the checks, and doubts."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from warmside.api import Source
from warmside.plugins.weight.course.centile_checks import centile_sign
from warmside.plugins.weight.course.checks import signs
from warmside.plugins.weight.course.limits import CLUTCH_DROP, DEFAULTS, Limits
from warmside.plugins.weight.course.series import Weighings
from warmside.plugins.weight.course.sign import Sign, WeightSign
from warmside.plugins.weight.course.weights import Weights
from warmside.plugins.weight.lms.lms import LmsCurve
from warmside.plugins.weight.slips.suspicion import Suspect, Suspicion
from warmside.plugins.weight.slips.swapped import swap_suspicions

_RULES: Mapping[Sign, Callable[[Limits], str]] = {
    Sign.LOSS: lambda x: (
        f"{100 * x.vet_loss:.0f} % below its height of {x.vet_days:.0f} days without a known "
        f"reason, {100 * x.acute_loss:.0f} or {100 * x.chronic_loss:.0f} % with one, or more than "
        "that reason costs"
    ),
    Sign.WASTING: lambda x: (
        f"two weighings running together {100 * x.low_loss:.0f} % below its level of the year, one "
        "by the noise of a weighing more, or so far after three falls running, without a known "
        "reason or beyond what a fast that is over can have cost"
    ),
    Sign.CENTILE_LINES: lambda x: "two or more major centile lines away from its own channel",
    Sign.OFF_CHANNEL: lambda x: (
        f"{x.channel_shift:g} standard deviations away from its own channel"
    ),
    Sign.STALLED: lambda x: (
        "growth at less than half of its own pace before (a third for a subadult), beyond what "
        f"chance explains; or less than {100 * x.stall_gain:.0f} % in "
        f"{x.stall_days:.0f} days ({x.hatchling_stall_days:.0f} as a hatchling)"
    ),
    Sign.FAST_GAIN: lambda x: (
        f"an adult that gained {100 * x.fast_gain:.0f} % in {x.fast_days:.0f} days and weighs more "
        "than the year before"
    ),
    Sign.YEARS_GAIN: lambda x: f"an adult that gained {100 * x.years_gain:.0f} % in a year",
    Sign.AFTER_LAYING: lambda x: (
        f"15 % or more, up to {100 * CLUTCH_DROP:.0f} % after a clutch or litter"
    ),
    Sign.COOLING: lambda x: f"less than {100 * x.acute_loss:.0f} % in winter cooling",
}


def judged(
    weights: Weights,
    curve: LmsCurve | None,
    source: Source,
    limits: Limits = DEFAULTS,
    day: float | None = None,
) -> tuple[WeightSign, ...]:
    """The signs at the last weighing that can be rested upon, centiles where there is a curve.

    `day` is the day that it is, for what is said once.
    """
    found = signs(weights.course, limits, day)
    if curve is None or weights.hatched is None:
        return found
    centiles = centile_sign(weights.course.weighings, weights.hatched, curve, source, limits)
    return (*found, centiles) if centiles else found


def rule_words(sign: Sign, limits: Limits = DEFAULTS) -> str:
    """The rule by which a sign is given, with its thresholds."""
    return _RULES[sign](limits)


def doubts_of(
    weights: Weights, animals: Callable[[], Mapping[str, Weighings]]
) -> tuple[Suspicion, ...]:
    """All open doubts, also of weighings that fit another of the animals, by code.

    Where a weighing that is only far off fits another animal, that is said instead.
    """
    surer = {e for d in weights.doubts if d.kind is not Suspect.FAR for e in d.events}
    leave = surer | weights.checked
    swaps = swap_suspicions(weights.all, weights.animal.code, animals, leave, weights.course.laid)
    swapped = {event for doubt in swaps for event in doubt.events}
    kept = (d for d in weights.doubts if not (d.kind is Suspect.FAR and swapped & set(d.events)))
    return (*kept, *swaps)
