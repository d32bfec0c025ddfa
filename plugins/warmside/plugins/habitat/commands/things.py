"""`warmside habitat add`, `change` and `remove`: one thing of a set-up at a time."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any

import typer

from warmside.api import Answer, BadInput
from warmside.plugins.habitat.commands.stored import Found, changed
from warmside.plugins.habitat.commands.thing_options import OF_BOX, THING, telling
from warmside.plugins.habitat.described import editing
from warmside.plugins.habitat.described.asked import asked_of
from warmside.plugins.habitat.described.marks import BOX, Part, part_called
from warmside.plugins.habitat.described.typed import kind_called, table_of, values_of

Which = Annotated[str, typer.Argument(help="Code or name of the enclosure.")]
MARK = "Its mark on the sheet: 3, H1, L1, V1, a zone's name, or box for the whole."
Mark = Annotated[str, typer.Argument(help=MARK)]
OnDay = Annotated[str | None, typer.Option(help="Since which day it is so; today.")]
Confirm = Annotated[bool, typer.Option("--confirm", help="It is right, though it looks odd.")]
Typed = Mapping[str, str]


@telling(THING)
def add(
    context: typer.Context,
    kind: Annotated[str, typer.Argument(help="hide, humid-hide, ledge, lamp, light, vent …")],
    enclosure: Which,
    typed: Typed,
    on: OnDay = None,
    confirm: Confirm = False,
) -> Answer:
    """Add a hide, bowl, heat source, light, vent or zone; what is needed is asked on a terminal."""
    what = kind_called(kind)
    table = table_of(what)

    def edit(text: str, found: Found) -> tuple[str, str]:
        for question in asked_of(what, found):
            answer = question.answered(typed.get(question.key))
            if question.check:
                question.check(answer)
        said = _own_words(table, typed)
        if table in ("fitting", "heat"):
            said = {"kind": what, "left": _begin(found, typed["zone"]), **said}
        values = values_of(table, said)
        return editing.with_added(text, table, values), f"{_named(what, values)} added"

    return changed(context, enclosure, on, confirm, edit)


@telling({**THING, **OF_BOX})
def change(
    context: typer.Context,
    enclosure: Which,
    mark: Mark,
    typed: Typed,
    on: OnDay = None,
    confirm: Confirm = False,
) -> Answer:
    """Change what is said of one thing, of a zone, or of the box itself."""
    if not typed:
        raise BadInput("nothing is changed: name what is other now, such as --watts 60")

    def edit(text: str, found: Found) -> tuple[str, str]:
        part = part_called(found, mark)
        values = values_of(part.table, _own_words(part.table, typed))
        new = editing.with_changed(text, part.table, part.number, values)
        if part.table == "zone" and "name" in values:
            new = _renamed(new, found, part, values["name"])
        return new, f"{part.words} changed"

    return changed(context, enclosure, on, confirm, edit)


def remove(
    context: typer.Context,
    enclosure: Which,
    mark: Mark,
    on: OnDay = None,
) -> Answer:
    """Take one thing out of the set-up; that it stood there stays on record."""

    def edit(text: str, found: Found) -> tuple[str, str]:
        part = part_called(found, mark)
        if part.mark == BOX:
            raise BadInput("the box itself is not taken out; warmside undo takes a step back")
        if part.table == "zone":
            _check_empty(found, part.mark)
        return editing.without(text, part.table, part.number), f"{part.words} taken out"

    return changed(context, enclosure, on, False, edit)


def _own_words(table: str, typed: Typed) -> Typed:
    """What a light is stands under `kind` in its table."""
    if table != "light":
        return typed
    return {"kind" if key == "name" else key: text for key, text in typed.items()}


def _begin(found: Found, zone: str) -> str:
    """Where a zone begins, as it is typed."""
    return f"{next(z.left for z in found.zones if z.name == zone) / 10:g}cm"


def _named(kind: str, values: dict[str, Any]) -> str:
    """What was added, in words: `hide in warm side`, `vent in back`, `zone middle`, `UVB tube`."""
    if kind == "zone":
        return f"zone {values['name']}"
    where = values.get("zone") or values.get("wall")
    name = values.get("name") or values.get("kind") or kind
    return f"{name} in {where}" if where else str(name)


def _renamed(text: str, found: Found, zone: Part, name: str) -> str:
    """The text in which what was in a zone is in the zone of its new name."""
    places = {"fitting": [f.zone for f in found.fittings], "heat": [h.zone for h in found.heats]}
    for table, zones in places.items():
        for number in (n for n, place in enumerate(zones) if place == zone.mark):
            text = editing.with_changed(text, table, number, {"zone": name})
    return text


def _check_empty(found: Found, zone: str) -> None:
    there = [f.name for f in found.fittings if f.zone == zone]
    there += [h.kind for h in found.heats if h.zone == zone]
    if there:
        raise BadInput(f"in {zone!r} are still: {', '.join(there)}; change or remove them first")
    if len(found.zones) == 1:
        raise BadInput(f"{zone!r} is the only zone; change it instead")
