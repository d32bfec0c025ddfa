"""Plugins as answers: what is installed and used, and one plugin with its settings and codes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from warmside.core.answers.parts import Answer, Cell, Column, Fact, Kind, Part, Table
from warmside.core.asking.ask import Ask
from warmside.core.asking.valued import stored_narrowly
from warmside.core.file.state import FileState
from warmside.core.plugins.discovery import installed, manifest_of
from warmside.core.plugins.manifest import BadPlugin, Manifest, Setting
from warmside.core.values.display import Display
from warmside.core.values.quantities import format_quantity

SETTING_COLUMNS = (
    Column("name", "setting"),
    Column("value", "value"),
    Column("stored", "stored", text=False),
    Column("unit", "unit", text=False),
    Column("default", "default", text=False),
    Column("help", "what it means"),
    Column("source", "source of the default"),
)
NARROWER_COLUMNS = (
    Column("name", "setting"),
    Column("whom", "for"),
    Column("value", "value"),
    Column("scope", "scope", text=False),
    Column("source", "source"),
)
CODE_COLUMNS = (Column("code", "finding"), Column("meaning", "what it means"))


def plugin_list(state: FileState, problems: Mapping[str, str]) -> Table:
    """Installed plugins and those that a collection uses or once used; problems by plugin."""
    names = sorted({*installed(), *state.known})
    rows = tuple(_row(n, state, problems) for n in names)
    columns = (
        Column("name", "plugin", Kind.CODE),
        Column("state", "state"),
        Column("summary", "what it does"),
        Column("distribution", "from", text=False),
        Column("problem", "problem", text=any(r[-1] for r in rows)),
    )
    return Table("plugins", columns, rows)


def _row(name: str, state: FileState, problems: Mapping[str, str]) -> tuple[str, ...]:
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


def plugin_card(manifest: Manifest, enabled: bool, ask: Ask | None, problem: str = "") -> Answer:
    """One plugin; with `ask`, the values that hold in the collection, else the defaults."""
    commands = tuple(c.name for c in manifest.commands)
    facts: list[Part] = [
        Fact("name", "plugin", manifest.name, Kind.CODE),
        Fact("summary", "what it does", manifest.summary),
        Fact("enabled", "enabled", enabled, Kind.YESNO),
        Fact("commands", "commands", commands, Kind.LIST),
    ]
    if problem:
        facts.append(Fact("problem", "problem", problem))
    narrower = tuple(_narrower(ask, manifest)) if ask else ()
    tables = (
        _settings(manifest, ask),
        Table("narrower", NARROWER_COLUMNS, narrower, "Set more narrowly", empty=""),
        Table("findings", CODE_COLUMNS, manifest.findings, "Findings", "it has no findings"),
    )
    return Answer(f"Plugin {manifest.name}", (*facts, *tables))


def unusable_plugin(bad: BadPlugin, enabled: bool) -> Answer:
    """A plugin that cannot be used, and why."""
    facts = (
        Fact("name", "plugin", bad.plugin, Kind.CODE),
        Fact("enabled", "enabled", enabled, Kind.YESNO),
        Fact("problem", "problem", bad.text),
    )
    return Answer(f"Plugin {bad.plugin}", facts)


def _settings(manifest: Manifest, ask: Ask | None) -> Table:
    values = ask.settings(manifest.name) if ask else {}
    display = ask.book.home.display if ask else Display.METRIC
    rows = tuple(_setting(s, values.get(s.name, s.default), display) for s in manifest.settings)
    return Table("settings", SETTING_COLUMNS, rows, "Settings", "it has no settings")


def _setting(setting: Setting, value: object, display: Display) -> tuple[Cell, ...]:
    """The value as the keeper reads it, then as it is stored, with its unit."""
    stored = value if isinstance(value, str | int | float) else str(value)
    unit = setting.unit.code if setting.unit else None
    told = shown_value(setting, stored, display)
    return (setting.name, told, stored, unit, setting.default, setting.help, setting.source)


def _narrower(ask: Ask, manifest: Manifest) -> Iterator[tuple[Cell, ...]]:
    """What holds for one species, enclosure or animal, with where it comes from."""
    for setting in (s for s in manifest.settings if s.per):
        for scope, whom, value, source in stored_narrowly(ask.book, manifest, setting):
            told = shown_value(setting, value, ask.book.home.display)
            yield setting.name, whom, told, scope, f"{source.text} [{source.mark}]"


def shown_value(setting: Setting, value: str | int | float, display: Display) -> str:
    """The value with its unit, as the collection shows quantities."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str) or setting.unit is None:
        return f"{value:g}" if isinstance(value, float) else str(value)
    return format_quantity(float(value), setting.unit, display)
