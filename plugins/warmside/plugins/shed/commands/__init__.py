"""`warmside shed`: stages, forecasts, cycles, and why sheds go wrong."""

import typer

from warmside.plugins.shed.commands.ahead import forecast_
from warmside.plugins.shed.commands.causes import why
from warmside.plugins.shed.commands.showing import cycles, show

app = typer.Typer(help="Sheds: stage, forecast, cycles.", no_args_is_help=True)
app.command()(show)
app.command("forecast")(forecast_)
app.command()(cycles)
app.command()(why)
