"""Cuts an animal's events into quarantines, each from a start to its release."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, time

from msgspec import Struct

from warmside.api import NotFound, near_miss, quoted
from warmside.plugins.quarantine.clock.events import (
    Died,
    Edited,
    Event,
    Released,
    Started,
    in_order,
)
from warmside.plugins.quarantine.protocol.flat import with_overrides
from warmside.plugins.quarantine.protocol.terms import Protocol


class Spell(Struct, frozen=True):
    """One quarantine: its starts (the first begins it), its end, and all events within.

    It ends by release, or by the death of the animal.
    """

    starts: tuple[Started, ...]
    end: Released | Died | None
    events: tuple[Event, ...]

    @property
    def release(self) -> Released | None:
        """Its release, if it was released."""
        return self.end if isinstance(self.end, Released) else None

    @property
    def first_day(self) -> date:
        """The day on which it began."""
        return self.starts[0].day

    def could_hold(self, event: Event) -> bool:
        """Whether the event lies between the first day and the end.

        An end whose time of day is not known (midnight) has the whole of its day before it.
        """
        if event.day < self.first_day:
            return False
        if self.end is None or event.at <= self.end.at:
            return True
        return event.day == self.end.day and self.end.at.time() == time()


def spells(events: Iterable[Event]) -> tuple[Spell, ...]:
    """The quarantines in order of time; events outside any of them are in none."""
    ordered = in_order(events)
    bare = _bounds(ordered)
    held: list[list[Event]] = [[] for _ in bare]
    for event in ordered:
        index = _holder(event, bare)
        if index is not None:
            held[index].append(event)
    return tuple(
        Spell(b.starts, b.end, tuple(inside)) for b, inside in zip(bare, held, strict=True)
    )


def protocol_of(
    spell: Spell,
    protocols: Mapping[str, Protocol],
    originals: Mapping[str, Protocol] | None = None,
) -> Protocol:
    """The protocol of the latest start with this animal's edits; raises NotFound, BadInput.

    A released one keeps the terms of its release, told against the `originals`.
    """
    start = spell.starts[-1]
    if spell.release is not None and originals is not None:
        protocols = originals
    if start.protocol not in protocols:
        hint = near_miss(start.protocol, protocols)
        known = ", ".join(protocols)
        raise NotFound(f"no protocol {quoted(start.protocol)}{hint}; known: {known}")
    edits = dict(start.edits)
    for event in spell.events:
        if isinstance(event, Edited) and event.at >= start.at:
            edits |= dict(event.edits)
    if spell.release is not None:
        edits |= dict(spell.release.terms)
    return with_overrides(protocols[start.protocol], edits)


def _bounds(ordered: Iterable[Event]) -> list[Spell]:
    found: list[Spell] = []
    for event in ordered:
        running = found[-1] if found and found[-1].end is None else None
        if isinstance(event, Started):
            if running is None:
                found.append(Spell((event,), None, ()))
            else:
                found[-1] = Spell((*running.starts, event), None, ())
        elif isinstance(event, Released | Died) and running is not None:
            found[-1] = Spell(running.starts, event, ())
    return found


def _holder(event: Event, bare: list[Spell]) -> int | None:
    """Which quarantine the event belongs to; on a shared day the moment of the end decides."""
    possible = [i for i, spell in enumerate(bare) if spell.could_hold(event)]
    if not possible:
        return None
    for i in possible[:-1]:
        end = bare[i].end
        if end is not None and event.at <= end.at:
            return i
    return possible[-1]
