"""`warmside habitat`: air, walls and room alone; set-up, loggers and zones of a collection."""

from __future__ import annotations

import typer

from warmside.plugins.habitat.commands import (
    air,
    description,
    heat,
    light,
    loggers,
    reading_out,
    size,
    space,
    sweat,
    things,
    uv,
    wall,
    water,
    zones,
)

app = typer.Typer(help="Habitat: air, heat, light and room.", no_args_is_help=True)
app.command("air")(air.air)
app.command("water")(water.water)
app.command("wall")(wall.wall)
app.command("sweat")(sweat.sweat)
app.command("size")(size.size)
app.command("space")(space.space)
app.command("light")(light.light)
app.command("uv")(uv.uv)
app.command("logger")(loggers.add)
app.command("loggers")(loggers.list_loggers)
app.command("stop")(loggers.stop)
app.command("read")(reading_out.read)
app.command("zones")(zones.zones)
app.command("day")(zones.day)
app.command("describe")(description.describe)
app.command("add")(things.add)
app.command("change")(things.change)
app.command("remove")(things.remove)
app.command("preset")(description.preset)
app.command("export")(description.export)
app.command("show")(description.show)
app.command("heat")(heat.heat)
