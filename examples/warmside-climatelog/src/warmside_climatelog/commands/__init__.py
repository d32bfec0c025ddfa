"""`warmside climatelog`: sensors, the import of a logger's file, days."""

import typer

from warmside_climatelog.commands.importing import import_file
from warmside_climatelog.commands.looking import day, days, recent
from warmside_climatelog.commands.sensors import add, list_sensors, stop

app = typer.Typer(help="Temperature loggers.", no_args_is_help=True)
app.command()(add)
app.command("list")(list_sensors)
app.command()(stop)
app.command("import")(import_file)
app.command()(day)
app.command()(days)
app.command()(recent)
