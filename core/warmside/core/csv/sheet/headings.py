"""What the heading of a column says: what its cells are, and in which unit."""

from __future__ import annotations

import re

from msgspec import Struct

from warmside.core.csv.sheet.usual_words import folded

DATE, TIME, ANIMAL, PLACE, KIND, VALUE, NOTE = (
    *("date", "time", "animal", "enclosure"),
    *("kind", "value", "note"),
)
"""Roles of a column besides a field of a kind, such as `weighed.mass`."""

_WORDS: dict[str, str] = {
    DATE: "date|day|when|datum|tag|date fed|date weighed|feed date|feeding date|shed date|dated",
    TIME: "time|clock|hour|uhrzeit",
    ANIMAL: "animal|name|snake|gecko|lizard|tortoise|turtle|pet|reptile|id|code|animal id|who|tier"
    "|dragon|skink|animal name|boa|python|snake name|snake id",
    PLACE: "enclosure|tank|viv|vivarium|terrarium|rack|tub|cage|box|bin",
    KIND: "kind|event|type|action|activity|what|entry|event type|record",
    VALUE: "value|detail|details|description|result|reading|how much",
    NOTE: "note|notes|comment|comments|remark|remarks|observations|bemerkung|notiz|memo|misc",
    "weighed.mass": "weight|mass|wt|body weight|body mass|weigh|gewicht|weights|bw|current weight",
    "measured.total": "length|total length|tl|overall length",
    "measured.snout_vent": "svl|snout vent|snout to vent|snout-vent length",
    "measured.girth": "girth",
    "fed.item": "food|prey|feeder|feeders|item|prey item|meal|offered|diet|prey type|food item"
    "|futter|food type|food offered|feeder type|prey offered",
    "fed.": "fed|feeding|feed|feedings|fütterung",
    "fed.size": "size|feeder size|food size|prey size|size of prey",
    "fed.count": "qty|count|number|quantity|how many|#|no.|no|pieces|qty fed|number fed",
    "fed.mass": "prey weight|prey mass|food weight|feeder weight|meal weight|prey wt",
    "fed.outcome": "eaten|ate|taken|accepted|outcome|took|gefressen|eaten y/n|y/n/r|response"
    "|ate y/n|accepted y/n|took it|fed y/n|eaten (y/n)|eaten (y/n/r)",
    "shed.outcome": "shed|sheds|shed quality|slough|shed skin|shed complete|häutung|shed y/n",
    "shedding.stage": "blue|in blue|opaque|pre-shed",
    "defecated.looks": "poop|poo|defecated|feces|faeces|droppings|stool|pooped|defecation",
    "cleaned.extent": "cleaned|clean|cleaning|cage cleaned|tub cleaned",
    "watered.": "water|watered|water changed|fresh water|water change",
    "misted.": "misted|mist|misting",
    "climate.warm": "warm|hot side|warm side|basking|hot spot|warm end|hot end|warm temp|hot",
    "climate.cool": "cool|cool side|cool end|cold side|cool temp",
    "climate.humidity": "humidity|rh|hum|relative humidity",
    "condition.score": "condition|body condition|bcs|condition score",
}
_ROLES = {word: role for role, words in _WORDS.items() for word in words.split("|")}
_UNITS = {
    **dict.fromkeys(("g", "gr", "gm", "gms", "gram", "grams", "gramm"), "g"),
    **dict.fromkeys(("kg", "kgs", "kilo", "kilos"), "kg"),
    **dict.fromkeys(("oz", "ounce", "ounces"), "oz"),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), "lb"),
    **{u: u for u in ("mm", "cm", "m", "in", "ft")},
    **dict.fromkeys(("inch", "inches"), "in"),
    **dict.fromkeys(("c", "°c", "deg c"), "C"),
    **dict.fromkeys(("f", "°f", "deg f"), "F"),
    "%": "%",
}
_MASSES = ("g", "kg", "oz", "lb")
_IN_BRACKETS = re.compile(r"\s*[(\[]\s*([^)\]]*?)\s*[)\]]\s*")
_AFTER = re.compile(r"(?:\s+|\s*[,/]\s*|\s*_)(?:in\s+)?([^\s_]+)$")


class Heading(Struct, frozen=True):
    """The role of a column, empty where the heading does not tell; and the unit of its numbers."""

    role: str = ""
    unit: str = ""


def heading_of(text: str) -> Heading:
    """What a heading such as `Weight (g)`, `wt_g`, `Eaten?` or `Grams` says."""
    plain = folded(text)
    if plain in _ROLES:
        return Heading(_ROLES[plain])
    if plain in _UNITS and len(plain) > 1:
        unit = _UNITS[plain]
        return Heading("weighed.mass", unit) if unit in _MASSES else Heading()
    inside = _IN_BRACKETS.search(plain)
    bare = folded(_IN_BRACKETS.sub(" ", plain)) if inside else plain
    unit = _UNITS.get(inside[1].removeprefix("in "), "") if inside else ""
    if not inside and (after := _AFTER.search(plain)) and after[1] in _UNITS:
        bare, unit = folded(plain[: after.start()]), _UNITS[after[1]]
    return Heading(_ROLES.get(bare.replace("_", " "), ""), unit)


def unit_named(word: str) -> str:
    """The unit that a word stands for; empty where for none."""
    return _UNITS.get(folded(word), "")
