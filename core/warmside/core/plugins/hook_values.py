"""The frozen values that hooks give: tasks, findings, care ranks, label lines."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import StrEnum
from typing import Any

from msgspec import Struct, field

from warmside.core.values.about import NOBODY, About
from warmside.core.values.basis import Basis, Source


class Level(StrEnum):
    """How soon a finding wants the keeper."""

    ACT_NOW = "act now"
    LOOK_SOON = "look soon"
    NOTE = "note"


class Task(Struct, frozen=True):
    """Something due for an animal, an enclosure, or an animal in its enclosure.

    `what` is what to do; `due` the day from which it is due; `basis` why. `settles` is the kind of
    event that settles it, with `data` as far as it is known. A task that no event settles is
    settled by its plugin's own `warmside_settle`, or names the command in `command`. `note` is said
    with the task (own tools, prey to thaw). `every_days` is after how many days it is due again
    once it is done, for the calendar; `key` tells that it is the same task where `what` changes
    from day to day. `by` is the last day on which it is in time, where it may be done over a span
    of days: until then it may wait; `may` says that it is possible and never late. `asks` names
    fields that only the keeper knows, though their kind has a default: it is not settled without a
    value. Where its plugin settles it, `asks` is what the value says, and an example of one:
    `("how many hatched", "6")`. `keepers` says that it waits for the keeper: no sitter is asked for
    it.
    """

    what: str
    due: date
    basis: Basis
    about: About = NOBODY
    settles: str = ""
    data: Mapping[str, Any] = field(default_factory=dict)
    command: str = ""
    note: str = ""
    every_days: int | None = None
    key: str = ""
    by: date | None = None
    may: bool = False
    asks: tuple[str, ...] = ()
    keepers: bool = False


class Finding(Struct, frozen=True):
    """Something to know; `code` is `<plugin>.<word>`, one of those in the plugin's manifest.

    `task` names a task that says the same, by the kind of event that settles it or by its key:
    while the round asks for that, it does not tell the finding beside it, unless to act now.
    """

    code: str
    level: Level
    words: str
    basis: Basis
    about: About = NOBODY
    task: str = ""


class CareRank(Struct, frozen=True):
    """Where an enclosure comes in the round: 0 is first; higher ranks later.

    Enclosures of one rank and `group` are done together; `before` is said before such a group.
    """

    enclosure_id: int
    rank: int
    reason: str
    group: str = ""
    before: str = ""


class LabelLine(Struct, frozen=True):
    """A line that may stand on a label; the keeper picks it by `key`, `<plugin>.<word>`."""

    key: str
    text: str
    order: int = 500


class ShippedValue(Struct, frozen=True):
    """A value of a setting that a plugin ships for a species, with where it comes from."""

    species: str  # scientific name
    name: str
    value: str | int | float | bool
    source: Source
