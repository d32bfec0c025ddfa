"""`warmside plugin`: what is installed, what this collection uses, and its settings."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from warmside.cli.asking_back import with_questions
from warmside.cli.plugin_switching import (
    disable_plugin,
    enable_plugin,
)
from warmside.core.answers.parts import Answer, Tone, paragraphs, said
from warmside.core.asking.subjects.plugin_cards import plugin_card, plugin_list, unusable_plugin
from warmside.core.doing.forgetting import Forgetting, forget_plugin
from warmside.core.doing.scaffolding import Scaffolding
from warmside.core.doing.scaffolding import scaffold as scaffolded
from warmside.core.doing.setting import NewValue
from warmside.core.doing.setting import set_value as setting_changed
from warmside.core.file.state import FileState, read_state
from warmside.core.plugins.collecting import Failure
from warmside.core.plugins.discovery import installed, manifest_of
from warmside.core.plugins.manifest import BadPlugin
from warmside.core.session.session import Session, session_of
from warmside.core.values.errors import NotFound, Refused
from warmside.core.values.hints import near_miss

ALL = "all"
app = typer.Typer(help="Plugins of this collection.", no_args_is_help=True)

Name = Annotated[
    str,
    typer.Argument(
        help="Name of the plugin.", autocompletion=lambda incomplete: sorted(installed())
    ),
]


Names = Annotated[
    list[str],
    typer.Argument(
        help="Names of plugins, or all.", autocompletion=lambda incomplete: sorted(installed())
    ),
]


def enabled(session: Session, names: Sequence[str]) -> Answer:
    """Enable plugins one after the other; a name that is none leaves all as they are."""
    session.open()
    on = read_state(session.path).enabled
    wanted = sorted(installed()) if ALL in names else list(dict.fromkeys(names))
    for name in wanted:
        _check_name(session, name)
    new = [name for name in wanted if name not in on]
    if not new:
        who = "all plugins" if ALL in names else " and ".join(wanted)
        raise Refused(f"{who} {'is' if who == wanted[0] else 'are'} enabled already")
    made = [enable_plugin(session, name) for name in new]
    first, *rest = (f"enabled {m.name}: {m.summary}" for m in made)
    if ALL not in names:
        rest += [f"{name} was enabled already" for name in wanted if name in on]
    hints = [f"warmside {c.name} --help" for m in made for c in m.commands]
    return said(first, *paragraphs(*rest), hints=hints)


@app.command("list")
def list_plugins(context: typer.Context) -> Answer:
    """List installed plugins and those that this collection uses or once used."""
    session = session_of(context)
    state = _state(session)
    table = plugin_list(state, _problems(session, state))
    make = paragraphs("warmside new (make a collection)", tone=Tone.HINT)
    return Answer("Plugins", (table, *(() if session.path.exists() else make)))


def _state(session: Session) -> FileState:
    return read_state(session.path) if session.path.exists() else FileState({}, (), ())


def _problems(session: Session, state: FileState) -> dict[str, str]:
    if not state.enabled:
        return {}
    return {f.plugin: f"{f.where}: {f.error}" for f in session.open().host.failures}


@app.command()
def show(context: typer.Context, name: Name) -> Answer:
    """Show one plugin: its settings, finding codes and commands."""
    session = session_of(context)
    _check_name(session, name)
    enabled = name in _state(session).enabled
    try:
        manifest = manifest_of(name)
    except BadPlugin as bad:
        return unusable_plugin(bad, enabled)
    problem = {f.plugin: str(f) for f in _failures(session, enabled)}.get(name, "")
    if problem or not enabled:
        return plugin_card(manifest, enabled, None, problem)
    with session.ask() as ask:
        return plugin_card(manifest, enabled, ask)


def _failures(session: Session, enabled: bool) -> Sequence[Failure]:
    return session.open().host.failures if enabled else ()


def _check_name(session: Session, name: str) -> None:
    known = {*installed()}
    if session.path.exists():
        known |= set(read_state(session.path).known)
    if name not in known:
        raise NotFound(
            f"there is no plugin {name!r}{near_miss(name, known)}; see: warmside plugin list"
        )


@app.command()
def enable(context: typer.Context, names: Names) -> Answer:
    """Switch plugins on for this collection, or `all`; makes their tables."""
    return enabled(session_of(context), names)


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
