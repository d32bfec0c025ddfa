"""The plugin's own kinds of event: the powder on insects, a planned winter rest, looks in it."""

from __future__ import annotations

from warmside.api import EventKind, Unit, fields
from warmside.plugins.feeding.prey.dusting import powders

DUSTED = "feeding.dusted"
REST = "feeding.rest"
LOOKED = "feeding.rest_look"


class Dusted:
    """The insects of that day's meal were dusted."""

    powder: str = fields.choice(tuple(p.code for p in powders()), "which powder")


class PlannedRest:
    """A winter rest is planned: no food, cooled, warmed again; or it is given up."""

    stop: str = fields.day("no food from that day on", before="no food from")
    cool: str = fields.day("cooled from that day on", before="cooled from")
    warm: str = fields.day("warmed from that day on", before="warmed from")
    loss_percent: float = fields.measure(
        Unit.PERCENT, "the loss at which it ends", least=1, most=20
    )
    given_up: bool = fields.yesno("it is given up")


class RestLook:
    """Looked at an animal in its winter rest."""

    looks: str = fields.choice(("quiet", "restless", "ill"), "how it is", default="quiet")


KINDS = (
    EventKind(DUSTED, "insects dusted", Dusted),
    EventKind(REST, "winter rest planned", PlannedRest),
    EventKind(
        LOOKED, "looked at in its winter rest", RestLook, todo="look at it in its winter rest"
    ),
)
