"""`warmside habitat wall`: how much heat a wall lets through."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Basis, Fact, Mark, Source, Unit, counted, csv_files
from warmside.plugins.habitat.heat.walls import FILM, Layer, u_value

ISO = Source("ISO 6946:2017, layers in series, as quoted", Mark.SECONDARY)
COLUMNS = ("thickness_mm", "conductivity_w_per_mk")


def wall(
    context: typer.Context,
    layers: Annotated[
        Path, typer.Option(help="CSV with the columns thickness_mm, conductivity_w_per_mk.")
    ],
    inside_film: Annotated[float, typer.Option(help="Film of air inside, in m2K/W.")] = FILM[
        "side"
    ],
    outside_film: Annotated[float, typer.Option(help="Film of air outside.")] = FILM["side"],
) -> Answer:
    """Heat through a wall for each m2 and degree; both faces are in a room unless you say so."""
    found = read_layers(layers)
    value = u_value(found, inside_film, outside_film)
    many = counted(len(found), "layer", "layers in series")
    rule = f"{many}, films {inside_film:g} and {outside_film:g} m2K/W"
    fact = Fact("u_value", "heat let through", value, Unit.HEAT_TRANSFER, Basis(rule, ISO))
    return Answer(f"Wall in {layers.name}", (fact,))


def read_layers(file: Path) -> list[Layer]:
    """The layers of a file; BadInput names the line that is wrong."""
    found = [
        Layer(*(_number(file, row.line, name, row.cells[name]) for name in COLUMNS))
        for row in csv_files.rows_with(file, COLUMNS)
    ]
    if not found:
        raise BadInput(f"{file} has no layer; add a line for each")
    return found


def _number(file: Path, line: int, name: str, text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = 0.0
    if not 0 < value < 1e6:
        raise BadInput(f"{file}, line {line}: {name} is a number above 0, not {text.strip()!r}")
    return value
