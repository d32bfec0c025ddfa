"""The UV index of four zones of exposure, against what was measured.

Ferguson et al. 2010, Zoo Biology 29:317-334, as quoted (secondary): the mean over the day and the
most that the animal may seek, by zone.
"""

from __future__ import annotations

from warmside.api import BadInput, Mark, Source

FERGUSON = Source(
    "Ferguson et al. 2010, Zoo Biology 29:317-334, as two later texts quote it", Mark.SECONDARY
)
MOST = {1: (0.6, 1.4), 2: (1.1, 3.0), 3: (2.9, 7.4), 4: (4.5, 9.5)}
"""The highest UV index at the basking place by zone, from and to."""


def basking_span(zones: tuple[float, float]) -> tuple[float, float]:
    """From which to which UV index the basking place of a species reaches; `zones` are its own."""
    first, last = (round(z) for z in zones)
    if first not in MOST or last not in MOST:
        raise BadInput(f"a UV zone is one of 1 to 4, not {zones[0]:g} to {zones[1]:g}")
    return MOST[first][0], MOST[last][1]


METER = 0.15
"""A meter is off by so much of its reading (common practice, no source)."""
LITTLE = 0.5
"""Less than this share of the least is far too little (an assumption)."""
NEEDS_ZONE = 3
"""From this zone on an animal basks in the sun for its vitamin D (our reading of the zones)."""


def judged(span: tuple[float, float], measured: float) -> str:
    """`above`, `within`, `below` or `far below` a span, the error of a meter left to it."""
    least, most = span
    if measured > most * (1 + METER):
        return "above"
    if measured < least * LITTLE:
        return "far below"
    return "below" if measured < least * (1 - METER) else "within"
