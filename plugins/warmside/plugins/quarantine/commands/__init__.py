"""`warmside quarantine`: all its commands; each group of them is in a file of its own."""

from __future__ import annotations

import typer

from warmside.plugins.quarantine.commands.course import edit, restart, start
from warmside.plugins.quarantine.commands.figures import figures
from warmside.plugins.quarantine.commands.laboratory import set_laboratory
from warmside.plugins.quarantine.commands.odds import odds
from warmside.plugins.quarantine.commands.protocol_changes import (
    add_protocols,
    drop_protocol,
    edit_protocol,
)
from warmside.plugins.quarantine.commands.protocols import list_protocols, show_protocol
from warmside.plugins.quarantine.commands.release import release
from warmside.plugins.quarantine.commands.risk import risk
from warmside.plugins.quarantine.commands.samples import check, result, sample
from warmside.plugins.quarantine.commands.show import show

app = typer.Typer(help="Quarantine: begin, follow, test, release.", no_args_is_help=True)
protocol_app = typer.Typer(help="Show, edit, add or drop a protocol.", no_args_is_help=True)

app.command("show")(show)
app.command("start")(start)
app.command("sample")(sample)
app.command("result")(result)
app.command("check")(check)
app.command("restart")(restart)
app.command("edit")(edit)
app.command("release")(release)
app.command("odds")(odds)
app.command("risk")(risk)
app.command("figures")(figures)
app.command("laboratory")(set_laboratory)
app.command("protocols")(list_protocols)
protocol_app.command("show")(show_protocol)
protocol_app.command("edit")(edit_protocol)
protocol_app.command("add")(add_protocols)
protocol_app.command("drop")(drop_protocol)
app.add_typer(protocol_app, name="protocol")
