"""Command groups whose parts are imported only when one of them is run or completed."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import redirect_stdout
from copy import copy
from functools import cache, lru_cache, wraps
from pathlib import Path
from typing import Any

import typer
from typer.core import TyperGroup, TyperOption
from typer.main import get_command, get_command_from_info, get_group

from warmside.cli.completing import complete_codes
from warmside.cli.saved_files import may_write
from warmside.core.plugins.discovery import load_object
from warmside.core.plugins.manifest import Manifest
from warmside.core.values.errors import BadInput, WarmsideError

REPLACE = "--replace"
SAVED_AS = (".pdf", ".svg", ".json", ".txt")

NEEDS_PLUGIN = "warmside.needs_plugin"

# Contexts, parameters and commands are annotated with Any: Typer keeps its own Click private.


class Stub(TyperGroup):
    """Stands for a command or group in help and completion lists.

    `plugin` is the plugin without which the command may not open a collection; `quiet` that what it
    prints is no answer; `reads` names what below it only answers.
    """

    def __init__(
        self,
        name: str,
        help: str,
        target: str,
        panel: str,
        plugin: str = "",
        quiet: bool = False,
        reads: tuple[str, ...] = (),
    ) -> None:
        super().__init__(name=name, help=help, short_help=help, rich_help_panel=panel)
        self.target = target
        self.plugin = plugin
        self.quiet = quiet
        self.reads = reads

    def load(self) -> Any:
        """The real command, with the options that every command has."""
        return built(load_object(self.target), self.name or "", self.quiet)


@lru_cache(maxsize=256)  # by the very object: a page and tests run the same commands again
def built(found: Any, name: str, apart: bool) -> Any:
    """A command with the options that every command has; `apart` where it is a plugin's."""
    command = with_faces(as_command(found, name))
    if not apart:
        return command
    from warmside.cli.asking_back import asking_again

    return asking_again(quiet(command))


def as_command(found: Any, name: str) -> Any:
    """A Typer app as a group, or as its one command where it has no name of its own."""
    if not isinstance(found, typer.Typer):
        found.name = name
        return found
    found.rich_markup_mode = None  # one look for all, and no import of rich
    alone = len(found.registered_commands) == 1 and not found.registered_groups
    single = alone and found.registered_commands[0].name == "" and not found.registered_callback
    command = _only_command(found) if single else get_group(found)
    command.name = name
    return command


def _only_command(found: typer.Typer) -> Any:
    """The one command, without the completion options that Typer gives to whole programs."""
    return get_command_from_info(
        found.registered_commands[0], pretty_exceptions_short=True, rich_markup_mode=None
    )


def with_faces(command: Any) -> Any:
    """The command with --json and --save on each leaf, so that no command declares them.

    What is named after animals or enclosures is completed with their codes.
    """
    if isinstance(command, TyperGroup):
        for part in command.commands.values():
            part.short_help = part.short_help or first_sentence(part.help or "")
            with_faces(part)
    elif not any(p.name == "as_json" for p in command.params):
        for parameter in command.params:
            complete_codes(parameter)
        own = next((p for p in command.params if REPLACE in p.opts), None)
        command.params += [o for o in _face_options() if own is None or REPLACE not in o.opts]
        if own is not None:
            own.callback = _remember_to_replace
            own.is_eager = True
    return command


def quiet(command: Any) -> Any:
    """A plugin's command of which whatever it prints goes to stderr: stdout is the answer's."""
    if isinstance(command, TyperGroup):
        for part in command.commands.values():
            quiet(part)
    elif command.callback is not None:
        command.callback = _to_stderr(command.callback)
    return command


def _to_stderr(callback: Callable[..., object]) -> Callable[..., object]:
    @wraps(callback)
    def run(*args: object, **given: object) -> object:
        with redirect_stdout(sys.stderr):
            return callback(*args, **given)

    return run


def leaves(command: Any, words: str = "") -> Iterator[tuple[str, Any]]:
    """The commands below one, each with the words that call it; itself where it has none."""
    if not hasattr(command, "commands"):
        yield words, command
        return
    for name, part in command.commands.items():
        yield from leaves(part, f"{words} {name}".strip())


def first_sentence(help: str) -> str:
    """The whole first sentence of a help text: lists of commands wrap it instead of cutting it."""
    sentence, dot, _ = " ".join(help.split("\n\n")[0].split()).partition(". ")
    return sentence + dot.strip()


def _face_options() -> list[TyperOption]:
    return [
        TyperOption(
            param_decls=["as_json", "--json"],
            is_flag=True,
            expose_value=False,
            callback=_remember,
            help="Answer as one JSON object.",
        ),
        TyperOption(
            param_decls=["save", "--save"],
            metavar="FILE",
            expose_value=False,
            callback=_remember_file,
            help="Also save the answer: the ending .pdf, .svg, .json or .txt says how.",
        ),
        TyperOption(
            param_decls=["replace_saved", REPLACE],
            is_flag=True,
            is_eager=True,
            expose_value=False,
            callback=_remember_to_replace,
            help="Save over a file that warmside did not write.",
        ),
    ]


def _remember_to_replace(context: Any, parameter: Any, value: Any) -> Any:
    context.meta["warmside.replace"] = value
    return value


def _remember(context: Any, parameter: Any, value: Any) -> Any:
    context.meta[f"warmside.{parameter.name}"] = value
    return value


def _remember_file(context: Any, parameter: Any, value: Any) -> Any:
    """As `_remember`; a file that cannot be saved is refused before the command does anything."""
    if value and not value.lower().endswith(SAVED_AS):
        raise BadInput(f"cannot save as {value!r}: end it in .pdf, .svg, .json or .txt")
    if value and not context.resilient_parsing:
        may_write(context, Path(value))
    return _remember(context, parameter, value)


def root_of(app: typer.Typer) -> Any:
    """The root of an app, for one run: it learns which plugins are at work there."""
    return _root(app).fresh()


@cache
def _root(app: typer.Typer) -> Any:
    return get_command(app)


class LazyGroup(TyperGroup):
    """A group of stubs: the core's, and those of the enabled plugins' manifests."""

    core: tuple[tuple[str, str, str], ...] = ()

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        for name, help, target in self.core:
            self.commands[name] = Stub(name, help, target, "Commands")
        self._plugins_added = False

    def fresh(self) -> LazyGroup:
        """The same group, as it was made."""
        other = copy(self)
        other.commands = dict(self.commands)
        return other

    def plugin_manifests(self, context: Any) -> Iterable[Manifest]:
        """The manifests whose commands belong here."""
        return ()

    def _add_plugins(self, context: Any) -> None:
        if self._plugins_added:
            return
        self._plugins_added = True
        for manifest in self.plugin_manifests(context):
            for command in manifest.commands:
                if command.name not in self.commands:
                    self.commands[command.name] = Stub(
                        command.name,
                        command.help,
                        command.app,
                        "Plugins",
                        quiet=True,
                        reads=command.reads,
                    )

    def list_commands(self, ctx: Any) -> list[str]:
        """The names of all commands, in the order of help."""
        self._add_plugins(ctx)
        return super().list_commands(ctx)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of that name; a stub until it is resolved."""
        if cmd_name not in self.commands:
            self._add_plugins(ctx)
        return super().get_command(ctx, cmd_name)

    def _spelt_out(self, ctx: Any, args: list[str]) -> list[str]:
        """The arguments, with the command's whole name where its beginning is that of no other."""
        begun = args[0].casefold()
        if not begun.isalpha() or self.get_command(ctx, args[0]) is not None:
            return args
        found = [name for name in self.list_commands(ctx) if name.startswith(begun)]
        if len(found) > 1:
            raise BadInput(f"{args[0]} begins {' and '.join(found)}; type one letter more")
        return [*found, *args[1:]] if found else args

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The command that is to run, imported now; its name may be cut short."""
        name, command, rest = super().resolve_command(ctx, self._spelt_out(ctx, args))
        if isinstance(command, Stub):
            ctx.meta[NEEDS_PLUGIN] = command.plugin  # the root's callback runs after this
            try:
                command = command.load()
            except (Exception, SystemExit) as error:
                if ctx.resilient_parsing:  # completing: no candidates rather than a traceback
                    return None, None, rest
                raise WarmsideError(
                    f"command {name!r} cannot be loaded: {type(error).__name__}: {error}"
                ) from error
        return name, command, rest
