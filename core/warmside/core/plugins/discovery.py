"""Which plugins are installed, and the manifest of each. No heavy imports."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any, NamedTuple

from warmside.core.plugins.manifest import ENTRY_POINT_GROUP, BadPlugin, Manifest, check_manifest

if TYPE_CHECKING:
    from importlib.metadata import Distribution

# Shipped plugins, so that the usual start never scans the installed distributions (30 ms).
# A test holds this table against the entry points.
BUILT_IN = {
    name: f"warmside.plugins.{name}:MANIFEST"
    for name in (
        "feeding",
        "genes",
        "habitat",
        "health",
        "labels",
        "lineage",
        "papers",
        "quarantine",
        "rhythm",
        "shed",
        "signs",
        "weight",
    )
}


class Installed(NamedTuple):
    """A plugin's entry point and the distribution that brings it."""

    name: str
    target: str
    distribution: str
    version: str


def load_object(target: str) -> Any:
    """The object that a `module:attribute` string names."""
    module, _, attribute = target.partition(":")
    found = import_module(module)
    return getattr(found, attribute) if attribute else found


def installed() -> dict[str, list[Installed]]:
    """Every plugin that an installed distribution offers; reads metadata, imports no plugin."""
    from importlib.metadata import entry_points

    found: dict[str, list[Installed]] = {}
    whose = cache(_name_and_version)
    for point in entry_points(group=ENTRY_POINT_GROUP):
        offer = Installed(point.name, point.value, *whose(point.dist))
        if offer not in found.setdefault(point.name, []):
            found[point.name].append(offer)
    for name, target in BUILT_IN.items():
        if not any(o.target == target for o in found.get(name, [])):
            found.setdefault(name, []).append(Installed(name, target, "warmside", ""))
    return found


def _name_and_version(distribution: Distribution | None) -> tuple[str, str]:
    """What its metadata say, which are parsed anew each time that they are asked for."""
    if distribution is None:
        return "?", "?"
    metadata = distribution.metadata
    return metadata["Name"], metadata["Version"]


def manifest_of(name: str) -> Manifest:
    """The manifest of one installed plugin; imports only the module that holds it."""
    target = BUILT_IN.get(name) or _only_target(name)
    try:
        found = load_object(target)
    except (Exception, SystemExit) as error:  # a third party's import must not stop the rest
        raise BadPlugin(name, f"does not import: {type(error).__name__}: {error}") from error
    return check_manifest(name, found)


def _only_target(name: str) -> str:
    offers = installed().get(name, [])
    if not offers:
        raise BadPlugin(
            name,
            "is used by this file but not installed; install it, or leave it out: "
            f"warmside plugin disable {name}",
        )
    if len(offers) > 1:
        sources = " and ".join(o.distribution for o in offers)
        raise BadPlugin(name, f"is offered by two packages, {sources}; uninstall one")
    return offers[0].target


def manifests(names: Iterable[str]) -> list[Manifest | BadPlugin]:
    """The manifest of each name, or why it cannot be had."""
    got: list[Manifest | BadPlugin] = []
    for name in sorted(names):
        try:
            got.append(manifest_of(name))
        except BadPlugin as problem:
            got.append(problem)
    return got
