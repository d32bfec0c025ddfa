"""What is known of an animal's body: life stage, condition by eye, the mass it is to have."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.core.answers.parts import Fact
from warmside.core.asking.ask import Ask
from warmside.core.asking.own_values import CORE
from warmside.core.record.entities import Animal
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.core.values.units import Unit

STEPS = ("wasted", "thin", "good", "heavy", "obese")


def body_facts(ask: Ask, animal: Animal, on: date) -> Iterator[Fact]:
    """The life stage on a day with its reason, the last score, the target mass."""
    staged = ask.stage(animal.id, on)
    stage = staged.stage and staged.stage.value
    basis = staged.basis
    yield Fact("life_stage", "life stage", stage, basis=basis, missing="not known")
    scored = ask.book.latest("condition", on=on)["condition"].get(animal.id)
    if scored is not None:
        told = f"{scored.data['score']} of 5, {STEPS[scored.data['score'] - 1]}"
        basis = Basis(f"by eye on {scored.day}", events=(scored.id,))
        yield Fact("body_condition", "body condition", told, basis=basis)
    target = ask.value(CORE.name, "target_mass", About(animal.id))
    if target.value:
        yield Fact("target_mass", "target mass", target.value, Unit.MASS, target.basis)
