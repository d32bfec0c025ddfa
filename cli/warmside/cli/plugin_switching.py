"""Switching plugins on and off, and changing their settings."""

from __future__ import annotations

import json
from typing import Any

from warmside.core.file import sqlite
from warmside.core.file.state import read_state
from warmside.core.plugins.discovery import installed, manifest_of, manifests
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import BadPlugin, Manifest, Setting, clashes, setting_value
from warmside.core.record import tables
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, NotFound, Refused
from warmside.core.values.hints import near_miss, plain_text
from warmside.core.values.quantities import Display, format_quantity, parse_quantity
from warmside.migrations import lineage_of


def enable_plugin(session: Session, name: str) -> Manifest:
    """Make the plugin's tables and note it as enabled; raises where it cannot work here."""
    session.open()  # which brings the core's tables up to date first
    state = read_state(session.path)
    if name in state.enabled:
        raise Refused(f"{name} is enabled already")
    manifest = manifest_of(name)
    _check_works(manifest, state.enabled)
    _make_tables(session, manifest)
    offers = installed().get(name, [])
    source = offers[0] if offers else None
    values = {
        "enabled": True,
        "distribution": source.distribution if source else "",
        "version": source.version if source else "",
    }
    with session.step(f"enabled plugin {name}") as writer:
        if name in state.known:
            writer.change(tables.plugin_state, {"name": name}, **values)
        else:
            writer.insert(tables.plugin_state, name=name, settings="{}", **values)
    return manifest


def _check_works(manifest: Manifest, enabled: tuple[str, ...]) -> None:
    """Raise if the plugin clashes with an enabled one or does not load."""
    others = [m for m in manifests(enabled) if isinstance(m, Manifest)]
    clashing = clashes([*others, manifest])
    if manifest.name in clashing:
        raise Refused(clashing[manifest.name])
    core_commands = _core_commands()
    for command in manifest.commands:
        if command.name in core_commands:
            raise Refused(f"{manifest.name} claims {command.name!r}, a command of warmside itself")
    failures = Host([manifest]).failures
    if failures:
        raise BadPlugin(manifest.name, failures[0].error)


def _core_commands() -> set[str]:
    from warmside.cli.app import Root

    return {name for name, _, _ in Root.core}


def _make_tables(session: Session, manifest: Manifest) -> None:
    lineage = lineage_of(manifest)
    if lineage is None:
        return
    from warmside.migrations import runner

    runner.upgrade(sqlite.open_engine(session.path), [lineage])


def disable_plugin(session: Session, name: str) -> None:
    """Note the plugin as disabled; its tables stay."""
    if name not in read_state(session.path).enabled:
        raise Refused(f"{name} is not enabled")
    with session.step(f"disabled plugin {name}") as writer:
        writer.change(tables.plugin_state, {"name": name}, enabled=False)


def parse_setting(manifest: Manifest, name: str, text: str, display: Display) -> Any:
    """The typed value of a setting, checked; None for `default`. Bare numbers are as shown."""
    setting = next((s for s in manifest.settings if s.name == name), None)
    if setting is None:
        known = [s.name for s in manifest.settings]
        raise NotFound(
            f"{manifest.name} has no setting {name!r}{near_miss(name, known)}; "
            f"see: warmside plugin show {manifest.name}"
        )
    if text == "default":
        return None
    return setting_value(setting, _typed(setting, plain_text(f"setting {name}", text), display))


def shown_setting(setting: Setting, value: str | int | float, display: Display) -> str:
    """The value with its unit, as the collection shows quantities."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str) or setting.unit is None:
        return f"{value:g}" if isinstance(value, float) else str(value)
    return format_quantity(float(value), setting.unit, display)


def _typed(setting: Setting, text: str, display: Display) -> object:
    if setting.unit is not None:
        value = parse_quantity(text, setting.unit, display=display, what=f"setting {setting.name}")
        return int(value) if isinstance(setting.default, int) and value.is_integer() else value
    if isinstance(setting.default, bool):
        words = {"yes": True, "true": True, "on": True, "no": False, "false": False, "off": False}
        return words.get(text.lower(), text)
    for kind in (int, float):
        if isinstance(setting.default, kind):
            try:
                return kind(text)
            except ValueError:
                raise BadInput(f"setting {setting.name} is a number, not {text!r}") from None
    return text


def set_setting(session: Session, plugin: str, name: str, value: object) -> None:
    """Store a setting, or go back to its default where the value is None."""
    if plugin not in read_state(session.path).enabled:
        raise Refused(f"{plugin} is not enabled; enable it first: warmside plugin enable {plugin}")
    with session.step(f"{plugin}: {name} = {'default' if value is None else value}") as writer:
        stored = dict(writer.book.stored_settings.get(plugin, {}))
        stored.pop(name, None)
        if value is not None:
            stored[name] = value
        writer.change(tables.plugin_state, {"name": plugin}, settings=json.dumps(stored))
