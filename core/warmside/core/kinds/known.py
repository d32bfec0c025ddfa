"""The kinds of event that are known in a collection: the shared ones and those of its plugins."""

from __future__ import annotations

from warmside.core.kinds.kind import EventKind
from warmside.core.kinds.shared import SHED_WORDS
from warmside.core.values.errors import NotFound
from warmside.core.values.hints import near_miss

ALSO = {
    "poop": "defecated",
    "pooped": "defecated",
    "feces": "defecated",
    "faeces": "defecated",
    "droppings": "defecated",
    "fecal": "defecated",
    "faecal": "defecated",
    "weight": "weighed",
    "weights": "weighed",
    "weigh": "weighed",
    "feed": "fed",
    "meal": "fed",
    "meals": "fed",
    "ate": "fed",
    "sheds": "shed",
    "water": "watered",
    "clean": "cleaned",
    "mist": "misted",
    "vet": "examined",
    "treatment": "treated",
    "treat": "treated",
    "note": "observed",
    "saw": "observed",
}
"""Other words that keepers type, each for one of the shared kinds."""

WITH_VALUE = {
    **{w: ("shedding", {"stage": s}) for w, s in SHED_WORDS.items()},
    **{s: ("shedding", {"stage": s}) for s in ("dull", "opaque", "clear")},
    "refused": ("fed", {"outcome": "refused"}),
}
"""Words that say a kind and one of its values at once: who records `blue` means opaque eyes."""


class Kinds(dict[str, EventKind]):
    """Kinds by name."""

    def named(self, name: str) -> EventKind:
        """The kind of that name; near misses are suggested."""
        known = ALSO.get(name.casefold(), name)
        if known in self:
            return self[known]
        raise NotFound(
            f"there is no kind of event {name!r}{near_miss(name, self)}; "
            "list them with: warmside record --help"
        )
