"""Weighings in the history that fit another animal: two were mixed up at the scale.

All limits are common practice, no source, as in `typing_errors`. Suspicions only.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Collection, Mapping, Sequence
from math import exp, log

from warmside.plugins.weight.course.local_fit import fitted
from warmside.plugins.weight.course.series import MassWords, Weighings, middle
from warmside.plugins.weight.slips.in_history import neighbours
from warmside.plugins.weight.slips.suspicion import Suspect, Suspicion

_OFF = log(1.35)
_MATCH = log(1.07)
_NEAR_DAYS = 60.0


def swap_suspicions(
    those: Weighings,
    own: str,
    animals: Callable[[], Mapping[str, Weighings]],
    leave_out: Collection[int] = (),
    laid: Sequence[float] = (),
) -> tuple[Suspicion, ...]:
    """Doubts about weighings that stand alone among their neighbours and fit another animal.

    Weighings before and after one of the clutches or litters, `laid`, are no neighbours.
    `animals` gives all animals' weighings by code and is asked only where a weighing stands alone;
    `own` is this one's code, `leave_out` are events that are not to be doubted here.
    """
    logs = list(map(log, those.masses_g))
    found = []
    for i in range(1, len(logs)):
        event = those.events[i]
        if abs(logs[i] - logs[i - 1]) <= _OFF or event in leave_out:
            continue
        expected = _expected(those, logs, i, laid)
        if expected is None or abs(logs[i] - expected) <= _OFF:
            continue
        codes = _fitting(logs[i], those.days[i], own, animals())
        if codes:
            found.append(_told(event, those.masses_g[i], exp(expected), codes))
    return tuple(found)


def _expected(those: Weighings, logs: list[float], i: int, laid: Sequence[float]) -> float | None:
    """Log mass by the neighbours, where they agree with each other; None where they do not.

    The last weighing has none after it: it is held against its own growth.
    """
    near = neighbours(those, i, laid)
    if near and near[-1] < i:
        before = those[near[0] if laid else max(i - 8, 0) : i]
        return fitted(before).at(those.days[i] - before.days[-1])[0]
    around = [logs[k] for k in near]
    if len(around) < 2 or max(around) - min(around) > _OFF:
        return None
    return middle(around)


def _fitting(
    log_mass: float, day: float, own: str, animals: Mapping[str, Weighings]
) -> tuple[tuple[float, str], ...]:
    """How far off, and the code, of the animals whose weighings about that day were near."""
    found = []
    for code, those in animals.items():
        if code == own:
            continue
        place = bisect_left(those.days, day)
        around = those[max(place - 2, 0) : place + 2]
        near = [
            log(mass)
            for mass, when in zip(around.masses_g, around.days, strict=True)
            if 1
            <= abs(when - day)
            <= _NEAR_DAYS  # that day's own may be the other half of the swap
        ]
        if near and (off := abs(log_mass - middle(near))) <= _MATCH:
            found.append((off, code))
    return tuple(sorted(found)[:3])


def _told(
    event: int, mass_g: float, expected_g: float, near: tuple[tuple[float, str], ...]
) -> Suspicion:
    codes = tuple(code for _, code in near)
    words = (
        "{} is far from the {} of the weighings near it but near that of "
        f"{' or '.join(codes)}; check which animal was on the scale"
    )
    told = MassWords(words, (mass_g, expected_g))
    return Suspicion(Suspect.WRONG_ANIMAL, told, (event,), expected_g, codes)
