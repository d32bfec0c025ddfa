"""The labels of a kind for all that were chosen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from warmside.api import Animal, BadInput, Book, Enclosure, NotFound, near_miss
from warmside.plugins.labels.choosing import Choice, chosen_animals, chosen_enclosures
from warmside.plugins.labels.content import (
    LINE_KEYS,
    Label,
    LabelKind,
    animal_card,
    enclosure_label,
    lines_of,
    pick_lines,
)
from warmside.plugins.labels.gathering import Gatherer, Residents
from warmside.plugins.labels.signs import door_sign, find_hazard, hazard_sign, hazards, sitter_strip

ALL_KEYS = tuple(dict.fromkeys(key for keys in LINE_KEYS.values() for key in keys))


@dataclass(frozen=True, slots=True)
class Ready:
    """A label, and the names of those it is about."""

    label: Label
    who: str


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be printed: the kind, for whom, its lines (empty for all), a danger by name."""

    kind: LabelKind
    choice: Choice
    lines: str = ""
    hazard: str = ""


def ready_labels(book: Book, wanted: Wanted, on: date) -> tuple[list[Ready], list[str]]:
    """The labels in the order of the print, and warnings about lines that nobody gives."""
    gatherer = Gatherer(book, on)
    settings = book.settings("labels")
    if wanted.kind is LabelKind.ANIMAL:
        made = [_card(gatherer, a, settings) for a in chosen_animals(book, wanted.choice, on)]
    else:
        make = _MAKERS[wanted.kind]
        places = chosen_enclosures(book, wanted.choice, on)
        found = (make(gatherer, place, settings, wanted) for place in places)
        made = [ready for ready in found if ready is not None]
    if not made:
        raise NotFound(_NOBODY[wanted.kind])
    keys = picked_keys(wanted.lines or settings[f"{wanted.kind.value}_lines"])
    if not keys:
        return [Ready(_without_extra(r.label), r.who) for r in made], []
    picked = [Ready(pick_lines(r.label, keys, ALL_KEYS), r.who) for r in made]
    return picked, _missing(keys, made)


def picked_keys(text: str) -> list[str]:
    """The keys of lines that were typed with commas, each once."""
    return list(dict.fromkeys(key for part in text.split(",") if (key := part.strip().lower())))


def _missing(keys: Sequence[str], made: Sequence[Ready]) -> list[str]:
    """What is said of plugins' lines that no label of this print has."""
    there = {line.key for ready in made for line in ready.label.lines}
    return [
        f"no plugin gives a line {key!r}{near_miss(key, there)} for these labels; "
        "see: warmside labels lines"
        for key in keys
        if "." in key and key not in there
    ]


def _without_extra(label: Label) -> Label:
    """The label with the lines of its kind only; plugins' lines are printed when picked."""
    return replace(label, lines=tuple(x for x in label.lines if x.key in LINE_KEYS[label.kind]))


def _card(gatherer: Gatherer, animal: Animal, settings: dict[str, Any]) -> Ready:
    about = gatherer.of_animal(animal)
    card = animal_card(
        about.occupants[0],
        contact=settings["contact"],
        vet=settings["vet"],
        prefix=settings["url_prefix"],
        extra=lines_of(*about.extra()),
    )
    return Ready(card, animal.name)


def _who(place: Enclosure, about: Residents) -> str:
    return ", ".join(about.lines) or place.name


def _enclosure(
    gatherer: Gatherer, place: Enclosure, settings: dict[str, Any], wanted: Wanted
) -> Ready:
    about = gatherer.of_enclosure(place)
    label = enclosure_label(
        place.code,
        about.occupants,
        room=place.room,
        prefix=settings["url_prefix"],
        extra=lines_of(*about.extra()),
    )
    return Ready(label, _who(place, about))


def _door(
    gatherer: Gatherer, place: Enclosure, settings: dict[str, Any], wanted: Wanted
) -> Ready | None:
    """A quarantine sign; unless named, only where a plugin says since when."""
    about = gatherer.of_enclosure(place)
    since = "; ".join(about.listed("since"))
    if not since and not wanted.choice.is_named:
        return None
    sign = door_sign(
        place.code,
        since=since,
        earliest_end="; ".join(about.listed("end")),
        tools="; ".join(about.listed("tools")),
        occupants=about.occupants,
        prefix=settings["url_prefix"],
        extra=lines_of(*about.extra()),
    )
    return Ready(sign, _who(place, about))


def _hazard(
    gatherer: Gatherer, place: Enclosure, settings: dict[str, Any], wanted: Wanted
) -> Ready | None:
    """A danger sign; unless named, only where a danger is noted."""
    about = gatherer.of_enclosure(place)
    noted = about.listed("hazard")
    if not wanted.hazard and not noted and not wanted.choice.is_named:
        return None
    if not wanted.hazard and not noted:
        known = ", ".join(h.name for h in hazards())
        raise BadInput(
            f"no danger is noted for {place.code}; add --hazard with one of: {known}; or keep it: "
            f"warmside labels note {place.code} hazard DANGER"
        )
    danger = find_hazard(wanted.hazard or _gravest(noted))
    sign = hazard_sign(
        place.code,
        danger,
        what=", ".join(dict.fromkeys(o.species for o in about.occupants)),
        keeper=settings["contact"],
        licence=settings["licence"],
        occupants=about.occupants,
        prefix=settings["url_prefix"],
        extra=lines_of(*about.extra()),
    )
    return Ready(sign, _who(place, about))


def _gravest(noted: Sequence[str]) -> str:
    """Of several dangers behind one door the one that the shipped table names first."""
    known = [hazard.name for hazard in hazards()]
    return min(noted, key=lambda name: known.index(name) if name in known else -1)


def _sitter(
    gatherer: Gatherer, place: Enclosure, settings: dict[str, Any], wanted: Wanted
) -> Ready | None:
    """A sitter's strip; unless named, only where somebody lives."""
    about = gatherer.of_enclosure(place, coming=True)
    if not about.occupants and not wanted.choice.is_named:
        return None
    general = [text.strip() for text in settings["do_nots"].split(";")]
    strip = sitter_strip(
        place.code,
        about.occupants,
        meal=about.slot("meal"),
        misting=about.slot("misting"),
        do_nots=[text for text in (*about.listed("donot"), *general) if text],
        contact=settings["contact"],
        prefix=settings["url_prefix"],
        extra=lines_of(*about.extra()),
    )
    return Ready(strip, _who(place, about))


_MAKERS: dict[LabelKind, Callable[[Gatherer, Enclosure, dict[str, Any], Wanted], Ready | None]] = {
    LabelKind.ENCLOSURE: _enclosure,
    LabelKind.DOOR: _door,
    LabelKind.HAZARD: _hazard,
    LabelKind.SITTER: _sitter,
}
_NOBODY = {
    LabelKind.ENCLOSURE: "no enclosure to label",
    LabelKind.ANIMAL: "no animal to label",
    LabelKind.DOOR: "none of these is in quarantine; name an enclosure for an empty sign: "
    "--enclosure CODE",
    LabelKind.HAZARD: "no danger is noted for any of these; note it: warmside labels note CODE "
    "hazard venomous",
    LabelKind.SITTER: "nobody lives in any of these; name an enclosure: --enclosure CODE",
}
