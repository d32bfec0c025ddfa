"""Signs for doors and enclosure fronts: quarantine, danger, and what a sitter must know."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from warmside.api import BadInput, Mark, Source, near_miss, quoted
from warmside.plugins.labels.codes import Subject, payload
from warmside.plugins.labels.content import (
    Label,
    LabelKind,
    LabelText,
    Occupant,
    Style,
    fill_in,
    lines_of,
    residents,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


@dataclass(frozen=True, slots=True)
class Hazard:
    """A kind of danger: the large words, what to do first, and where these come from."""

    name: str
    sign: str
    first: tuple[str, ...]
    source: Source


@cache
def hazards() -> tuple[Hazard, ...]:
    """The kinds of danger that have words of their own."""
    return tuple(
        Hazard(row["name"], row["sign"], tuple(row["first"]), _source(row))
        for row in _words()["hazard"]
    )


def find_hazard(name: str) -> Hazard:
    """The hazard of a name; BadInput with a near miss when there is none."""
    known = {hazard.name: hazard for hazard in hazards()}
    if name not in known:
        near = near_miss(name, known)
        raise BadInput(f"no hazard {quoted(name)!r}{near}; known are {', '.join(known)}")
    return known[name]


def door_sign(
    code: str,
    *,
    since: str = "",
    earliest_end: str = "",
    tools: str = "",
    occupants: Sequence[Occupant] = (),
    prefix: str = "",
    extra: Iterable[LabelText] = (),
) -> Label:
    """A quarantine sign for an enclosure or its door; dates are ready to print.

    Without a first day there are rules to write both on; with only a first day, the sign says that
    the end is open. It never says that an animal is healthy.
    """
    words = _words()["door"]
    open_end = LabelText("end still open", Style.PLAIN, "end", needed=True)
    lines = lines_of(
        LabelText(words["sign"], Style.LARGE, "sign"),
        LabelText(words["order"], Style.CAUTION, "order"),
        fill_in("since", since, "since"),
        open_end if since and not earliest_end else fill_in("not before", earliest_end, "end"),
        fill_in(words["tools"], tools, "tools"),
        LabelText(words["hands"], Style.PLAIN, "hands"),
        residents(occupants),
        *extra,
    )
    return Label(LabelKind.DOOR, code, payload(Subject.ENCLOSURE, code, prefix), lines)


def hazard_sign(
    code: str,
    hazard: Hazard,
    *,
    what: str = "",
    emergency: Sequence[str] = ("emergency:", "poison centre:", "hospital:"),
    keeper: str = "",
    licence: str = "",
    occupants: Sequence[Occupant] = (),
    prefix: str = "",
    extra: Iterable[LabelText] = (),
) -> Label:
    """A danger sign: large words, `what` lives here, what to do first, numbers to fill in, law.

    `emergency` titles are printed with a rule to write the number on; no number is made up.
    """
    law = _words()["law"]
    lines = lines_of(
        LabelText(hazard.sign, Style.LARGE, "sign"),
        LabelText(what, Style.NAME, "what"),
        *(LabelText(text, Style.CAUTION, "first") for text in hazard.first),
        *(LabelText(title, Style.BLANK, "emergency", needed=True) for title in emergency),
        fill_in("keeper:", keeper, "keeper"),
        fill_in(law["licence"], licence, "licence"),
        LabelText(law["law"], Style.PLAIN, "law"),
        residents(occupants),
        *extra,
    )
    return Label(LabelKind.HAZARD, code, payload(Subject.ENCLOSURE, code, prefix), lines)


def sitter_strip(
    code: str,
    occupants: Sequence[Occupant],
    *,
    meal: str = "",
    misting: str = "",
    do_nots: Sequence[str] = (),
    contact: str = "",
    prefix: str = "",
    extra: Iterable[LabelText] = (),
) -> Label:
    """A strip for the enclosure front: next meal, misting, what not to do, whom to call."""
    forbid = _words()["sitter"]["donot"]
    lines = lines_of(
        residents(occupants),
        LabelText(f"next meal: {meal}" if meal else "", Style.PLAIN, "meal", needed=True),
        LabelText(f"misting: {misting}" if misting else "", Style.PLAIN, "misting", needed=True),
        *(
            LabelText(f"{forbid} {text}", Style.CAUTION, "donot")
            for text in do_nots
            if text.strip()
        ),
        *extra,
        fill_in("call:", contact, "contact"),
    )
    return Label(LabelKind.SITTER, code, payload(Subject.ENCLOSURE, code, prefix), lines)


@cache
def _words() -> dict[str, Any]:
    text = files("warmside.plugins.labels").joinpath("data/signs.toml").read_text("utf-8")
    return tomllib.loads(text)


def _source(row: dict[str, Any]) -> Source:
    return Source(row["source"], Mark(row["mark"]))
