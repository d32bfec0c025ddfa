"""`warmside plugin`: what is installed, what this collection uses, and its settings."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.cli.asking_back import with_questions
from warmside.cli.plugin_switching import (
    disable_plugin,
    enable_plugin,
)
from warmside.core.answers.parts import (
    Answer,
    Cell,
    Column,
    Fact,
    Kind,
    Table,
    Tone,
    paragraphs,
    said,
)
from warmside.core.doing.forgetting import Forgetting, forget_plugin
from warmside.core.doing.scaffolding import Scaffolding
from warmside.core.doing.scaffolding import scaffold as scaffolded
from warmside.core.doing.setting import NewValue, shown_value
from warmside.core.doing.setting import set_value as setting_changed
from warmside.core.file.state import FileState, read_state
from warmside.core.plugins.discovery import installed, manifest_of
from warmside.core.plugins.manifest import BadPlugin, Setting
from warmside.core.session.session import Session, session_of
from warmside.core.values.errors import NotFound
from warmside.core.values.hints import near_miss
from warmside.core.values.quantities import Display

app = typer.Typer(help="Plugins of this collection.", no_args_is_help=True)

Name = Annotated[
    str,
    typer.Argument(
        help="Name of the plugin.", autocompletion=lambda incomplete: sorted(installed())
    ),
]


@app.command("list")
def list_plugins(context: typer.Context) -> Answer:
    """List installed plugins and those that this collection uses or once used."""
    session = session_of(context)
    state = read_state(session.path) if session.path.exists() else FileState({}, (), ())
    names = sorted({*installed(), *state.known})
    problems = _problems(session, state)
    rows = tuple(_row(n, state, problems) for n in names)
    columns = (
        Column("name", "plugin", Kind.CODE),
        Column("state", "state"),
        Column("summary", "what it does"),
        Column("distribution", "from", text=False),
        Column("problem", "problem", text=any(r[-1] for r in rows)),
    )
    make = paragraphs("warmside new (make a collection)", tone=Tone.HINT)
    hints = () if session.path.exists() else make
    return Answer("Plugins", (Table("plugins", columns, rows), *hints))


def _problems(session: Session, state: FileState) -> dict[str, str]:
    if not state.enabled:
        return {}
    return {f.plugin: f"{f.where}: {f.error}" for f in session.open().host.failures}


def _row(name: str, state: FileState, problems: dict[str, str]) -> tuple[str, ...]:
    offers = installed().get(name, [])
    source = ", ".join(f"{o.distribution} {o.version}".strip() for o in offers)
    try:
        summary, problem = manifest_of(name).summary, problems.get(name, "")
    except BadPlugin as bad:
        summary, problem = "", bad.text
    if name in state.enabled:
        word = "enabled"
    else:
        word = "disabled, data kept" if name in state.known else "off"
    return (name, word, summary, source or "not installed", problem)


@app.command()
def show(context: typer.Context, name: Name) -> Answer:
    """Show one plugin: its settings, finding codes and commands."""
    session = session_of(context)
    _check_name(session, name)
    state = read_state(session.path) if session.path.exists() else FileState({}, (), ())
    try:
        manifest = manifest_of(name)
    except BadPlugin as bad:
        return _unusable(bad, name in state.enabled)
    values: dict[str, object] = {}
    problem, display = "", Display.METRIC
    if name in state.enabled:
        failed = {f.plugin: str(f) for f in session.open().host.failures}
        problem = failed.get(name, "")
        if not problem:
            with session.ask() as ask:
                values, display = dict(ask.settings(name)), ask.book.home.display
    facts = [
        Fact("name", "plugin", name, Kind.CODE),
        Fact("summary", "what it does", manifest.summary),
        Fact("enabled", "enabled", name in state.enabled, Kind.YESNO),
        Fact("commands", "commands", tuple(c.name for c in manifest.commands), Kind.LIST),
    ]
    if problem:
        facts.append(Fact("problem", "problem", problem))
    settings = tuple(
        _setting_row(s, values.get(s.name, s.default), display) for s in manifest.settings
    )
    columns = (
        Column("name", "setting"),
        Column("value", "value"),
        Column("stored", "stored", text=False),
        Column("unit", "unit", text=False),
        Column("default", "default", text=False),
        Column("help", "what it means"),
        Column("source", "source of the default"),
    )
    codes = (Column("code", "finding"), Column("meaning", "what it means"))
    return Answer(
        f"Plugin {name}",
        (
            *facts,
            Table("settings", columns, settings, "Settings", "it has no settings"),
            Table("findings", codes, manifest.findings, "Findings", "it has no findings"),
        ),
    )


def _unusable(bad: BadPlugin, enabled: bool) -> Answer:
    facts = (
        Fact("name", "plugin", bad.plugin, Kind.CODE),
        Fact("enabled", "enabled", enabled, Kind.YESNO),
        Fact("problem", "problem", bad.text),
    )
    return Answer(f"Plugin {bad.plugin}", facts)


def _setting_row(setting: Setting, value: object, display: Display) -> tuple[Cell, ...]:
    """The value as the keeper reads it, then as it is stored, with its unit."""
    stored = value if isinstance(value, str | int | float) else str(value)
    unit = setting.unit.code if setting.unit else None
    told = shown_value(setting, stored, display)
    return (setting.name, told, stored, unit, setting.default, setting.help, setting.source)


def _check_name(session: Session, name: str) -> None:
    known = {*installed()}
    if session.path.exists():
        known |= set(read_state(session.path).known)
    if name not in known:
        raise NotFound(
            f"there is no plugin {name!r}{near_miss(name, known)}; see: warmside plugin list"
        )


@app.command()
def enable(context: typer.Context, name: Name) -> Answer:
    """Switch a plugin on for this collection; makes its tables."""
    session = session_of(context)
    _check_name(session, name)
    manifest = enable_plugin(session, name)
    hints = [f"warmside {c.name} --help" for c in manifest.commands]
    return said(f"enabled {name}: {manifest.summary}", hints=hints)


@app.command()
def disable(context: typer.Context, name: Name) -> Answer:
    """Switch a plugin off; its data stay in the file."""
    session = session_of(context)
    _check_name(session, name)
    disable_plugin(session, name)
    return said(
        f"disabled {name}; its data stay in the file",
        hints=[f"warmside plugin enable {name} (finds them again)"],
    )


@app.command("set")
def set_value(
    context: typer.Context,
    name: Name,
    setting: Annotated[str, typer.Argument(help="Name of the setting.")],
    value: Annotated[str, typer.Argument(help="Its new value, or `default`.")],
    animal: Annotated[str | None, typer.Option(help="For this animal alone.")] = None,
    enclosure: Annotated[str | None, typer.Option(help="For this enclosure alone.")] = None,
    species: Annotated[str | None, typer.Option(help="For this species alone.")] = None,
    note: Annotated[str, typer.Option(help="Where the value comes from.")] = "",
) -> Answer:
    """Change a setting of a plugin, for the whole collection or for one of it."""
    session = session_of(context)
    _check_name(session, name)
    wanted = NewValue(name, setting, value, species, enclosure, animal, note)
    return setting_changed(session, wanted, manifest_of(name))


@app.command()
def forget(
    context: typer.Context,
    name: Name,
    to: Annotated[Path | None, typer.Option(help="Archive to export to first.")] = None,
    typed: Annotated[
        str | None, typer.Option("--name", help="The plugin's name again, to confirm.")
    ] = None,
) -> Answer:
    """Remove a plugin's data from the file, after writing them to an archive. Cannot be undone."""
    session = session_of(context)
    _check_name(session, name)
    return with_questions(session, forget_plugin, Forgetting(name, to, typed))


@app.command()
def scaffold(
    name: Annotated[str, typer.Argument(help="Name of the new plugin: letters and digits.")],
    folder: Annotated[Path, typer.Argument(help="Folder to make for it.")],
) -> Answer:
    """Write a new plugin, a package of its own with tests, to be changed into yours."""
    return scaffolded(Scaffolding(name, folder))
