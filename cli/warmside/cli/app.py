"""The root of the command line: its options, and the stubs of all commands."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator, Mapping
from datetime import UTC, datetime
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, Any

import typer

from warmside.cli.lazy import NEEDS_PLUGIN, LazyGroup, Stub
from warmside.cli.plugin_choice import PluginChoice
from warmside.cli.whereis import VARIABLE, collection_place
from warmside.core.file.state import read_state
from warmside.core.plugins.discovery import BUILT_IN, manifests
from warmside.core.plugins.manifest import Manifest, clashes
from warmside.core.session.session import Session
from warmside.core.values.calendar_checks import FIRST_YEAR, LAST_YEAR
from warmside.core.values.errors import BadInput, Refused, WarmsideError

if TYPE_CHECKING:
    from warmside.core.session.collection import Collection
    from warmside.core.session.live import Live

NOW = "WARMSIDE_NOW"
COMMANDS = "warmside.cli.commands"


class Root(LazyGroup):
    """The commands of the core, then those of the plugins that the collection has enabled."""

    core = (
        ("new", "Make a new collection.", f"{COMMANDS}.new:app"),
        (
            "demo",
            "Walk through the main job in an invented collection.",
            f"{COMMANDS}.demo:app",
        ),
        ("today", "The round: what is due, and why.", f"{COMMANDS}.today:app"),
        ("why", "Why lines of the round stand there.", f"{COMMANDS}.today:why_app"),
        ("done", "Record what settles tasks of the round.", f"{COMMANDS}.done:app"),
        ("later", "Put a finding off until a day.", f"{COMMANDS}.today:later_app"),
        ("animal", "Animals and their parents.", f"{COMMANDS}.animal:app"),
        ("clutch", "Clutches, and what came of them.", f"{COMMANDS}.clutch:app"),
        ("enclosure", "Enclosures.", f"{COMMANDS}.enclosure:app"),
        ("species", "Species.", f"{COMMANDS}.species:app"),
        ("arrive", "Take in a new animal.", f"{COMMANDS}.coming:arrive_app"),
        ("return", "An animal comes back.", f"{COMMANDS}.coming:return_app"),
        ("lend", "An animal leaves for a while.", f"{COMMANDS}.going:lend_app"),
        ("depart", "An animal leaves for good.", f"{COMMANDS}.going:depart_app"),
        ("move", "Put animals into another enclosure.", f"{COMMANDS}.move:app"),
        ("record", "Record an event.", f"{COMMANDS}.record:group"),
        ("history", "What happened, newest last.", f"{COMMANDS}.history:app"),
        ("correct", "Replace an event, keeping the old one visible.", f"{COMMANDS}.correct:app"),
        ("undo", "Take back the last step.", f"{COMMANDS}.undo:undo_app"),
        ("redo", "Do again what was undone.", f"{COMMANDS}.undo:redo_app"),
        ("import", "Import events from a spreadsheet.", f"{COMMANDS}.import_csv:app"),
        (
            "report",
            "An animal's story, for a vet, sitter or next owner.",
            f"{COMMANDS}.report:app",
        ),
        ("sheet", "Sheets for a vet, a sitter, the next owner.", f"{COMMANDS}.sheet:app"),
        ("picture", "Pictures and papers.", f"{COMMANDS}.picture:app"),
        ("calendar", "Write the coming tasks as a calendar file.", f"{COMMANDS}.calendar:app"),
        ("page", "The page for your phone: round, logging, undo.", f"{COMMANDS}.page:app"),
        ("plugin", "Plugins of this collection.", f"{COMMANDS}.plugin:app"),
        ("file", "The collection file: check, backup, restore, export.", f"{COMMANDS}.file:app"),
    )

    problem: WarmsideError | None = None
    clashing: Mapping[str, str] = MappingProxyType({})  # commands of plugins that claim one

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The command that is to run; why the file hides those of its plugins, if it does."""
        try:
            return super().resolve_command(ctx, args)
        except Exception as error:
            if self.problem is not None:
                raise self.problem from error
            raise

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command; one of a plugin that ships also where it is not enabled.

        What needs no collection then works (what-ifs); opening one says how to enable the plugin.
        """
        found = super().get_command(ctx, cmd_name)
        if cmd_name in self.clashing:
            raise Refused(self.clashing[cmd_name])
        return found or next((s for s in shipped(cmd_name)), None)

    def invoke(self, ctx: Any) -> int:
        """Run the command and render what it returns."""
        from warmside.cli.finishing import finish

        code = finish(ctx, super().invoke(ctx))
        if ctx.invoked_subcommand == "today":
            from warmside.cli.looking import look_if_due

            look_if_due(ctx.obj)
        return code

    def plugin_manifests(self, context: Any) -> Iterable[Manifest]:
        """The manifests of the enabled plugins; none where there is no file or a bad one."""
        place = collection_place(context.params.get("collection"))
        choice = PluginChoice(
            bool(context.params.get("no_plugins")), tuple(context.params.get("without") or ())
        )
        if not place.path.exists():
            return []
        try:
            names = choice.of(read_state(place.path).enabled)
        except WarmsideError as problem:  # a command will say what is wrong with the file
            self.problem = problem
            return []
        found = [m for m in manifests(names) if isinstance(m, Manifest)]
        clashing = clashes(found)  # which the opened collection will tell, too
        both = [m for m in found if m.name in clashing]
        self.clashing = {c.name: clashing[m.name] for m in both for c in m.commands}
        return [m for m in found if m.name not in clashing]


def shipped(command: str) -> Iterator[Stub]:
    """The command of that name of a plugin that ships, as one that needs its plugin."""
    for manifest in (m for m in manifests(BUILT_IN) if isinstance(m, Manifest)):
        for found in manifest.commands:
            if found.name == command:
                yield Stub(found.name, found.help, found.app, "Plugins", plugin=manifest.name)


app = typer.Typer(
    cls=Root,
    help="The record of a few reptiles, kept by the one who cares for them.",
    invoke_without_command=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["--help", "-h"]},
)


@app.callback()
def root(
    context: typer.Context,
    collection: Annotated[
        str | None,
        typer.Option(
            "--collection",
            metavar="FILE",
            is_eager=True,
            help=f"The collection file; else ${VARIABLE}, else one in your data folder.",
        ),
    ] = None,
    no_plugins: Annotated[
        bool, typer.Option("--no-plugins", is_eager=True, help="Start without any plugin.")
    ] = False,
    without: Annotated[
        list[str] | None,
        typer.Option(
            "--without", metavar="PLUGIN", is_eager=True, help="Start without this plugin."
        ),
    ] = None,
    strict: Annotated[
        bool, typer.Option("--strict", help="Fail when a plugin fails (exit code 1).")
    ] = False,
    version: Annotated[bool, typer.Option("--version", "-V", help="Say the version.")] = False,
) -> Any:
    """Set up the session that every command gets."""
    place = collection_place(collection)
    now = moment()
    choice = PluginChoice(no_plugins, tuple(without or ()))
    asks = sys.stdin.isatty() and sys.stderr.isatty()

    def opened(path: Path) -> Collection:
        from warmside.cli.opening import open_collection  # imports SQLAlchemy

        return open_collection(path, now, choice)

    needed = context.meta.get(NEEDS_PLUGIN, "")
    context.obj = Session(place.path, now, opened, asks, needed)
    context.meta["warmside.live"] = lambda: live(place.path, choice, needed)
    context.meta["warmside.place"] = place
    context.meta["warmside.strict"] = strict
    if version or context.invoked_subcommand is None:
        from warmside.cli.commands.welcome import welcome

        return welcome(place, version)
    return None


def live(path: Path, choice: PluginChoice, needed: str) -> Live:
    """What a face that runs for long works with, in the place of a command's session."""
    from warmside.cli.opening import open_collection
    from warmside.core.session.live import Live

    return Live(path, lambda file, now: open_collection(file, now, choice), moment, needed)


def moment() -> datetime:
    """Now, or the instant that the environment fixes, for tests and printed examples."""
    fixed = os.environ.get(NOW)
    if not fixed:
        return _sane(datetime.now(UTC))
    try:
        at = datetime.fromisoformat(fixed)
    except ValueError:
        raise BadInput(f"{NOW}={fixed!r} is no instant; write 2026-03-05T08:00+01:00") from None
    if at.tzinfo is None:
        raise BadInput(f"{NOW}={fixed!r} needs an offset, such as +01:00")
    return _sane(at)


def _sane(now: datetime) -> datetime:
    """The clock's moment; a year from either end, as what is due may lie beyond it."""
    if not FIRST_YEAR < now.year < LAST_YEAR:
        raise BadInput(f"the clock says {now:%Y-%m-%d}; set it right, then try again")
    return now
