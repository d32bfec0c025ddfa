"""The UV index where an animal basks, against its UV zone, in words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import (
    OWN_RECORDS,
    About,
    Basis,
    Fact,
    Finding,
    Kind,
    Level,
    Part,
    Tone,
    Unit,
    days_ago_words,
    paragraphs,
)
from warmside.plugins.habitat.light.uv import FERGUSON, judged
from warmside.plugins.habitat.reading.uv_here import Uv

CAUTION = (
    "A meter for the UV index is held where the animal's back is when it basks; a shade must be in "
    "reach at all times. Too much burns eyes and skin, too little makes bones soft: signs of "
    "either are for a vet who treats reptiles. Lamps are changed switched off and cool."
)
WORDS = {
    "above": "above what its zone bears: raise the lamp or shade a part, and see that it can leave",
    "within": "within what its zone asks for",
    "below": "below what its zone asks for: the lamp may be worn, too far off, or behind glass",
    "far below": "far below what its zone asks for: the lamp may be worn, too far off, or behind "
    "glass, which holds UVB back",
}
UNMEASURED = "No UV index was read in half a year, or since its lamp is new."


def uv_parts(code: str, found: Uv) -> Iterator[Part]:
    """What it should be, what was measured, and whether that is enough or too much."""
    if found.span is None:
        yield from paragraphs("No UV zone that all of those inside share is known.")
    else:
        low, high = found.span
        yield Fact("wanted_low", "UV index where it basks, from", low, Unit.UV_INDEX)
        basis = Basis(f"{found.by}; its zone's highest", FERGUSON)
        yield Fact("wanted_high", "to", high, Unit.UV_INDEX, basis)
    if found.read is None:
        hint = f"warmside record habitat.read {code} --zone 'basking place' --uv-index 3.1"
        yield from paragraphs(f"{UNMEASURED} {hint}")
    else:
        read = Basis(f"{found.read.where}, {found.read.day}", OWN_RECORDS)
        yield Fact("measured", "highest as read", found.read.index, Unit.UV_INDEX, read)
        if found.span is not None:
            said = judged(found.span, found.read.index)
            yield Fact("judged", "so it is", said, Kind.TEXT)
            yield from paragraphs(f"That is {WORDS[said]}.")
    yield from paragraphs(CAUTION, tone=Tone.CAUTION)


def uv_finding(found: Uv, enclosure_id: int, on: date) -> Iterator[Finding]:
    """Too much for whoever is inside, or too little for one that needs it."""
    if found.span is None or found.read is None:
        return
    said = judged(found.span, found.read.index)
    if said == "within" or (said != "above" and not found.is_needed):
        return
    level = Level.NOTE if said == "below" else Level.LOOK_SOON
    low, high = found.span
    yield Finding(
        "habitat.uv",
        level,
        f"the UV index at {found.read.where} was {found.read.index:g} "
        f"{days_ago_words(found.read.day, on)}, {WORDS[said]}",
        Basis(f"{low:g} to {high:g} where it basks; {found.by}", FERGUSON),
        About(enclosure_id=enclosure_id),
    )
