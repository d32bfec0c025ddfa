"""`warmside feeding energy`: what an animal of a mass burns at a temperature."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, Column, Fact, Table, Unit, Words, parse_quantity
from warmside.plugins.feeding.care.cautions import VET
from warmside.plugins.feeding.energy.clinical import FORMS
from warmside.plugins.feeding.energy.rates import check_mass, check_temperature, what_if
from warmside.plugins.feeding.telling.plan import cautioned

CLINICAL_COLUMNS = (
    Column("form", "form, kcal a day"),
    Column("energy", "energy", Unit.ENERGY_RATE),
    Column("times_standard", "times standard", Unit.RATIO),
    Column("source", "source"),
    Column("mark", "mark"),
)
CLINICAL_NOTE = (
    "these forms lie up to a factor of three apart and far above the standard rate; one of them "
    "may carry a slip of units, so none is a ration"
)


def energy(
    mass: Annotated[str, typer.Option(help="Body mass: 500g, 1.2kg.")],
    temperature: Annotated[str, typer.Option(help="Body temperature: 30C, 86F.")],
) -> Answer:
    """What an animal burns by mass and temperature, without any record."""
    grams = check_mass(parse_quantity(mass, Unit.MASS, what="mass"))
    degrees = check_temperature(parse_quantity(temperature, Unit.TEMPERATURE, what="temperature"))
    need = what_if(grams, degrees)
    forms = tuple(
        (
            f.name,
            f.kj_per_day(grams),
            f.times_standard(grams, degrees),
            f.source.text,
            f.source.mark.value,
        )
        for f in FORMS
    )
    title = "Forms that clinics use for support feeding; to talk about with a vet"
    return Answer(
        "Energy that an animal burns",
        (
            Fact("mass", "mass", grams, Unit.MASS),
            Fact("temperature", "temperature", degrees, Unit.TEMPERATURE),
            Fact("standard", "standard rate", need.standard, Unit.ENERGY_RATE),
            Fact("resting", "resting rate", need.resting, Unit.ENERGY_RATE),
            Fact("field", "field rate", need.field, Unit.ENERGY_RATE),
            Table("clinical", CLINICAL_COLUMNS, forms, title),
            Words(CLINICAL_NOTE),
            *cautioned((VET,)),
        ),
    )
