"""How long an insect may be: no longer than the space between the animal's eyes."""

from __future__ import annotations

from warmside.api import Mark, Source
from warmside.plugins.feeding.prey.classes import Prey

# The width of a head over the eyes in mm by the cube root of the mass in g: a leopard gecko of 60 g
# measures some 20 mm. One shape is taken for all that eat insects.
EYES_MM = 5.1
HEAD = Source(
    "no longer than the space between the eyes: usual among keepers; the space worked out from the "
    "mass by a leopard gecko of 60 g with 20 mm, from memory",
    Mark.FROM_MEMORY,
)
# Larvae are narrow and soft, so they may be longer; common practice, no source.
LARVAE = frozenset(
    ("mealworm", "zophobas", "waxworm", "silkworm", "hornworm", "soldier-fly", "butterworm")
)
LARVA = 1.5


def eyes_mm(mass_g: float) -> float:
    """The space between the outer edges of the eyes in mm, from the mass in g."""
    return EYES_MM * float(mass_g ** (1.0 / 3.0))


def is_short_enough(prey: Prey, gap_mm: float) -> bool:
    """An item of the middle of the class is no longer than the space between the eyes."""
    if prey.length_mm is None:
        return True
    most = gap_mm * (LARVA if prey.kind in LARVAE else 1.0)
    return sum(prey.length_mm) / 2 <= most
