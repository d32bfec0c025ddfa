"""What the list of signs is worth on notes that it was not made from."""

from __future__ import annotations

from tests.bench.alarms.own_words import HARMLESS, ILL

from warmside.api import Level
from warmside.plugins.signs.seen.notes import signs_in


def _level(text: str) -> Level | None:
    found = signs_in(text)
    return found[0].level if found else None


def _at_least(text: str, level: Level) -> bool:
    found = _level(text)
    return found is not None and list(Level).index(found) <= list(Level).index(level)


def test_every_note_of_an_ill_animal_is_asked_about() -> None:
    assert [text for text, level in ILL if not _at_least(text, level)] == []


def test_notes_of_healthy_animals_are_seldom_asked_about_loudly() -> None:
    """Most have a word of the list: one in ten may be, one in a hundred act now."""
    levels = [_level(text) for text in HARMLESS]
    loud = [one for one in levels if one in (Level.ACT_NOW, Level.LOOK_SOON)]
    assert len(loud) <= len(HARMLESS) / 10
    assert levels.count(Level.ACT_NOW) <= len(HARMLESS) / 100
