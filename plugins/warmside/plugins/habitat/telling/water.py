"""Water for the air of an enclosure, in facts with their basis."""

from __future__ import annotations

from warmside.api import Basis, Fact, Mark, Part, Source, Tone, Unit, counted, paragraphs
from warmside.plugins.habitat.air.watered import Watered

BALANCE = Source("mass balance of well mixed air", Mark.COMMON_PRACTICE)
POOL = Source("ASHRAE HVAC Applications, natatoriums, SI form", Mark.FROM_MEMORY)
CAUTION = (
    "An upper estimate: still air takes up less than the pool halls that the formula is from, and "
    "walls and substrate take up water too. A hygrometer decides."
)


def water_parts(found: Watered, to: str, changes: float) -> tuple[Part, ...]:
    """Grams, hours and what a bowl gives, and what they leave out."""
    aired = Basis(f"{counted(changes, 'change')} of air an hour", BALANCE)
    bowl = found.bowl_g_per_h
    given = Basis("open water, at most", POOL)
    facts = (
        Fact(
            "water",
            f"water to reach {to}",
            found.grams,
            Unit.MASS,
            Basis("of the air alone", BALANCE),
        ),
        Fact("half_lost", "half of that is lost after", found.half_lost_h, Unit.HOURS, aired),
        Fact("kept_up", "to keep it up, an hour", found.kept_up_g_per_h, Unit.MASS, aired),
    )
    kept = Basis(f"against {counted(changes, 'change')} of air an hour", BALANCE)
    open_water = (
        Fact("bowl", "the bowl gives an hour, at most", bowl, Unit.MASS, given),
        Fact("bowl_keeps", "which keeps up, at most", found.bowl_keeps_percent, Unit.PERCENT, kept),
    )
    told = facts if bowl is None else (*facts, *open_water)
    return (*told, *paragraphs(CAUTION, tone=Tone.CAUTION))
