"""`warmside quarantine`: all its commands; each group of them is in a file of its own."""

from __future__ import annotations

import typer

from warmside.plugins.quarantine.command_course import edit, restart, start
from warmside.plugins.quarantine.command_figures import figures
from warmside.plugins.quarantine.command_laboratory import set_laboratory
from warmside.plugins.quarantine.command_odds import odds
from warmside.plugins.quarantine.command_protocol import list_protocols, protocol_app
from warmside.plugins.quarantine.command_release import release
from warmside.plugins.quarantine.command_risk import risk
from warmside.plugins.quarantine.command_show import show
from warmside.plugins.quarantine.command_tests import check, result, sample

app = typer.Typer(help="Quarantine: begin, follow, test, release.", no_args_is_help=True)

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
app.add_typer(protocol_app, name="protocol")
