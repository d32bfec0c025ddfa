"""What is going on with an animal, from the last events of each kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from warmside.api import Event
from warmside.plugins.feeding.kinds import REST
from warmside.plugins.feeding.planning.waits import Situation
from warmside.plugins.feeding.resting.period import Rest

Latest = Mapping[str, Event]
# The last events of these kinds tell the situation.
KINDS = ("arrived", "returned", "moved", "shedding", "shed", "gravid", "laid", "cooling", REST)


def situation_of(
    last: Latest,
    regurgitations: tuple[date, ...] = (),
    stages: Sequence[Event] = (),
    coolings: Sequence[Event] = (),
) -> Situation:
    """The situation from the last event of each kind; `stages` and `coolings` are recent ones.

    They tell since when it is opaque and when a cooling that ended began.
    """
    return Situation(
        arrived=_newest(last, "arrived", "returned"),
        moved=_newest(last, "moved"),
        opaque_since=_opaque(last, stages),
        shed=_newest(last, "shed"),
        regurgitations=regurgitations,
        gravid_since=_gravid(last.get("gravid")),
        laid=_newest(last, "laid"),
        cooling=_cooling(last.get("cooling"), coolings),
        rest=rest_in(last.get(REST)),
        hatched_here=_hatched_here(last),
    )


def _hatched_here(last: Latest) -> date | None:
    """When it hatched here, while it did not shed since."""
    came = last.get("arrived")
    if came is None or "shed" in last or came.data.get("how") != "bred here":
        return None
    return came.day


def rest_in(event: Event | None) -> Rest | None:
    """The winter rest that an event plans; None for one that was given up."""
    if event is None or event.data["given_up"]:
        return None
    stop, cool, warm = (date.fromisoformat(event.data[name]) for name in ("stop", "cool", "warm"))
    return Rest(stop, cool, warm, float(event.data["loss_percent"]), event.id)


def _newest(last: Latest, *kinds: str) -> date | None:
    return max((last[k].day for k in kinds if k in last), default=None)


def _opaque(last: Latest, stages: Sequence[Event]) -> date | None:
    """Since when the skin is opaque, or was before it cleared, while no slough followed."""
    stage, shed = last.get("shedding"), last.get("shed")
    if stage is None or stage.data["stage"] == "dull" or (shed and shed.order > stage.order):
        return None
    this_time = [s for s in stages if shed is None or s.order > shed.order]
    opaque = [s.day for s in this_time if s.data["stage"] == "opaque"]
    return min(opaque, default=stage.day)


def _gravid(event: Event | None) -> date | None:
    return event.day if event and event.data["state"] != "over" else None


def _cooling(last: Event | None, coolings: Sequence[Event]) -> tuple[date, date | None] | None:
    if last is None:
        return None
    if last.data["state"] == "begun":
        return last.day, None
    begun = [e.day for e in coolings if e.data["state"] == "begun" and e.day <= last.day]
    return max(begun, default=last.day), last.day
