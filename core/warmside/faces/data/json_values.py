"""Single values as JSON has them: dates as ISO text, instants in UTC, numbers finite or null."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import UTC, date, datetime
from enum import Enum
from zoneinfo import ZoneInfo

from warmside.core.values.errors import WarmsideError

Json = dict[str, object]


def plain_value(value: object, zone: ZoneInfo) -> object:
    """The value made of JSON's own kinds; WarmsideError for what has no place in JSON."""
    if isinstance(value, Enum):
        return plain_value(value.value, zone)
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, date):
        return instant(value, zone) if isinstance(value, datetime) else value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): plain_value(item, zone) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain_value(item, zone) for item in value]
    raise WarmsideError(
        f"a value of type {type(value).__name__} has no place in JSON; "
        "report this to the author of the command"
    )


def instant(at: datetime, zone: ZoneInfo) -> str:
    """ISO 8601 in UTC with a Z; a time without a zone is read in `zone`."""
    aware = at.replace(tzinfo=zone) if at.tzinfo is None else at
    return aware.astimezone(UTC).isoformat().replace("+00:00", "Z")


def merge(into: Json, data: Mapping[str, object]) -> None:
    """Add keys, none of them twice: a value that hides another would be lost unseen."""
    for key, value in data.items():
        if key in into:
            raise WarmsideError(
                f"two values of one answer are called {key!r}; "
                "report this to the author of the command"
            )
        into[key] = value
