"""Who came to share the air with an animal, from where all animals stayed and when."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.quarantine.clock.events import Newcomer


class Stay(Struct, frozen=True):
    """An animal in one air (a room) from `since` to before `until` (None: still there).

    Local wall times; `event_id` is the event that put it there.
    """

    animal: str
    air: str
    since: datetime
    until: datetime | None
    event_id: int


def newcomers(stays: Iterable[Stay], animal: str) -> tuple[Newcomer, ...]:
    """Every time that another animal came into this one's air, or this one into another's.

    Moving within one air is nothing new; leaving it and coming back is. Animals met by one move
    are one newcomer event with their codes in order.
    """
    joined = _joined(stays)
    own = [s for s in joined if s.animal == animal]
    met: dict[tuple[datetime, int], set[str]] = {}
    for mine in own:
        for other in joined:
            if other.animal != animal and other.air == mine.air and _overlap(mine, other):
                later = max(mine, other, key=lambda s: (s.since, s.event_id))
                met.setdefault((later.since, later.event_id), set()).add(other.animal)
    return tuple(Newcomer(i, at, ", ".join(sorted(who))) for (at, i), who in sorted(met.items()))


def _overlap(a: Stay, b: Stay) -> bool:
    return (b.until is None or a.since < b.until) and (a.until is None or b.since < a.until)


def _joined(stays: Iterable[Stay]) -> list[Stay]:
    """The stays with moves inside one air made into one stay."""
    found: dict[str, list[Stay]] = {}
    for stay in sorted(stays, key=lambda s: (s.animal, s.since, s.event_id)):
        mine = found.setdefault(stay.animal, [])
        last = mine[-1] if mine else None
        if last and last.air == stay.air and last.until is not None and stay.since <= last.until:
            mine[-1] = replace(last, until=stay.until)
        else:
            mine.append(stay)
    return [s for mine in found.values() for s in mine]
