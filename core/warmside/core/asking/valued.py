"""Settings for the whole collection, a species, an enclosure or an animal: the narrowest wins.

An animal's own comes before its enclosure's, before what the keeper set for its species, before
what a plugin ships for the species, before what was set for the collection, before the default.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from warmside.core.plugins.discovery import load_object
from warmside.core.plugins.hook_values import ShippedValue
from warmside.core.plugins.manifest import Manifest, Setting
from warmside.core.record.book import Book
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Mark, Source
from warmside.core.values.errors import NotFound
from warmside.core.values.estimates import Valued
from warmside.core.values.hints import near_miss

KEEPER = Source("set by the keeper", Mark.KEEPERS_OWN)
Scoped = dict[tuple[str, str, str, int], tuple[Any, str]]


def settings_of(manifests: Mapping[str, Manifest], plugin: str) -> tuple[Setting, ...]:
    """The settings that a plugin at work declares; raises NotFound for one that is not."""
    if plugin not in manifests:
        raise NotFound(f"plugin {plugin!r} is not at work; see: warmside plugin list")
    return manifests[plugin].settings


def setting_named(manifest: Manifest, name: str) -> Setting:
    """The declared setting of that name; near misses are suggested."""
    for setting in manifest.settings:
        if setting.name == name:
            return setting
    known = [s.name for s in manifest.settings]
    raise NotFound(
        f"{manifest.name} has no setting {name!r}{near_miss(name, known)}; "
        f"see: warmside plugin show {manifest.name}"
    )


def all_settings(
    book: Book, manifests: Mapping[str, Manifest], plugin: str
) -> dict[str, str | int | float | bool]:
    """All settings of a plugin for the whole collection, by name."""
    stored = book.stored_settings.get(plugin, {})
    return {s.name: stored.get(s.name, s.default) for s in settings_of(manifests, plugin)}


def valued(
    book: Book, manifests: Mapping[str, Manifest], plugin: str, name: str, about: About
) -> Valued:
    """The value that holds for a subject, with its basis and scope."""
    settings_of(manifests, plugin)
    manifest = manifests[plugin]
    setting = setting_named(manifest, name)
    for scope, found, source in _narrower(book, manifest, setting, about):
        return Valued(found, Basis(f"{plugin} {name} for the {scope}", source), scope)
    make = lambda: _for_all(book, plugin, setting)  # noqa: E731
    return book.once(("value for all", plugin, name), make)


def _for_all(book: Book, plugin: str, setting: Setting) -> Valued:
    """The value where nothing narrower is set: the collection's, else the default."""
    name, stored = setting.name, book.stored_settings.get(plugin, {})
    if name in stored:
        return Valued(stored[name], Basis(f"{plugin} {name}", KEEPER), "collection")
    return Valued(setting.default, Basis(f"{plugin} {name}", declared(setting)), "default")


def _narrower(
    book: Book, manifest: Manifest, setting: Setting, about: About
) -> Iterator[tuple[str, Any, Source]]:
    """Values set more narrowly, the narrowest first."""
    if not setting.per:
        return
    kept = _kept(book)
    if not kept and not manifest.values:
        return
    species = _species_of(book, about)
    places = (
        ("animal", about.animal_id),
        ("enclosure", _enclosure_of(book, about)),
        ("species", species),
    )
    for scope, id in places:
        found = kept.get((manifest.name, setting.name, scope, id)) if id is not None else None
        if found is not None:
            value, note = found
            yield scope, value, _keepers(note)
    if species is not None and manifest.values:
        for row in shipped(book, manifest).get(book.species[species].scientific, {}).values():
            if row.name == setting.name:
                yield "species", row.value, row.source


def anything_narrow(book: Book, plugin: str) -> bool:
    """Whether the keeper set any value of a plugin more narrowly than for the collection."""
    make = lambda: any(key[0] == plugin for key in _kept(book))  # noqa: E731
    return book.once(("narrow values", plugin), make)


def stored_narrowly(
    book: Book, manifest: Manifest, setting: Setting
) -> Iterator[tuple[str, str, Any, Source]]:
    """Scope, whom, value and source of all that is set or shipped for one of the collection."""
    known = {
        "species": {s.id: s.scientific for s in book.species.values()},
        "enclosure": {e.id: e.code for e in book.enclosures.values()},
        "animal": {a.id: a.label for a in book.animals.values()},
    }
    mine = set()
    for (plugin, name, scope, id), (value, note) in _scoped(book).items():
        if (plugin, name) == (manifest.name, setting.name):
            mine.add(known[scope][id])
            yield scope, known[scope][id], value, _keepers(note)
    if manifest.values:
        for species, rows in shipped(book, manifest).items():
            row = rows.get(setting.name)
            if row is not None and species not in mine:
                yield "species", species, row.value, row.source


def _keepers(note: str) -> Source:
    return Source(f"{KEEPER.text}: {note}", KEEPER.mark) if note else KEEPER


def _kept(book: Book) -> Scoped:
    return book.once("scoped values", lambda: _scoped(book))


def _scoped(book: Book) -> Scoped:
    """Value and note by plugin, name, scope and id."""
    found: Scoped = {}
    rows = book.rows(
        "SELECT plugin, name, species_id, enclosure_id, animal_id, value, note FROM scoped_value"
    )
    for plugin, name, species, enclosure, animal, text, note in rows:
        scopes = (("species", species), ("enclosure", enclosure), ("animal", animal))
        ((scope, id),) = ((s, i) for s, i in scopes if i is not None)
        found[plugin, name, scope, id] = json.loads(text), note
    return found


def shipped(book: Book, manifest: Manifest) -> Mapping[str, Mapping[str, ShippedValue]]:
    """The values that a plugin ships: scientific name → setting → value."""

    def make() -> dict[str, dict[str, ShippedValue]]:
        found: dict[str, dict[str, ShippedValue]] = {}
        for row in load_object(manifest.values or "")():
            found.setdefault(row.species, {})[row.name] = row
        return found

    return book.once(("shipped values", manifest.name), make)


def declared(setting: Setting) -> Source:
    """The source of a default, from its text with the mark in brackets behind."""
    text, _, mark = setting.source.rstrip(")]").replace("[", "(").rpartition("(")
    marks = {m.value: m for m in Mark}
    return Source(text.strip() or setting.source, marks.get(mark, Mark.COMMON_PRACTICE))


def _species_of(book: Book, about: About) -> int | None:
    return book.animals[about.animal_id].species.id if about.animal_id is not None else None


def _enclosure_of(book: Book, about: About) -> int | None:
    if about.enclosure_id is not None or about.animal_id is None:
        return about.enclosure_id
    return book.whereabouts()[about.animal_id].enclosure_id
