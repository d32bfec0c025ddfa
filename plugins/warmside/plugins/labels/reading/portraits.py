"""The newest photo of each animal that is on a card."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import Ask, Session
from warmside.plugins.labels.content.picking import Ready


def portraits_of(
    session: Session, ask: Ask, ready: Sequence[Ready]
) -> tuple[dict[str, bytes], list[str]]:
    """Small photos by the code of the animal, and a warning that names those without one."""
    found: dict[str, bytes] = {}
    without = []
    for one in ready:
        code = one.label.code_text
        photo = session.portrait(ask.book, ask.book.animal(code).id)
        if photo is None:
            without.append(one.who)
        else:
            found[code] = photo
    return found, [f"no photo of {', '.join(without)} is on record"] if without else []
