"""The options that tell of one thing of a set-up: said once, for adding it and for changing it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from inspect import Parameter, signature
from typing import Annotated, Any, get_type_hints

import typer

from warmside.api import Answer

THING = {
    "zone": "Zone in which it is.",
    "name": "What it is called; of a light, what it is.",
    "left": "From the left wall: 12cm.",
    "front": "From the front.",
    "bottom": "From the floor.",
    "width": "Its width.",
    "depth": "Its depth, from front to back.",
    "height": "Its height.",
    "why": "Why it is there.",
    "watts": "Watts of a heat source.",
    "guard": "Whether a guard is around a heat source: yes or no.",
    "thermostat": "Whether a thermostat controls it: yes or no.",
    "reach": "Whether the animal can reach it: yes or no.",
    "probe": "Where the thermostat's probe is.",
    "hours": "Hours a day of a light; 12 unless said.",
    "leave": "Whether the animal can leave the light: yes or no.",
    "uv_index": "UV index where it basks, if measured.",
    "since": "Since when the lamp is in use: 2026-03-01.",
    "wall": "Wall of a vent; of the box, what walls are of.",
    "area": "Open area of a vent: 60cm2.",
    "air": "A zone's target for the air: 30C-32C.",
    "humidity": "A zone's target for humidity: 50%-60%.",
}
"""Each option of a thing with its help; what a thing has no use for is refused."""
OF_BOX = {
    "wall_thickness": "How thick the walls are.",
    "air_changes": "Changes of air an hour: 0.5-2.",
    "light_sensitive": "Whether the animal bears light badly: yes or no.",
}
"""What is told of the box itself alone."""

Run = Callable[..., Answer]


def telling(options: Mapping[str, str]) -> Callable[[Run], Run]:
    """Give a command these options; those that were typed come as its `typed`, by their names."""

    def with_options(command: Run) -> Run:
        @wraps(command)
        def run(*positional: Any, **given: Any) -> Answer:
            told = {name: given.pop(name, None) for name in options}
            return command(
                *positional, **given, typed={k: v for k, v in told.items() if v is not None}
            )

        run.__signature__ = signature(command).replace(  # type: ignore[attr-defined]
            parameters=_parameters(command, options)
        )
        run.__annotations__ = {}
        return run

    return with_options


def _parameters(command: Run, options: Mapping[str, str]) -> list[Parameter]:
    """Those of the command, with the options in the place of `typed`."""
    hints = get_type_hints(command, include_extras=True)
    own = [
        p.replace(annotation=hints[p.name], kind=Parameter.KEYWORD_ONLY)
        for p in signature(command).parameters.values()
        if p.name != "typed"
    ]
    return own + [
        Parameter(
            name,
            Parameter.KEYWORD_ONLY,
            default=None,
            annotation=Annotated[str | None, typer.Option(help=help)],
        )
        for name, help in options.items()
    ]
