"""Doubts about weighings on record, by those on both sides of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import exp, log

from warmside.plugins.weight.course.series import Weighings, middle
from warmside.plugins.weight.slips.suspicion import Suspicion
from warmside.plugins.weight.slips.typing_errors import LOOK, PAIR_DAYS, far_from, pair_of, slip_of


def history_suspicions(those: Weighings, laid: Sequence[float] = ()) -> tuple[Suspicion, ...]:
    """Doubts about recorded weighings, oldest first; each names its events.

    Weighings before and after a clutch or litter are not compared with each other.
    """
    logs = list(map(log, those.masses_g))
    jumps = [k for k, (a, b) in enumerate(pairwise(logs)) if abs(b - a) >= LOOK]
    found = []
    for i in sorted({*jumps, *(k + 1 for k in jumps)}):
        around = neighbours(those, i, laid)
        if len(around) > 1:
            expected = exp(middle(logs[k] for k in around))
            gap = middle(abs(those.days[k] - those.days[i]) for k in around)
            slip = slip_of(those.masses_g[i], expected, gap, (those.events[i],))
            if slip:
                found.append(slip)
    slipped = {event for one in found for event in one.events}
    for i in jumps:
        gap = those.days[i + 1] - those.days[i]
        events = those.events[i : i + 2]
        if gap <= PAIR_DAYS and not slipped & set(events):
            pair = pair_of(those.masses_g[i], those.masses_g[i + 1], gap, events)
            found += [pair] if pair else []
    doubted = {e for one in found for e in one.events}
    return (*found, *_far_off(those, logs, jumps, doubted, laid))


def neighbours(those: Weighings, place: int, laid: Sequence[float] = ()) -> list[int]:
    """The two weighings on each side of one, but none beyond a clutch or litter."""
    near = [k for k in (place - 2, place - 1, place + 1, place + 2) if 0 <= k < len(those)]
    if not laid:
        return near
    day = those.days[place]
    spans = {k: sorted((those.days[k], day)) for k in near}
    return [k for k, (first, last) in spans.items() if not any(first <= d <= last for d in laid)]


def _far_off(
    those: Weighings,
    logs: Sequence[float],
    jumps: Sequence[int],
    doubted: set[int],
    laid: Sequence[float],
) -> Iterator[Suspicion]:
    """Weighings far from neighbours that agree; those in doubt already are no neighbours."""
    for i in sorted({*jumps, *(k + 1 for k in jumps)}):
        around = [k for k in neighbours(those, i, laid) if those.events[k] not in doubted]
        if len(around) > 1 and those.events[i] not in doubted:
            away = [those.days[k] - those.days[i] for k in around]
            gaps = middle(map(abs, away)), max(middle(away), 0.0)
            mass, events = those.masses_g[i], (those.events[i],)
            if far := far_from(mass, [logs[k] for k in around], gaps, events):
                yield far
