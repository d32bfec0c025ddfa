"""How a vet's word on food is kept: by the plan, nothing at all, or as the words tell."""

from __future__ import annotations

from datetime import date

AS_USUAL, NO_FOOD, AS_TOLD = "as usual", "no food", "as told"


def food_data(text: str, by: str, until: date | None) -> dict[str, str | date | None]:
    """What was typed as the fields of its event: one of the first two words, or the vet's own."""
    words = " ".join(text.split())
    known = words.casefold() in (AS_USUAL, NO_FOOD)
    told = {"says": words.casefold() if known else AS_TOLD, "words": "" if known else words}
    return {**told, "by": by, "until": until}
