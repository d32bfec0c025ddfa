"""The hooks: every place where a plugin takes part, in one file.

All hooks collect; none is first-result, so no plugin can silence another. An implementation names
only the arguments that it wants. Results are the frozen values below; anything else is caught at
the border. *Observer* hooks: a plugin that raises loses only its own items and is named, the rest
goes on. *Integral* hooks run inside the write: a plugin that raises stops the step, nothing is
written. Raise HOOK_LEVEL in manifest.py with every change here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import TYPE_CHECKING, Any

import pluggy

from warmside.core.answers.parts import Section
from warmside.core.kinds.kind import EventKind
from warmside.core.record.entities import Event, NewEvent
from warmside.core.values.basis import Basis, Estimate

if TYPE_CHECKING:
    from warmside.core.record.book import Book

hookspec = pluggy.HookspecMarker("warmside")
hookimpl = pluggy.HookimplMarker("warmside")


class Level(StrEnum):
    """How soon a finding wants the keeper."""

    ACT_NOW = "act now"
    LOOK_SOON = "look soon"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Task:
    """Something due for an animal, an enclosure, or an animal in its enclosure.

    `what` is what to do; `due` the day from which it is due; `basis` why. `settles` is the kind of
    event that settles it, with `data` as far as it is known; a task that no event settles names
    the command in `command` instead. `note` is said with the task (own tools, prey to thaw).
    `every_days` is after how many days it is due again once it is done, for the calendar; `key`
    tells that it is the same task where `what` changes from day to day.
    """

    what: str
    due: date
    basis: Basis
    animal_id: int | None = None
    enclosure_id: int | None = None
    settles: str = ""
    data: Mapping[str, Any] = field(default_factory=dict)
    command: str = ""
    note: str = ""
    every_days: int | None = None
    key: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """Something to know; `code` is `<plugin>.<word>`, one of those in the plugin's manifest."""

    code: str
    level: Level
    words: str
    basis: Basis
    animal_id: int | None = None
    enclosure_id: int | None = None


@dataclass(frozen=True, slots=True)
class CareRank:
    """Where an enclosure comes in the round: 0 is first; higher ranks later.

    Enclosures of one rank and `group` are done together; `before` is said before such a group.
    """

    enclosure_id: int
    rank: int
    reason: str
    group: str = ""
    before: str = ""


@dataclass(frozen=True, slots=True)
class LabelLine:
    """A line that may stand on a label; the keeper picks it by `key`, `<plugin>.<word>`."""

    key: str
    text: str
    order: int = 500


class Hooks:
    """The hook specifications."""

    @hookspec
    def warmside_event_kinds(self) -> Iterable[EventKind]:
        """Observer, when plugins are loaded: the kinds of event that this plugin adds."""
        return ()

    @hookspec
    def warmside_tasks(self, book: Book, on: date) -> Iterable[Task]:
        """Observer, for the round and the calendar: tasks that are due on that day or before."""
        return ()

    @hookspec
    def warmside_findings(self, book: Book, on: date) -> Iterable[Finding]:
        """Observer, for the round and reports: what the keeper should know on that day."""
        return ()

    @hookspec
    def warmside_events_recorded(
        self, book: Book, events: tuple[Event, ...], confirmed: bool
    ) -> Iterable[NewEvent]:
        """Integral, before a step commits: further events that belong to the same step.

        Gets all events of the step at once (an import may have thousands), not those that other
        plugins add here. `book` sees what the step has written. Raise Refused for a doubtful
        event unless the keeper has `confirmed` the step, BadInput for an impossible one.
        """
        return ()

    @hookspec
    def warmside_care_order(self, book: Book, on: date) -> Iterable[CareRank]:
        """Observer, for the round: enclosures that come later than others, and why."""
        return ()

    @hookspec
    def warmside_label_lines(self, book: Book, animal_id: int, on: date) -> Iterable[LabelLine]:
        """Observer, for labels: lines about an animal."""
        return ()

    @hookspec
    def warmside_report_sections(self, book: Book, animal_id: int, on: date) -> Iterable[Section]:
        """Observer, for an animal's report: its parts, the very values that commands return."""
        return ()

    @hookspec
    def warmside_expected_value(
        self, book: Book, what: str, animal_id: int, on: date
    ) -> Iterable[Estimate]:
        """Observer, when another plugin asks: an estimate of `what` ("mass") for a day.

        The asker sees every answer with the plugin that gave it.
        """
        return ()
