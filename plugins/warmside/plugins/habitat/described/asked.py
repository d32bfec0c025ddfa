"""What has to be known of one part of a set-up, as questions in the order in which they are put."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import BadInput, Question, Unit, parse_quantity
from warmside.plugins.habitat.described.enclosure import FACES, WALLS, Enclosure
from warmside.plugins.habitat.described.typed import REASONS, said_yes, table_of

YES_NO = {
    "thermostat": "does a thermostat control it (yes or no)",
    "reach": "can the animal reach it (yes or no)",
    "guard": "is there a guard around it (yes or no)",
    "leave": "can the animal get out of that light whole (yes or no)",
}
SIZES = {"width": "its width", "depth": "its depth, from front to back", "height": "its height"}


def asked_of(kind: str, found: Enclosure) -> Iterator[Question]:
    """The questions about a new thing of a kind."""
    table = table_of(kind)
    if table == "zone":
        yield Question("name", "name of the zone, the coolest comes last", "--name")
        yield _length("left", "where it begins, from the left wall")
        yield _length("width", SIZES["width"])
        return
    if table in ("fitting", "heat"):
        yield _zone(found)
    if table == "fitting" or (table == "heat" and kind != "room"):
        for key, words in SIZES.items():
            yield _length(key, words)
    yield from _of_table(table, kind)
    yield Question("why", "why it is there", "--why", REASONS[kind])


def asked_of_box() -> Iterator[Question]:
    """The questions about the box itself."""
    for key, words in SIZES.items():
        yield _length(key, f"inner {words.removeprefix('its ')}")
    yield _among("wall", "what its walls are of", WALLS)
    yield _length("wall_thickness", "how thick the walls are")
    words = "zones from warm to cool with their widths (warm side 50cm, cool side 40cm)"
    yield Question("zones", words, "--zones", check=zones_typed)


def zones_typed(text: str) -> list[dict[str, str]]:
    """Zones side by side from the left, typed as `warm side 50cm, cool side 40cm`."""
    made, left = [], 0.0
    for one in text.split(","):
        name, _, width = one.strip().rpartition(" ")
        if not name:
            raise BadInput(f"{one.strip()!r} is no zone; type a name and its width: warm side 50cm")
        wide = parse_quantity(width, Unit.LENGTH, what=name)
        made.append({"name": name.strip(), "left": f"{left / 10:g}cm", "width": width})
        left += wide
    return made


def _of_table(table: str, kind: str) -> Iterator[Question]:
    if table == "heat" and kind != "room":
        yield Question("watts", "its watts", "--watts")
        for key in ("thermostat", "reach", "guard"):
            yield _yes(key)
    elif table == "heat":
        yield _yes("thermostat")
    elif table == "light":
        yield Question("name", "what light it is, such as UVB tube", "--name")
        yield _yes("leave")
    elif table == "vent":
        yield _among("wall", "in which wall it is", FACES)
        yield Question("area", "its open area, such as 60cm2", "--area", check=_area)


def _zone(found: Enclosure) -> Question:
    return _among("zone", "its zone", tuple(z.name for z in found.zones))


def _among(key: str, words: str, known: tuple[str, ...]) -> Question:
    def check(text: str) -> None:
        if text not in known:
            raise BadInput(f"{text!r} is none of: {', '.join(known)}")

    return Question(key, f"{words} ({', '.join(known)})", f"--{key}", check=check)


def _length(key: str, words: str) -> Question:
    def check(text: str) -> object:
        return parse_quantity(text, Unit.LENGTH, what=words)

    return Question(key, words, f"--{key.replace('_', '-')}", check=check)


def _yes(key: str) -> Question:
    return Question(key, YES_NO[key], f"--{key}", check=lambda text: said_yes(key, text))


def _area(text: str) -> object:
    return parse_quantity(text, Unit.AREA, what="the area")
