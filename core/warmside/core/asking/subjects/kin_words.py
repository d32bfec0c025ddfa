"""How sure a parent is, in the keeper's words."""

from __future__ import annotations

from warmside.core.record.entities import Parent, Sire


def share_words(parent: Parent | Sire) -> str:
    """The word, with the weight where there is one: `probable, 70 %`."""
    if parent.weight is None:
        return parent.certainty
    return f"{parent.certainty}, {parent.weight * 100:.3g} %"
