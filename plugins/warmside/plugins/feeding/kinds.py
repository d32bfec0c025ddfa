"""The plugin's own kind of event: the powder on a meal of insects."""

from __future__ import annotations

from warmside.api import EventKind, fields
from warmside.plugins.feeding.prey.dusting import powders

DUSTED = "feeding.dusted"


class Dusted:
    """The insects of that day's meal were dusted."""

    powder: str = fields.choice(tuple(p.code for p in powders()), "which powder")


KINDS = (EventKind(DUSTED, "insects dusted", Dusted),)
