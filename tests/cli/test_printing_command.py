"""A plugin's own command that prints: stdout is the answer's alone."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import typer

from warmside.api import Answer, Command, said
from warmside.testing import new_keeper, throw_away_plugin

app = typer.Typer(no_args_is_help=True)


@app.command()
def count(context: typer.Context) -> Answer:
    """Count, and chat about it."""
    print("counting loudly")
    return said("three lamps")


def _nothing(ask: Any, on: Any) -> tuple[()]:
    return ()


def test_what_a_plugins_command_prints_does_not_break_json(tmp_path: Path) -> None:
    commands = (Command("lamps", "Lamps.", f"{__name__}:app"),)
    keeper = new_keeper(tmp_path)
    keeper.run("enclosure", "add", "Shelf")
    with throw_away_plugin("lamps", manifest={"commands": commands}, warmside_tasks=_nothing):
        keeper.run("plugin", "enable", "lamps")
        told = keeper.run("lamps", "count", "--json")
    assert "three lamps" in json.dumps(json.loads(told.stdout))
    assert "counting loudly" in told.stderr
