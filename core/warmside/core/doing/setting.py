"""Changing a plugin's setting, for the whole collection, a species, an enclosure or an animal."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from msgspec import Struct

from warmside.core.answers.parts import Answer, said
from warmside.core.asking.ask import Ask
from warmside.core.asking.own_values import CORE, with_own
from warmside.core.asking.subjects.plugin_cards import shown_value
from warmside.core.asking.subjects.recorded import TAKE_BACK
from warmside.core.asking.valued import setting_named
from warmside.core.plugins.discovery import load_object
from warmside.core.plugins.manifest import Manifest, Setting, setting_value
from warmside.core.record import tables
from warmside.core.record.book import Book
from warmside.core.record.steps import StepWriter
from warmside.core.session.session import Session
from warmside.core.values.about import NOBODY, About
from warmside.core.values.errors import BadInput, NotFound, Refused
from warmside.core.values.hints import plain_text
from warmside.core.values.quantities import Display, parse_quantity

SWITCHES = {"yes": True, "true": True, "on": True, "no": False, "false": False, "off": False}


class NewValue(Struct, frozen=True):
    """A setting and its typed value, or `default`; for whom, if not for the whole collection.

    At most one of `species`, `enclosure` and `animal` is named. `note` says where it comes from.
    """

    plugin: str
    name: str
    text: str
    species: str | None = None
    enclosure: str | None = None
    animal: str | None = None
    note: str = ""


def set_value(session: Session, wanted: NewValue, manifest: Manifest) -> Answer:
    """Store the value, or go back to the wider one."""
    setting = setting_named(manifest, wanted.name)
    with session.read() as book:
        display = book.home.display
    value = typed_value(setting, wanted.text, display)
    if wanted.plugin not in with_own(session.open().host.manifests):
        raise Refused(
            f"{wanted.plugin} is not enabled; "
            f"enable it first: warmside plugin enable {wanted.plugin}"
        )
    told = "default" if value is None else value
    with session.step(f"{_owner(wanted)}{wanted.name} = {told}") as writer:
        scope = _scope(writer.book, wanted, setting)
        if scope:
            _store_narrowly(writer, wanted, scope, value)
            writer.say(f"{_owner(wanted)}{wanted.name} = {told} for {_whom(wanted)}")
        else:
            _store(writer, wanted, value)
    with session.ask() as ask:
        return _answer(ask, wanted, setting, scope)


def typed_value(setting: Setting, text: str, display: Display) -> Any:
    """The typed value of a setting, checked; None for `default`. Bare numbers are as shown."""
    if text == "default":
        return None
    typed = plain_text(f"setting {setting.name}", text)
    value = setting_value(setting, _typed(setting, typed, display), display)
    if setting.check:
        load_object(setting.check)(value)
    return value


def _typed(setting: Setting, text: str, display: Display) -> object:
    if setting.unit is not None:
        value = parse_quantity(text, setting.unit, display=display, what=f"setting {setting.name}")
        return int(value) if isinstance(setting.default, int) and value.is_integer() else value
    if isinstance(setting.default, bool):
        return SWITCHES.get(text.lower(), text)
    for kind in (int, float):
        if isinstance(setting.default, kind):
            try:
                return kind(text)
            except ValueError:
                raise BadInput(f"setting {setting.name} is a number, not {text!r}") from None
    return text


def _owner(wanted: NewValue) -> str:
    return "" if wanted.plugin == CORE.name else f"{wanted.plugin}: "


def _whom(wanted: NewValue) -> str | None:
    return wanted.animal or wanted.enclosure or wanted.species


def _scope(book: Book, wanted: NewValue, setting: Setting) -> dict[str, int]:
    """The id for which it is set, under its column; nothing for the whole collection."""
    given = [s for s in ("species", "enclosure", "animal") if getattr(wanted, s)]
    if not given:
        return {}
    if len(given) > 1:
        raise BadInput(f"set {wanted.name} for one of them: {', '.join(given)}")
    (scope,) = given
    if scope not in setting.per:
        allowed = ", ".join(setting.per) or "the whole collection only"
        raise BadInput(f"{wanted.name} cannot be set for one {scope}; it can be for: {allowed}")
    find: dict[str, Callable[[str], Any]] = {
        "species": book.species_named,
        "enclosure": book.enclosure,
        "animal": book.animal,
    }
    return {f"{scope}_id": find[scope](getattr(wanted, scope)).id}


def _store(writer: StepWriter, wanted: NewValue, value: Any) -> None:
    stored = dict(writer.book.stored_settings.get(wanted.plugin, {}))
    stored.pop(wanted.name, None)
    if value is not None:
        stored[wanted.name] = value
    key = {"name": wanted.plugin}
    writer.change(tables.plugin_state, key, settings=json.dumps(stored))


def _store_narrowly(
    writer: StepWriter, wanted: NewValue, scope: dict[str, int], value: Any
) -> None:
    ((column, id),) = scope.items()
    rows = writer.book.rows(
        f"SELECT id FROM scoped_value WHERE plugin = ? AND name = ? AND {column} = ?",
        (wanted.plugin, wanted.name, id),
    )
    values = {"value": json.dumps(value), "note": plain_text("note", wanted.note)}
    if value is None and not rows:
        raise NotFound(f"{wanted.name} is not set for {_whom(wanted)}; nothing to take away")
    if value is None:
        writer.remove(tables.scoped_value, {"id": rows[0][0]})
    elif rows:
        writer.change(tables.scoped_value, {"id": rows[0][0]}, **values)
    else:
        names = {"plugin": wanted.plugin, "name": wanted.name}
        writer.insert(tables.scoped_value, **names, **scope, **values)


def _answer(ask: Ask, wanted: NewValue, setting: Setting, scope: dict[str, int]) -> Answer:
    """What holds now; for a species, what was stored."""
    about = NOBODY
    if "animal_id" in scope or "enclosure_id" in scope:
        about = About(**scope)
    value = ask.value(wanted.plugin, wanted.name, about).value
    if "species_id" in scope:
        value = typed_value(setting, wanted.text, ask.book.home.display)
    told = "as shipped" if value is None else shown_value(setting, value, ask.book.home.display)
    whom = f" for {_whom(wanted)}" if scope else ""
    return said(f"{_owner(wanted)}{wanted.name} is now {told}{whom}", hints=[TAKE_BACK])
