"""The plugins of one collection: loading them and calling their hooks one by one, guarded."""

from __future__ import annotations

import copy
import sys
import time
from collections.abc import Callable, Collection, Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager, redirect_stdout
from importlib import import_module
from typing import Any, TypeVar

import pluggy
from msgspec import Struct

from warmside.core.file.state import is_about_the_file
from warmside.core.kinds.kind import EventKind
from warmside.core.kinds.known import Kinds
from warmside.core.kinds.shared import SHARED_KINDS
from warmside.core.plugins.border import Border, wrong_kind
from warmside.core.plugins.collecting import Failure
from warmside.core.plugins.hookspecs import Hooks
from warmside.core.plugins.manifest import BadPlugin, Manifest, clashes
from warmside.core.record.book import Book
from warmside.core.values.errors import WarmsideError

T = TypeVar("T")
FAULTS: tuple[type[BaseException], ...] = (BaseException,)  # of a plugin, bar Ctrl-C
MARK = "warmside_impl"  # of pluggy's HookimplMarker("warmside")
ENDS = "it commits or rolls back by itself"
SHARED_BY_ALL = ("book", "ask", "writer")  # arguments that do not tell one call from another


class Circle(Exception):
    """Plugins that ask each other the same thing; the text names them."""


class Call(Struct, frozen=True):
    """A hook of a plugin that is being called, and with what."""

    plugin: str
    hook: str
    asked: tuple[Any, ...]


class Marks:
    """The functions of a plugin that are marked as hooks, and not all else that it imports.

    pluggy inspects each name of what is registered, of which a plugin's module has some ninety;
    that took a tenth of the time of a short command.
    """

    def __init__(self, module: object) -> None:
        vars(self).update({n: f for n, f in vars(module).items() if hasattr(f, MARK)})

    def __dir__(self) -> list[str]:
        """Nothing but the marked functions, by the names that they have in the module."""
        return list(vars(self))


Implementation = tuple[str, Callable[..., Any], tuple[str, ...]]
"""The plugin, its function, and the arguments that it names."""


class Host:
    """The enabled plugins; what fails is kept in `failures` and costs only its own items.

    `seconds` is the time that each plugin took in each hook, also while it waited for others.
    A host is for one request and one thread; for others, see `renewed`.
    """

    def __init__(self, plugins: Iterable[Manifest | BadPlugin] = ()) -> None:
        self.failures: list[Failure] = []
        self.manifests: dict[str, Manifest] = {}
        self.kinds = Kinds({k.name: k for k in SHARED_KINDS})
        self.seconds: dict[tuple[str, str], float] = {}
        self._calls: list[Call] = []
        self._found: dict[str, list[Implementation]] = {}
        self._manager = pluggy.PluginManager("warmside")
        self._manager.add_hookspecs(Hooks)
        offered = list(plugins)
        for problem in (p for p in offered if isinstance(p, BadPlugin)):
            self.failures.append(Failure(problem.plugin, "loading", problem.text))
        good = [p for p in offered if isinstance(p, Manifest)]
        for manifest in sorted(self._without_clashes(good), key=lambda m: m.name):
            self._load(manifest)
        self._add_kinds()
        self._in_loading = tuple(self.failures)

    def renewed(self) -> Host:
        """The same plugins for another request, with nothing failed, measured or being called."""
        other = copy.copy(self)
        other.failures = list(self._in_loading)
        other.seconds = {}
        other._calls = []
        return other

    def _without_clashes(self, plugins: list[Manifest]) -> list[Manifest]:
        clashing = clashes(plugins)
        for name, text in sorted(clashing.items()):
            self.failures.append(Failure(name, "loading", text))
        return [m for m in plugins if m.name not in clashing]

    def _load(self, manifest: Manifest) -> None:
        try:
            with _quiet():
                module = import_module(manifest.hooks)
            marks = Marks(module)
            self._check_hooks(marks)
            self._manager.register(marks, name=manifest.name)  # checks argument names
        except KeyboardInterrupt:
            raise
        except FAULTS as error:
            self.failures.append(Failure(manifest.name, "loading", told(error)))
            if self._manager.has_plugin(manifest.name):  # pluggy before 1.7 keeps a part of it
                self._manager.unregister(name=manifest.name)
        else:
            self.manifests[manifest.name] = manifest

    def _check_hooks(self, marks: Marks) -> None:
        for attribute in dir(marks):
            options = self._manager.parse_hookimpl_opts(marks, attribute)
            if options is None:
                continue
            name = options.get("specname") or attribute
            if not hasattr(self._manager.hook, name):
                raise WarmsideError(f"there is no hook {name}")
            if options.get("wrapper") or options.get("hookwrapper"):
                raise WarmsideError(f"{name}: a hook cannot wrap other plugins")

    def _add_kinds(self) -> None:
        for plugin, kind in self.collect("warmside_event_kinds", EventKind):
            problem = wrong_kind(plugin, kind, self.kinds)
            if problem:
                self.failures.append(Failure(plugin, "warmside_event_kinds", problem))
            else:
                self.kinds[kind.name] = kind

    def collect(
        self, hook: str, *kinds: type[T], of: Collection[str] | None = None, **arguments: Any
    ) -> list[tuple[str, T]]:
        """(plugin, item) of every implementation of an observer hook, plugins by name.

        `of` names the plugins to ask, of all that implement it.
        """
        found: list[tuple[str, T]] = []
        for plugin, function, names in self._implementations(hook):
            if of is not None and plugin not in of:
                continue
            try:
                items = self._called(plugin, hook, function, names, kinds, arguments)
            except KeyboardInterrupt:
                raise
            except FAULTS as error:
                if is_about_the_file(error, in_snapshot=True):
                    raise
                if isinstance(error, Wrote) and error.within_step:
                    raise stopped(plugin, hook, error) from error
                self._note(Failure(plugin, hook, told(error)))
            else:
                found += [(plugin, item) for item in items]
        return found

    def require(
        self, hook: str, *of: type[T], only: str | None = None, **arguments: Any
    ) -> list[tuple[str, T]]:
        """As `collect`, for an integral hook, of all or of one: the first failure is raised."""
        found: list[tuple[str, T]] = []
        for plugin, function, names in self._implementations(hook):
            if only not in (None, plugin):
                continue
            try:
                items = self._called(plugin, hook, function, names, of, arguments)
            except (WarmsideError, KeyboardInterrupt):
                raise
            except FAULTS as error:
                if is_about_the_file(error):
                    raise
                raise stopped(plugin, hook, error) from error
            found += [(plugin, item) for item in items]
        return found

    def takes(self, plugin: str, hook: str, argument: str) -> bool:
        """Whether a plugin's implementation of a hook names an argument."""
        named = (names for who, _, names in self._implementations(hook) if who == plugin)
        return any(argument in names for names in named)

    def _called(
        self,
        plugin: str,
        hook: str,
        function: Callable[..., Any],
        names: tuple[str, ...],
        of: tuple[type[T], ...],
        arguments: dict[str, Any],
    ) -> list[T]:
        manifest = self.manifests[plugin]
        codes = frozenset(code for code, _ in manifest.findings)
        border = Border(plugin, codes, self.kinds, arguments.get("book"))
        asked = tuple(v for n, v in arguments.items() if n not in SHARED_BY_ALL)
        watched = None if self._calls or "writer" in arguments else arguments.get("book")
        call = Call(plugin, hook, asked)
        with self._guarded(call), _ending_nothing(arguments), _only_reading(watched), _quiet():
            given = function(*[arguments[n] for n in names])
            return border.checked(given, of)  # a generator works on here

    @contextmanager
    def _guarded(self, call: Call) -> Iterator[None]:
        """Measure the call; raise Circle where it is being answered already."""
        if call in self._calls:
            names = [c.plugin for c in self._calls[self._calls.index(call) :]]
            around = " asks ".join((*names, call.plugin))
            raise Circle(f"{around} the same ({call.hook.removeprefix('warmside_')})")
        self._calls.append(call)
        began = time.perf_counter()
        try:
            yield
        finally:
            self._calls.pop()
            key = call.plugin, call.hook
            self.seconds[key] = self.seconds.get(key, 0.0) + time.perf_counter() - began

    def _implementations(self, hook: str) -> list[Implementation]:
        if hook not in self._found:  # hooks are called for each animal, plugins stay as they are
            caller: pluggy.HookCaller = getattr(self._manager.hook, hook)
            found = [(i.plugin_name, i.function, i.argnames) for i in caller.get_hookimpls()]
            self._found[hook] = sorted(found, key=lambda i: i[0])
        return self._found[hook]

    def _note(self, failure: Failure) -> None:
        if failure not in self.failures:  # a hook called for each animal is named once
            self.failures.append(failure)


class Wrote(Exception):
    """A hook that only reads has written, or taken off what keeps it from writing."""

    def __init__(self, text: str, within_step: bool) -> None:
        super().__init__(text)
        self.within_step = within_step


def _quiet() -> AbstractContextManager[object]:
    """Whatever a plugin prints goes to stderr: the answer alone is on stdout."""
    return redirect_stdout(sys.stderr)


@contextmanager
def _only_reading(book: Book | None) -> Iterator[None]:
    """Raise Wrote where a hook that got no writer changed the file past it."""
    before = book.watch() if book is not None else None
    yield
    if book is not None and book.watch() != before:
        raise Wrote(
            "it wrote past the step, or took off the guard; look with: warmside file check",
            within_step=not book.shut(),
        )


@contextmanager
def _ending_nothing(arguments: dict[str, Any]) -> Iterator[None]:
    """Raise Wrote where a hook tried to end the step, also where it passed over the refusal."""
    writer = arguments.get("writer")
    book: Book | None = arguments.get("book") if writer is None else writer.book
    before = book.endings() if book is not None else 0
    try:
        yield
    except WarmsideError:
        raise
    except Exception as error:
        if book is not None and book.endings() > before:
            raise Wrote(ENDS, within_step=True) from error
        raise
    if book is not None and book.endings() > before:
        raise Wrote(ENDS, within_step=True)


def told(error: BaseException) -> str:
    """An exception in one line."""
    try:
        text = " ".join(str(error).split())
    except Exception:  # one whose text cannot even be told
        text = "(without words)"
    plain = isinstance(error, WarmsideError | Circle | Wrote)
    return text if plain else f"{type(error).__name__}: {text}"


def stopped(plugin: str, hook: str, error: BaseException) -> WarmsideError:
    """What an integral hook's failure means for the keeper."""
    return WarmsideError(
        f"{Failure(plugin, hook, told(error))}; nothing was recorded; "
        f"to go on without it: warmside --without {plugin} ..."
    )
