"""The plugins of one collection: loading them and calling their hooks one by one."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable
from dataclasses import dataclass
from importlib import import_module
from typing import Any, TypeVar

import pluggy

from warmside.core.file.state import is_about_the_file
from warmside.core.kinds.kind import EventKind
from warmside.core.kinds.shared import SHARED_KINDS
from warmside.core.plugins.hookspecs import Hooks
from warmside.core.plugins.manifest import BadPlugin, Manifest, clashes
from warmside.core.values.errors import NotFound, WarmsideError
from warmside.core.values.hints import near_miss

T = TypeVar("T")
FAULTS = (Exception, SystemExit)  # what a plugin may raise and must not stop the rest


@dataclass(frozen=True, slots=True)
class Failure:
    """A plugin that could not take part: where, and why."""

    plugin: str
    where: str
    error: str

    def __str__(self) -> str:
        return f"plugin {self.plugin} failed in {self.where}: {self.error}"


class Host:
    """The enabled plugins; what fails is kept in `failures` and costs only its own items."""

    def __init__(self, plugins: Iterable[Manifest | BadPlugin] = ()) -> None:
        self.failures: list[Failure] = []
        self.manifests: dict[str, Manifest] = {}
        self._manager = pluggy.PluginManager("warmside")
        self._manager.add_hookspecs(Hooks)
        offered = list(plugins)
        for problem in (p for p in offered if isinstance(p, BadPlugin)):
            self.failures.append(Failure(problem.plugin, "loading", problem.text))
        good = [p for p in offered if isinstance(p, Manifest)]
        for manifest in sorted(self._without_clashes(good), key=lambda m: m.name):
            self._load(manifest)
        self.kinds = self._kinds()

    def _without_clashes(self, plugins: list[Manifest]) -> list[Manifest]:
        clashing = clashes(plugins)
        for name, text in sorted(clashing.items()):
            self.failures.append(Failure(name, "loading", text))
        return [m for m in plugins if m.name not in clashing]

    def _load(self, manifest: Manifest) -> None:
        try:
            module = import_module(manifest.hooks)
            self._check_hooks(module)
            self._manager.register(module, name=manifest.name)  # checks argument names
        except FAULTS as error:
            self.failures.append(Failure(manifest.name, "loading", told(error)))
            if self._manager.has_plugin(manifest.name):  # pluggy before 1.7 keeps a part of it
                self._manager.unregister(name=manifest.name)
        else:
            self.manifests[manifest.name] = manifest

    def _check_hooks(self, module: Any) -> None:
        for attribute in dir(module):
            options = self._manager.parse_hookimpl_opts(module, attribute)
            if options is None:
                continue
            name = options.get("specname") or attribute
            if not hasattr(self._manager.hook, name):
                raise WarmsideError(f"there is no hook {name}")
            if options.get("wrapper") or options.get("hookwrapper"):
                raise WarmsideError(f"{name}: a hook cannot wrap other plugins")

    def _kinds(self) -> dict[str, EventKind]:
        kinds = {k.name: k for k in SHARED_KINDS}
        for plugin, kind in self.collect("warmside_event_kinds", EventKind):
            problem = _wrong_name(plugin, kind.name, kinds)
            if problem:
                self.failures.append(Failure(plugin, "warmside_event_kinds", problem))
            else:
                kinds[kind.name] = kind
        return kinds

    def kind(self, name: str) -> EventKind:
        """The kind of event of that name; near misses are suggested."""
        if name in self.kinds:
            return self.kinds[name]
        raise NotFound(
            f"there is no kind of event {name!r}{near_miss(name, self.kinds)}; "
            "list them with: warmside record --help"
        )

    def collect(self, hook: str, of: type[T], **arguments: Any) -> list[tuple[str, T]]:
        """(plugin, item) of every implementation of an observer hook, plugins by name."""
        found: list[tuple[str, T]] = []
        for plugin, function, names in self._implementations(hook):
            try:
                items = _checked(function(*[arguments[n] for n in names]), of)
            except FAULTS as error:
                if is_about_the_file(error, in_snapshot=True):
                    raise
                self._note(Failure(plugin, hook, told(error)))
            else:
                found += [(plugin, item) for item in items]
        return found

    def require(self, hook: str, of: type[T], **arguments: Any) -> list[tuple[str, T]]:
        """As `collect`, for an integral hook: the first failure is raised."""
        found: list[tuple[str, T]] = []
        for plugin, function, names in self._implementations(hook):
            try:
                items = _checked(function(*[arguments[n] for n in names]), of)
            except WarmsideError:
                raise
            except FAULTS as error:
                if is_about_the_file(error):
                    raise
                raise stopped(plugin, hook, error) from error
            found += [(plugin, item) for item in items]
        return found

    def _implementations(self, hook: str) -> list[tuple[str, Callable[..., Any], tuple[str, ...]]]:
        caller: pluggy.HookCaller = getattr(self._manager.hook, hook)
        found = [(i.plugin_name, i.function, i.argnames) for i in caller.get_hookimpls()]
        return sorted(found, key=lambda i: i[0])

    def _note(self, failure: Failure) -> None:
        if failure not in self.failures:  # a hook called for each animal is named once
            self.failures.append(failure)


def _wrong_name(plugin: str, name: str, known: Container[str]) -> str:
    """What is wrong with the name of a plugin's kind; nothing where it is well."""
    if not name.startswith(f"{plugin}."):
        return f"its kind {name!r} is not its own; name it {plugin}.<word>"
    return f"it gives the kind {name!r} twice" if name in known else ""


def told(error: BaseException) -> str:
    """An exception in one line."""
    text = " ".join(str(error).split())
    return text if isinstance(error, WarmsideError) else f"{type(error).__name__}: {text}"


def stopped(plugin: str, hook: str, error: BaseException) -> WarmsideError:
    """What an integral hook's failure means for the keeper."""
    return WarmsideError(
        f"{Failure(plugin, hook, told(error))}; nothing was recorded; "
        f"to go on without it: warmside --without {plugin} ..."
    )


def _checked(items: Iterable[Any] | None, of: type[T]) -> list[T]:
    got = list(items or ())  # a generator runs, and raises, here
    for item in got:
        if not isinstance(item, of):
            raise TypeError(f"gave {type(item).__name__}, {of.__name__} is wanted")
    return got
