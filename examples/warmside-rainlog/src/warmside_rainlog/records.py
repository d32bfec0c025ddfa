"""The kind of event that this plugin adds."""

from __future__ import annotations

from dataclasses import dataclass

from warmside.api import EventKind, Subject, Unit, measure, whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Rained:
    """The rain chamber ran."""

    minutes: int = whole("how long it rained, in minutes", least=1, most=1440, required=True)
    amount_ml: float | None = measure(
        Unit.VOLUME, "how much water", least=1, most=1_000_000, optional=True
    )


RAINED = EventKind("rainlog.rained", "rained", Rained, Subject.ENCLOSURE, todo="let it rain")
