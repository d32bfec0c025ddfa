"""The kind of event that this plugin adds."""

from __future__ import annotations

from dataclasses import dataclass

from warmside.core.kinds.kind import EventKind, Subject, measure, whole
from warmside.core.values.units import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Rained:
    """The rain chamber ran."""

    minutes: int = whole("how long it rained, in minutes", least=1, most=1440, required=True)
    amount_ml: float | None = measure(
        Unit.VOLUME, "how much water", least=1, most=1_000_000, optional=True
    )


RAINED = EventKind("rainlog.rained", "rained", Rained, Subject.ENCLOSURE, todo="let it rain")
