"""`warmside habitat add`, `change` and `remove`: one thing of a set-up at a time."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from warmside.api import Answer, BadInput
from warmside.plugins.habitat.commands.stored import Found, changed
from warmside.plugins.habitat.described import editing
from warmside.plugins.habitat.described.asked import asked_of
from warmside.plugins.habitat.described.marks import BOX, Part, part_called
from warmside.plugins.habitat.described.typed import kind_called, table_of, values_of

Text = str | None
Which = Annotated[str, typer.Argument(help="Code or name of the enclosure.")]
MARK = "Its mark on the sheet: 3, H1, L1, V1, a zone's name, or box for the whole."
Mark = Annotated[str, typer.Argument(help=MARK)]
ZoneName = Annotated[Text, typer.Option(help="Zone in which it is.")]
Name = Annotated[Text, typer.Option(help="What it is called; of a light, what it is.")]
Left = Annotated[Text, typer.Option(help="From the left wall: 12cm.")]
Front = Annotated[Text, typer.Option(help="From the front.")]
Bottom = Annotated[Text, typer.Option(help="From the floor.")]
Width = Annotated[Text, typer.Option(help="Its width.")]
Depth = Annotated[Text, typer.Option(help="Its depth, from front to back.")]
Height = Annotated[Text, typer.Option(help="Its height.")]
Why = Annotated[Text, typer.Option(help="Why it is there.")]
Watts = Annotated[Text, typer.Option(help="Watts of a heat source.")]
Guard = Annotated[Text, typer.Option(help="Whether a guard is around a heat source: yes or no.")]
Thermostat = Annotated[Text, typer.Option(help="Whether a thermostat controls it: yes or no.")]
Reach = Annotated[Text, typer.Option(help="Whether the animal can reach it: yes or no.")]
ProbeAt = Annotated[Text, typer.Option(help="Where the thermostat's probe is.")]
Hours = Annotated[Text, typer.Option(help="Hours a day of a light; 12 unless said.")]
Leave = Annotated[Text, typer.Option(help="Whether the animal can leave the light: yes or no.")]
UvIndex = Annotated[Text, typer.Option(help="UV index where it basks, if measured.")]
Since = Annotated[Text, typer.Option(help="Since when the lamp is in use: 2026-03-01.")]
WallOf = Annotated[Text, typer.Option(help="Wall of a vent; of the box, what walls are of.")]
Area = Annotated[Text, typer.Option(help="Open area of a vent: 60cm2.")]
AirSpan = Annotated[Text, typer.Option(help="A zone's target for the air: 30C-32C.")]
DampSpan = Annotated[Text, typer.Option(help="A zone's target for humidity: 50%-60%.")]
WallThickness = Annotated[Text, typer.Option(help="How thick the walls are.")]
AirChanges = Annotated[Text, typer.Option(help="Changes of air an hour: 0.5-2.")]
Sensitive = Annotated[Text, typer.Option(help="Whether the animal bears light badly: yes or no.")]
OnDay = Annotated[Text, typer.Option(help="Since which day it is so; today.")]
Confirm = Annotated[bool, typer.Option("--confirm", help="It is right, though it looks odd.")]


def add(
    context: typer.Context,
    kind: Annotated[str, typer.Argument(help="hide, humid-hide, ledge, lamp, light, vent …")],
    enclosure: Which,
    zone: ZoneName = None,
    name: Name = None,
    left: Left = None,
    front: Front = None,
    bottom: Bottom = None,
    width: Width = None,
    depth: Depth = None,
    height: Height = None,
    why: Why = None,
    watts: Watts = None,
    guard: Guard = None,
    thermostat: Thermostat = None,
    reach: Reach = None,
    probe: ProbeAt = None,
    hours: Hours = None,
    leave: Leave = None,
    uv_index: UvIndex = None,
    since: Since = None,
    wall: WallOf = None,
    area: Area = None,
    air: AirSpan = None,
    humidity: DampSpan = None,
    on: OnDay = None,
    confirm: Confirm = False,
) -> Answer:
    """Add a hide, bowl, heat source, light, vent or zone; what is needed is asked on a terminal."""
    typed = _typed(locals())
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


def change(
    context: typer.Context,
    enclosure: Which,
    mark: Mark,
    zone: ZoneName = None,
    name: Name = None,
    left: Left = None,
    front: Front = None,
    bottom: Bottom = None,
    width: Width = None,
    depth: Depth = None,
    height: Height = None,
    why: Why = None,
    watts: Watts = None,
    guard: Guard = None,
    thermostat: Thermostat = None,
    reach: Reach = None,
    probe: ProbeAt = None,
    hours: Hours = None,
    leave: Leave = None,
    uv_index: UvIndex = None,
    since: Since = None,
    wall: WallOf = None,
    area: Area = None,
    air: AirSpan = None,
    humidity: DampSpan = None,
    wall_thickness: WallThickness = None,
    air_changes: AirChanges = None,
    light_sensitive: Sensitive = None,
    on: OnDay = None,
    confirm: Confirm = False,
) -> Answer:
    """Change what is said of one thing, of a zone, or of the box itself."""
    typed = _typed(locals())
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


def _typed(options: dict[str, Any]) -> dict[str, str]:
    """The options that were typed, without those that are of the command itself."""
    own = ("context", "kind", "enclosure", "mark", "on", "confirm")
    return {k: v for k, v in options.items() if k not in own and v is not None}


def _own_words(table: str, typed: dict[str, str]) -> dict[str, str]:
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
