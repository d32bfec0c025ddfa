"""Signs for doors and enclosure fronts: quarantine, danger, and what a sitter must know."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from warmside.api import SourcedRow, sourced_rows
from warmside.plugins.labels.content.animals import Occupant, names, residents, who
from warmside.plugins.labels.content.codes import Subject, payload
from warmside.plugins.labels.content.label import (
    Label,
    LabelKind,
    LabelText,
    Style,
    fill_in,
    lines_of,
)

_HANDS = re.compile(r"\bwash\b.*\bhands\b", re.IGNORECASE)
_OWN = re.compile(r"^own +", re.IGNORECASE)  # the sign says that they are its own
_NOT = re.compile(r"(do not|don['’]?t|dont|never|no)(?:\s+|$)", re.IGNORECASE)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from warmside.plugins.labels.content.hazards import Hazard


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
    words = _words("door")
    open_end = LabelText("end still open", Style.PLAIN, "end", needed=True)
    lines = lines_of(
        LabelText(words["sign"], Style.LARGE, "sign"),
        LabelText(words["order"], Style.CAUTION, "order"),
        fill_in("since", since, "since"),
        open_end
        if since and not earliest_end
        else fill_in("release not before", earliest_end, "end"),
        fill_in(words["tools"], _OWN.sub("", tools), "tools"),
        LabelText("" if _HANDS.search(tools) else words["hands"], Style.PLAIN, "hands"),
        *residents(occupants),
        *extra,
    )
    said = payload(Subject.ENCLOSURE, code, prefix, who(occupants))
    return Label(LabelKind.DOOR, code, said, lines)


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
    law = _words("law")
    lines = lines_of(
        LabelText(hazard.sign, Style.LARGE, "sign"),
        LabelText(what, Style.NAME, "what"),
        *(LabelText(text, Style.CAUTION, "first") for text in hazard.first),
        *(LabelText(title, Style.BLANK, "emergency", needed=True) for title in emergency),
        fill_in("keeper:", keeper, "keeper"),
        fill_in(law["licence"], licence, "licence"),
        LabelText(law["law"], Style.PLAIN, "law"),
        *residents(occupants),
        *extra,
    )
    said = payload(Subject.ENCLOSURE, code, prefix, who(occupants))
    return Label(LabelKind.HAZARD, code, said, lines)


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
    forbid = _words("sitter")["donot"]
    lines = lines_of(
        *names(occupants),
        LabelText(f"next meal: {meal}" if meal else "", Style.PLAIN, "meal", needed=True),
        LabelText(f"misting: {misting}" if misting else "", Style.PLAIN, "misting", needed=True),
        *(
            LabelText(f"{forbid} {text}", Style.CAUTION, "donot")
            for text in map(forbidden, do_nots)
            if text
        ),
        *extra,
        fill_in("call:", contact, "contact"),
    )
    said = payload(Subject.ENCLOSURE, code, prefix, who(occupants))
    return Label(LabelKind.SITTER, code, said, lines)


def forbidden(text: str) -> str:
    """What is forbidden, without a leading "do not", "don't", "never" or "no", said once or twice.

    What follows "no" is a thing and no deed: "no live prey" becomes "allow live prey".
    """
    text = " ".join(text.split())
    while found := _NOT.match(text):
        text = text[found.end() :]
        if found[1].casefold() == "no" and text:
            return f"allow {text}"
    return text


def _words(sign: str) -> SourcedRow:
    """The fixed words of a sign; each may be replaced by the keeper's own lines."""
    rows = sourced_rows("warmside.plugins.labels", "signs", "words")
    return next(row for row in rows if row["sign_kind"] == sign)
