"""What a plugin says about itself; importing a manifest must stay cheap.

No SQLAlchemy, Alembic, pluggy or Typer here: help and completion read every enabled manifest.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from warmside.core.values.errors import BadInput, WarmsideError
from warmside.core.values.units import Unit

if TYPE_CHECKING:
    from warmside.core.values.display import Display

HOOK_LEVEL = (2, 2)  # (breaking, additive): raised together with hookspecs.py
ENTRY_POINT_GROUP = "warmside.plugins"
RESERVED = frozenset({"clutch", "core", "event", "plugin", "put", "schema", "scoped", "sqlite"})
SCOPES = ("species", "enclosure", "animal")  # the narrowest last
NAME_RULE = re.compile(r"[a-z][a-z0-9]*")


CHANGED = (
    "what changed since: import from warmside.api, take ask and about in the hooks, see "
    "DEVELOPERS.md; or install a version of the plugin made for it"
)


class Command(NamedTuple):
    """A command that the plugin adds; the target is imported only when it is called.

    `reads` names what below it only answers, as it is typed (`show`, `plan list`; empty text is
    the command itself): the page for the phone offers these, and nothing can be written by them.
    """

    name: str
    help: str
    app: str  # "module:attribute" of a typer.Typer
    reads: tuple[str, ...] = ()


class Setting(NamedTuple):
    """One value that the keeper may change, for the whole collection or more narrowly.

    The type is that of the default; a float may have a unit and limits. `source` says where the
    default comes from, with its mark in brackets.
    """

    name: str
    help: str
    default: str | int | float | bool
    source: str
    unit: Unit | None = None
    least: float | None = None
    most: float | None = None
    choices: tuple[str, ...] = ()
    per: tuple[str, ...] = ()  # of SCOPES, for which it may be set more narrowly
    check: str = ""  # "module:function" that raises BadInput for a value that cannot be used


class Answers(NamedTuple):
    """A quantity that the plugin can answer: one that core lists, or `<plugin>.<word>`."""

    what: str
    unit: Unit | None = None  # None for a range of days


class Manifest(NamedTuple):
    """A plugin's name, hook level and the modules that hold its parts."""

    name: str  # also the prefix of its tables, event kinds and finding codes
    summary: str
    hook_level: tuple[int, int]
    hooks: str  # module with @hookimpl functions
    commands: tuple[Command, ...] = ()
    settings: tuple[Setting, ...] = ()
    findings: tuple[tuple[str, str], ...] = ()  # code and what it means
    tables: str | None = None  # module with its Table objects, if it owns any
    migrations: str | None = None  # package with its revision files
    head: str | None = None  # newest revision in that package
    needs_core: str = "c0001"  # core revision that its tables refer to
    answers: tuple[Answers, ...] = ()
    values: str | None = None  # "module:function" giving its ShippedValues, per species


class BadPlugin(WarmsideError):
    """A plugin that cannot be used; the text is for the keeper."""

    def __init__(self, plugin: str, text: str) -> None:
        super().__init__(f"plugin {plugin}: {text}")
        self.plugin = plugin
        self.text = text


def check_manifest(name: str, manifest: object) -> Manifest:
    """The manifest itself, or BadPlugin saying what is wrong with it."""
    if not isinstance(manifest, Manifest):
        raise BadPlugin(name, f"its entry point gives {type(manifest).__name__}, not a Manifest")
    if manifest.name != name:
        raise BadPlugin(name, f"its manifest calls itself {manifest.name!r}")
    if not NAME_RULE.fullmatch(name):
        raise BadPlugin(name, "a plugin's name is lower-case letters and digits")
    if name in RESERVED:
        raise BadPlugin(name, "its name is one that warmside's own tables begin with")
    check_level(manifest)
    return manifest


def check_level(manifest: Manifest) -> None:
    """Raise BadPlugin unless this program has the hooks that the plugin was written for."""
    have, want = HOOK_LEVEL, manifest.hook_level
    if want[0] != have[0] or want[1] > have[1]:
        raise BadPlugin(
            manifest.name,
            f"needs hook level {want[0]}.{want[1]}, this is {have[0]}.{have[1]}; "
            + (CHANGED if want[0] < have[0] else "install a version of the plugin made for it"),
        )


def clashes(plugins: Iterable[Manifest]) -> dict[str, str]:
    """Plugins that claim one command, with a text naming both; whatever the order they come in."""
    claims: dict[str, list[str]] = defaultdict(list)
    for manifest in plugins:
        for command in manifest.commands:
            claims[command.name].append(manifest.name)
    clashing = {}
    for command_name, owners in claims.items():
        if len(set(owners)) > 1:
            both = " and ".join(sorted(set(owners)))
            for owner in owners:
                clashing[owner] = f"{both} both claim the command {command_name!r}; disable one"
    return clashing


def setting_value(
    setting: Setting, value: object, display: Display | None = None
) -> str | int | float | bool:
    """The value if the setting may have it; raises BadInput naming setting and limits.

    Limits are said in the units of `display`, else in metric ones.
    """
    wanted = type(setting.default)
    if wanted is float and isinstance(value, int) and not isinstance(value, bool):
        value = float(value)
    if type(value) is not wanted:
        raise BadInput(f"setting {setting.name} is {_kind_words(setting)}, not {value!r}")
    if setting.choices and value not in setting.choices:
        raise BadInput(f"setting {setting.name} is one of: {', '.join(setting.choices)}")
    if isinstance(value, int | float) and not isinstance(value, bool):
        _check_limits(setting, value, display)
    assert isinstance(value, str | int | float | bool)
    return value


def _check_limits(setting: Setting, value: float, display: Display | None) -> None:
    low, high = setting.least, setting.most
    if (low is None or value >= low) and (high is None or value <= high):
        return
    least, most, typed = (_number(setting, x, display) for x in (low, high, value))
    if low is not None and high is not None:
        allowed = f"between {least} and {most}"
    else:
        allowed = f"at least {least}" if low is not None else f"at most {most}"
    raise BadInput(f"setting {setting.name} is {allowed}, not {typed}")


def _number(setting: Setting, value: float | None, display: Display | None) -> str:
    if value is None or setting.unit is None:
        return f"{value:g}" if value is not None else ""
    from warmside.core.values.quantities import Display, format_quantity  # else help would wait

    return format_quantity(value, setting.unit, display or Display.METRIC)


def _kind_words(setting: Setting) -> str:
    return {str: "text", int: "a whole number", float: "a number", bool: "yes or no"}[
        type(setting.default)
    ]
