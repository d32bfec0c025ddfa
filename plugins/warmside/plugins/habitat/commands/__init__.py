"""`warmside habitat`: air, walls and room, without a collection."""

from __future__ import annotations

import typer

from warmside.plugins.habitat.commands import air, size, wall

app = typer.Typer(help="Habitat: air, heat, light and room.", no_args_is_help=True)
app.command("air")(air.air)
app.command("wall")(wall.wall)
app.command("size")(size.size)
