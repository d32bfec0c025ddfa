"""Which signs still stand: seen, not said to be gone, and no vet visit since."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from msgspec import Struct

from warmside.api import Level


class Said(Struct, frozen=True):
    """What a keeper recorded of a sign: seen, gone or not so, on a day, by which event."""

    sign: str
    state: str
    day: date
    event: int
    where: str = ""


class Written(Struct, frozen=True):
    """What a keeper wrote, on a day, in which event, and how loudly it is to be asked about."""

    text: str
    day: date
    event: int
    level: Level


def standing(said: Iterable[Said], vet_seen: date | None) -> tuple[tuple[Said, ...], ...]:
    """The run of sightings of each sign that stands, oldest first; `said` in order of time."""
    runs: dict[str, list[Said]] = {}
    for one in said:
        if one.state == "seen":
            runs.setdefault(one.sign, []).append(one)
        else:
            runs.pop(one.sign, None)
    return tuple(tuple(r) for r in runs.values() if vet_seen is None or r[-1].day > vet_seen)


def unasked(
    written: Iterable[tuple[Written, str]], said: Sequence[Said], vet_seen: date | None
) -> dict[str, Written]:
    """The newest note for each sign that is named in one and that nothing recorded answers."""
    found: dict[str, Written] = {}
    for note, sign in written:
        answered = any(s.sign == sign and s.day >= note.day for s in said)
        if not answered and (vet_seen is None or vet_seen < note.day):
            found[sign] = note
    return found
