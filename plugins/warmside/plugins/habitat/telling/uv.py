"""The UV index where an animal basks, against its UV zone, in words."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import (
    OWN_RECORDS,
    Basis,
    Fact,
    Kind,
    Part,
    Tone,
    Unit,
    paragraphs,
)
from warmside.plugins.habitat.findings import UV_WORDS
from warmside.plugins.habitat.light.uv import FERGUSON, judged
from warmside.plugins.habitat.reading.uv_here import Uv

CAUTION = (
    "A meter for the UV index is held where the animal's back is when it basks; a shade must be in "
    "reach at all times. Too much burns eyes and skin, too little makes bones soft: signs of "
    "either are for a vet who treats reptiles. Lamps are changed switched off and cool."
)
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
            yield from paragraphs(f"That is {UV_WORDS[said]}.")
    yield from paragraphs(CAUTION, tone=Tone.CAUTION)
