"""`warmside habitat`: air, walls and room without a collection, loggers and zones within one."""

from __future__ import annotations

import typer

from warmside.plugins.habitat.commands import (
    air,
    light,
    loggers,
    reading_out,
    size,
    wall,
    water,
    zones,
)

app = typer.Typer(help="Habitat: air, heat, light and room.", no_args_is_help=True)
app.command("air")(air.air)
app.command("water")(water.water)
app.command("wall")(wall.wall)
app.command("size")(size.size)
app.command("light")(light.light)
app.command("logger")(loggers.add)
app.command("loggers")(loggers.list_loggers)
app.command("stop")(loggers.stop)
app.command("read")(reading_out.read)
app.command("zones")(zones.zones)
app.command("day")(zones.day)
