"""The label of a kind for an animal or an enclosure, from who is on it and the settings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from msgspec import Struct

from warmside.api import BadInput, Enclosure
from warmside.plugins.labels.content.animals import animal_card, enclosure_label
from warmside.plugins.labels.content.hazards import find_hazard, gravest, hazards
from warmside.plugins.labels.content.label import Label, LabelKind
from warmside.plugins.labels.content.picking import Ready
from warmside.plugins.labels.content.residents import Residents
from warmside.plugins.labels.content.signs import door_sign, hazard_sign, sitter_strip


class Subject(Struct, frozen=True):
    """An enclosure, who is in it, the settings as they hold there, and what was typed.

    `named` says that it was named by the keeper, and so has a label even where a plugin says
    nothing of it; `hazard` is a danger by name.
    """

    place: Enclosure
    about: Residents
    settings: Mapping[str, Any]
    named: bool = False
    hazard: str = ""

    @property
    def common(self) -> dict[str, Any]:
        """What the labels of all kinds are given."""
        return {"prefix": self.settings["url_prefix"], "extra": self.about.extra()}

    def ready(self, label: Label) -> Ready:
        """The label with the names of those who live here."""
        return Ready(label, ", ".join(self.about.lines) or self.place.name)


def card_of(about: Residents, settings: Mapping[str, Any]) -> Ready:
    """The card of an animal."""
    animal = about.occupants[0]
    card = animal_card(
        animal,
        contact=settings["contact"],
        vet=settings["vet"],
        prefix=settings["url_prefix"],
        extra=about.extra(),
    )
    return Ready(card, animal.name)


def label_of(kind: LabelKind, subject: Subject) -> Ready | None:
    """The label of a kind for an enclosure; None where there is nothing to say there."""
    label = _MAKERS[kind](subject)
    return subject.ready(label) if label else None


def _enclosure(subject: Subject) -> Label:
    place = subject.place
    return enclosure_label(place.code, subject.about.occupants, room=place.room, **subject.common)


def _door(subject: Subject) -> Label | None:
    """A quarantine sign; unless named, only where a plugin says since when."""
    since, end, tools = ("; ".join(subject.about.listed(s)) for s in ("since", "end", "tools"))
    if not since and not subject.named:
        return None
    return door_sign(
        subject.place.code,
        since=since,
        earliest_end=end,
        tools=tools,
        occupants=subject.about.occupants,
        **subject.common,
    )


def _hazard(subject: Subject) -> Label | None:
    """A danger sign; unless named, only where a danger is noted."""
    about, code = subject.about, subject.place.code
    noted = about.listed("hazard")
    if not subject.hazard and not noted:
        if subject.named:
            raise _no_danger(code)
        return None
    return hazard_sign(
        code,
        find_hazard(subject.hazard or gravest(noted)),
        what=", ".join(dict.fromkeys(o.species for o in about.occupants)),
        keeper=subject.settings["contact"],
        licence=subject.settings["licence"],
        occupants=about.occupants,
        **subject.common,
    )


def _no_danger(code: str) -> BadInput:
    known = ", ".join(h.name for h in hazards())
    return BadInput(
        f"no danger is noted for {code}; add --hazard with one of: {known}; or keep it: "
        f"warmside labels note {code} hazard DANGER"
    )


def _sitter(subject: Subject) -> Label | None:
    """A sitter's strip; unless named, only where somebody lives."""
    about, settings = subject.about, subject.settings
    if not about.occupants and not subject.named:
        return None
    general = [text.strip() for text in settings["do_nots"].split(";")]
    return sitter_strip(
        subject.place.code,
        about.occupants,
        meal=about.slot("meal"),
        misting=about.slot("misting"),
        do_nots=[text for text in (*about.listed("donot"), *general) if text],
        contact=settings["contact"],
        **subject.common,
    )


_MAKERS: dict[LabelKind, Callable[[Subject], Label | None]] = {
    LabelKind.ENCLOSURE: _enclosure,
    LabelKind.DOOR: _door,
    LabelKind.HAZARD: _hazard,
    LabelKind.SITTER: _sitter,
}
NOBODY = {
    LabelKind.ENCLOSURE: "no enclosure to label",
    LabelKind.ANIMAL: "no animal to label",
    LabelKind.DOOR: "none of these is in quarantine; name an enclosure for an empty sign: "
    "--enclosure CODE",
    LabelKind.HAZARD: "no danger is noted for any of these; note it: warmside labels note CODE "
    "hazard venomous",
    LabelKind.SITTER: "nobody lives in any of these; name an enclosure: --enclosure CODE",
}
