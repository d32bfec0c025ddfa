"""Plugins for the time of a test: made of functions, or of a manifest that nobody installed."""

from __future__ import annotations

import sys
import types
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any
from unittest import mock

from warmside.core.plugins.discovery import BUILT_IN
from warmside.core.plugins.hookspecs import hookimpl
from warmside.core.plugins.manifest import HOOK_LEVEL, Manifest


@contextmanager
def throw_away_plugin(
    name: str, *, manifest: dict[str, Any] | None = None, **hooks: Callable[..., Any]
) -> Iterator[Manifest]:
    """Offer a plugin made of functions, `warmside_tasks=my_function`, for the time of a test."""
    module = types.ModuleType(f"warmside_throw_away_{name}")
    for hook, function in hooks.items():
        setattr(module, hook, hookimpl(function))
    made = Manifest(name, "a throw-away plugin", HOOK_LEVEL, module.__name__, **(manifest or {}))
    with mock.patch.dict(sys.modules, {module.__name__: module}), _listed(made, module):
        yield made  # what is imported meanwhile is forgotten: tests write modules of one name anew


@contextmanager
def offered(manifest: Manifest) -> Iterator[Manifest]:
    """Offer the plugin of a manifest as if a package brought it."""
    module = types.ModuleType(f"warmside_offered_{manifest.name}")
    with _importable(module), _listed(manifest, module):
        yield manifest


@contextmanager
def _importable(module: types.ModuleType) -> Iterator[None]:
    """Let the module be imported; what else is imported meanwhile stays."""
    before = sys.modules.get(module.__name__)
    sys.modules[module.__name__] = module
    try:
        yield
    finally:
        if before is None:
            del sys.modules[module.__name__]
        else:
            sys.modules[module.__name__] = before


@contextmanager
def _listed(manifest: Manifest, module: types.ModuleType) -> Iterator[None]:
    """Let the plugin be found by its name."""
    module.MANIFEST = manifest  # type: ignore[attr-defined]
    with mock.patch.dict(BUILT_IN, {manifest.name: f"{module.__name__}:MANIFEST"}):
        yield
