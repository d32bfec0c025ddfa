"""Animals that came and are in no quarantine."""

from __future__ import annotations

from warmside.api import About, Animal, Basis, Event, Finding, Level, Source


def newcomer(animal: Animal, came: Event, source: Source) -> Finding:
    """An animal that came lately, and no quarantine began; `source` says why one should."""
    words = (
        f"came {came.day} and no quarantine began; begin one: "
        f"warmside quarantine start {animal.code} --at {came.day}"
    )
    basis = Basis("signs of many infections come late", source, (came.id,))
    return Finding("quarantine.newcomer", Level.LOOK_SOON, words, basis, About(animal.id))
