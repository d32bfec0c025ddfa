"""What digesting a meal costs."""

from __future__ import annotations

from msgspec import Struct

from warmside.api import Mark, Source
from warmside.plugins.feeding.care.species import Species


class Digestion(Struct, frozen=True):
    """Share of the meal's energy that digesting it costs: usual, least and most."""

    usual: float
    least: float
    most: float
    source: Source


SNAKE_DIGESTION = Digestion(
    0.25,
    0.23,
    0.37,
    Source(
        "23 to 27 % in five pythons (Ott & Secor 2007, J Exp Biol 210:340-356), "
        "up to 37 % (Secor 2008, J Exp Biol 211:3767)",
        Mark.PUBLISHED,
    ),
)
LIZARD_DIGESTION = Digestion(
    0.20, 0.10, 0.30, Source("small frequent meals cost less than a snake's", Mark.FROM_MEMORY)
)


def digestion_of(species: Species) -> Digestion:
    """The cost of digestion to reckon with."""
    return SNAKE_DIGESTION if species.group == "snake" else LIZARD_DIGESTION
