"""Switching plugins on and off, and changing their settings."""

from __future__ import annotations

from warmside.core.file import sqlite
from warmside.core.file.state import read_state
from warmside.core.plugins.discovery import installed, manifest_of, manifests
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import BadPlugin, Manifest, clashes
from warmside.core.record import tables
from warmside.core.session.session import Session
from warmside.core.values.errors import Refused
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
