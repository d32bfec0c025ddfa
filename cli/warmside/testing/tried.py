"""A plugin at work in small collections, for the checks of `check_plugin`."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from datetime import timedelta
from functools import cached_property
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from msgspec import Struct

from warmside.core.asking.checks import plugin_checks
from warmside.core.plugins.collecting import Failure
from warmside.core.plugins.manifest import Manifest
from warmside.core.plugins.sheets import Sheet
from warmside.core.values.about import NOBODY, About
from warmside.testing.keeper import Keeper, copy_of, new_keeper

Typed = Sequence[Sequence[str | int | Path]]
NOT_COMPARED = {"step", "change", "touched", "seal", "sqlite_sequence"}  # undo is a step itself
COLLECTION = (  # invented
    ("enclosure", "add", "Shelf", "--code", "SHE", "--width", "60cm", "--depth", "45cm"),
    ("enclosure", "add", "Empty box", "--code", "BOX"),
    ("animal", "add", "Ember", "--species", "ball python", "--sex", "female", "--enclosure", "SHE"),
    ("animal", "add", "Moss", "--species", "leopard gecko", "--hatched", "2025-06"),
    ("record", "weighed", "EMB=412g", "MOS=31g"),
)


class Tried:
    """A plugin, a folder for its collections, and what a keeper types to try it."""

    def __init__(self, manifest: Manifest, folder: Path, setup: Typed, typed: Typed) -> None:
        self.manifest = manifest
        self.folder = folder
        self.setup = setup
        self.typed = typed

    @property
    def name(self) -> str:
        """The plugin's name."""
        return self.manifest.name

    @property
    def package(self) -> str:
        """The package that holds the plugin's parts."""
        return self.manifest.hooks.rpartition(".")[0]

    @property
    def sources(self) -> list[Path]:
        """The files of the package; none where the plugin is made of functions in a test."""
        found = find_spec(self.package) if self.package else None
        folders = (found.submodule_search_locations if found else None) or ()
        return sorted(path for folder in folders for path in Path(folder).rglob("*.py"))

    @cached_property
    def empty(self) -> Keeper:
        """A keeper with the plugin enabled in an empty collection."""
        folder = self.folder / "empty"
        folder.mkdir()
        return new_keeper(folder, plugins=[self.name])

    @cached_property
    def filled(self) -> Keeper:
        """A keeper with an animal in an enclosure, one in none, an empty enclosure, the setup."""
        keeper = copy_of(self.empty, self.folder / "filled")
        for words in (*COLLECTION, *self.setup):
            keeper.run(*words)
        return keeper

    @cached_property
    def used(self) -> Keeper:
        """As `filled`, with all typed that the plugin is tried with."""
        keeper = copy_of(self.filled, self.folder / "used")
        for words in self.typed:
            keeper.run(*words)
        return keeper

    def copy(self, keeper: Keeper, name: str) -> Keeper:
        """The same collection in a folder of its own."""
        return copy_of(keeper, self.folder / name)


Check = Callable[[Tried], Iterator[str]]


class Contents(Struct, frozen=True):
    """The rows of every table of a file."""

    tables: dict[str, list[tuple[Any, ...]]]

    def of(self, plugin: str) -> dict[str, list[tuple[Any, ...]]]:
        """Those of the plugin's own tables."""
        return {t: rows for t, rows in self.tables.items() if t.startswith(f"{plugin}_")}

    def differing(self, other: Contents) -> list[str]:
        """The tables whose rows are not the same."""
        names = sorted({*self.tables, *other.tables})
        return [n for n in names if self.tables.get(n) != other.tables.get(n)]


def contents(path: Path, *, whole: bool = False) -> Contents:
    """The rows of a file; `whole` with those that serve undo."""
    with closing(sqlite3.connect(path)) as connection:
        names = [
            r[0] for r in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")
        ]
        kept = [n for n in names if whole or (n not in NOT_COMPARED and not n.endswith("_shelf"))]
        rows = {n: sorted(connection.execute(f'SELECT * FROM "{n}"'), key=repr) for n in kept}
    return Contents(rows)


def tour(keeper: Keeper, manifest: Manifest) -> list[Failure]:
    """Ask every observer hook about everyone, on several days; what failed of the plugin."""
    with keeper.ask() as ask:
        book = ask.book
        subjects = [About(a) for a in book.animals]
        subjects += [About(enclosure_id=e) for e in book.enclosures]
        for on in (book.today + timedelta(days=n) for n in (0, -400, 400)):
            ask.round(on)
            ask.findings(on)
            for about in subjects:
                ask.findings(on, about)
                ask.label_lines(about, on)
                ask.sections(about, on)
                for answer in manifest.answers:
                    ask.answers(answer.what, about, on)
        for sheet in Sheet:
            one = sheet in (Sheet.VET, Sheet.OWNER)
            for about in [s for s in subjects if s.animal_id] if one else [NOBODY]:
                ask.sheet_sections(sheet, book.today, book.today + timedelta(days=7), about)
        texts = (f"{k}.{s.key}" for k in ask.kinds for s in ask.kinds[k].fields if not s.choices)
        ask.unknown_words({field: {"a word": 1} for field in texts})
        list(plugin_checks(ask))
        return [f for f in ask.host.failures if f.plugin == manifest.name]
