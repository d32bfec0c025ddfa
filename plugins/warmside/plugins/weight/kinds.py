"""The plugin's own kind of event: a weighing that looked odd and is right."""

from __future__ import annotations

from dataclasses import dataclass

from warmside.api import EventKind, whole

CHECKED = "weight.checked"
_LARGEST_ID = 2**53


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """The keeper says that a weighing is right though it looks odd."""

    weighing: int | None = whole("number of the weighing that is right", least=1, most=_LARGEST_ID)


KINDS = (EventKind(CHECKED, "weight checked", Checked),)
