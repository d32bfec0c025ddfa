"""Instants at which a zone's clock shows a time: none, one, or two where it is set back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

Both = tuple[datetime, datetime]
Choose = Callable[[Both], datetime]


def instants(day: date, clock: time, zone: ZoneInfo) -> tuple[datetime, ...]:
    """The instants (UTC, whole seconds), the earlier first."""
    wall = datetime.combine(day, clock.replace(microsecond=0, fold=0))
    found = {wall.replace(tzinfo=zone, fold=fold).astimezone(UTC) for fold in (0, 1)}
    return tuple(sorted(at for at in found if at.astimezone(zone).replace(tzinfo=None) == wall))


class InOrder:
    """Chooses by the order of a file's rows, be they written upwards or downwards."""

    def __init__(self) -> None:
        self._last: datetime | None = None
        self._downwards = False

    def choose(self, both: Both) -> datetime:
        """The one that goes on from the row before; of two that do the nearer one."""
        if self._last is None:
            return both[0]
        if self._downwards:
            return max((at for at in both if at <= self._last), default=both[1])
        return min((at for at in both if at >= self._last), default=both[0])

    def went_on(self, at: datetime | None) -> None:
        """Tell of the instant of each row that has one."""
        if at is None or at == self._last:
            return
        self._downwards = self._last is not None and at < self._last
        self._last = at
