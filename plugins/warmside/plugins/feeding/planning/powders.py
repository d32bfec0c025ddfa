"""The powder for the next meal of insects of one animal."""

from __future__ import annotations

from datetime import date

from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.prey.classes import Prey, known_prey
from warmside.plugins.feeding.prey.dusting import Dust, DustPlan, as_planned, dust_plan, powder_on

UVB_UNKNOWN = (
    "whether it has UVB light is not known, so vitamin D3 is planned as if it had; say so once: "
    "warmside plugin set feeding uvb yes --animal CODE (or no)"
)
NEEDS_UVB = "it is not kept without UVB light: provide it, and ask a vet about vitamin D3 meanwhile"


# What the powder goes on, where it is not insects.
NATURES = {"plant eater": ("plant",), "worm and fish eater": ("worm", "fish")}


def powders_of(subject: Subject) -> DustPlan | None:
    """How its insects or greens are dusted; None where nothing is known or needed."""
    return dust_plan(subject.species.latin, subject.family, subject.stage, subject.uvb)


def part_powders(subject: Subject) -> DustPlan | None:
    """The powders of the part of the diet in view; None for a part that gets none."""
    known, foods = powders_of(subject), subject.species.part.classes()
    return known if known and foods and is_dusted(foods[0], known) else None


def next_powder(subject: Subject, day: date) -> Dust | None:
    """The powder for a meal of insects on a day; None where none is due."""
    known = powders_of(subject)
    if known is None:
        return None
    meals = [(o.day, o.dust) for o in subject.offers if not o.refused and _is_dusted(o, known)]
    used = [(on, dust) for on, dust in meals if dust]
    if subject.dusted_as_planned:
        used = as_planned(known, meals)
    return powder_on(known, used, day, calcium=subject.situation.is_gravid)


def light_words(subject: Subject) -> tuple[str, ...]:
    """What is to be said of UVB light: that it is not known, or that it is needed."""
    known = powders_of(subject)
    if known is None:
        return ()
    if subject.uvb is None:
        return (UVB_UNKNOWN,)
    return (NEEDS_UVB,) if known.needs_uvb else ()


def is_dusted(prey: Prey, known: DustPlan) -> bool:
    """The food is one that a powder goes on: insects, or greens of who eats nothing else."""
    return prey.nature in NATURES.get(known.kind, ("insect",))


def _is_dusted(offer: Offer, known: DustPlan) -> bool:
    prey = known_prey(offer.prey)
    return prey is not None and is_dusted(prey, known)
