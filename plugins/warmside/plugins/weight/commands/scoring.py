"""`warmside weight score`: a z score and centile without an animal or a collection."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, Unit, parse_quantity
from warmside.plugins.weight.commands.files import read_text
from warmside.plugins.weight.lms.lms import score
from warmside.plugins.weight.lms.reference_table import parse_reference


def score_(
    context: typer.Context,
    reference: Annotated[
        Path, typer.Option(help="CSV file: sex, age_days and l, m, s (m in g) or centiles.")
    ],
    age: Annotated[str, typer.Option(help="Age: 269d, 38w or 1y 2m.")],
    mass: Annotated[str, typer.Option(help="Mass: 412g, 6.3kg or 14.5oz.")],
    sex: Annotated[str, typer.Option(help="Sex: male, female or any.")] = "any",
    line: Annotated[str, typer.Option(help="Line, where the file has lines.")] = "",
) -> Answer:
    """The z score and centile of a mass at an age, against a reference file."""
    from warmside.plugins.weight.telling.weight import score_facts

    age_days = parse_quantity(age, Unit.AGE, what="age")
    mass_g = parse_quantity(mass, Unit.MASS, what="mass")
    table = parse_reference(read_text(reference))
    found = score(mass_g, table.curve(sex, line).at(age_days))
    return Answer(f"{mass} at {age} against {reference.name}", score_facts(found))
