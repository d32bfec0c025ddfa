"""The hooks: every place where a plugin takes part, in one file.

All hooks collect; none is first-result, so no plugin can silence another. An implementation names
only the arguments that it wants: `book` reads the record, `ask` answers what needs the plugins too
(settings, kinds, what others know). Results are the frozen values of hook_values.py; anything else
is caught at the border. *Observer* hooks: a plugin that raises loses only its own items and is
named, the rest goes on. *Integral* hooks run inside the write: a plugin that raises stops the step,
nothing is written. Raise HOOK_LEVEL in manifest.py with every change here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import TYPE_CHECKING

import pluggy

if TYPE_CHECKING:
    from warmside.core.answers.parts import Section
    from warmside.core.asking.ask import Ask
    from warmside.core.kinds.kind import EventKind
    from warmside.core.plugins.hook_values import (
        CareRank,
        Finding,
        LabelLine,
        Task,
    )
    from warmside.core.plugins.sheets import Sheet
    from warmside.core.record.book import Book
    from warmside.core.record.entities import Event, NewEvent, RowChange
    from warmside.core.record.steps import StepWriter
    from warmside.core.values.about import About, Whom
    from warmside.core.values.basis import Estimate
    from warmside.core.values.errors import UnknownWord
    from warmside.core.values.estimates import DayRange, Distribution
    from warmside.core.values.moments import When

hookspec = pluggy.HookspecMarker("warmside")
hookimpl = pluggy.HookimplMarker("warmside")
"""Marks a function of `hooks.py` as an implementation of the hook that it is named after."""


class Hooks:
    """The hook specifications."""

    @hookspec
    def warmside_event_kinds(self) -> Iterable[EventKind]:
        """Observer, when plugins are loaded: the kinds of event that this plugin adds."""
        return ()

    @hookspec
    def warmside_tasks(self, book: Book, ask: Ask, on: date) -> Iterable[Task]:
        """Observer, for the round and the calendar: tasks that are due on that day or before."""
        return ()

    @hookspec
    def warmside_findings(
        self, book: Book, ask: Ask, on: date, about: About | None
    ) -> Iterable[Finding]:
        """Observer, for the round and reports: what the keeper should know on that day.

        With `about`, only what concerns that animal or enclosure is wanted; more is left out.
        """
        return ()

    @hookspec
    def warmside_events_recorded(
        self, book: Book, ask: Ask, events: tuple[Event, ...], confirmed: bool
    ) -> Iterable[NewEvent]:
        """Integral, before a step commits: further events that belong to the same step.

        Gets all new events of the step at once (an import may have thousands); once more with
        those that plugins added, and no further. `book` sees what the step has written. Raise
        Doubtful for a doubtful event unless the keeper has `confirmed` the step, BadInput for an
        impossible one.
        """
        return ()

    @hookspec
    def warmside_rows_changed(
        self, book: Book, ask: Ask, changes: tuple[RowChange, ...], confirmed: bool
    ) -> Iterable[NewEvent]:
        """Integral, before a step commits: as above, for rows of tables that the step changed."""
        return ()

    @hookspec
    def warmside_care_order(self, book: Book, ask: Ask, on: date) -> Iterable[CareRank]:
        """Observer, for the round: enclosures that come later than others, and why."""
        return ()

    @hookspec
    def warmside_label_lines(
        self, book: Book, ask: Ask, about: About, on: date
    ) -> Iterable[LabelLine]:
        """Observer, for labels: lines about an animal or an enclosure, lived in or empty."""
        return ()

    @hookspec
    def warmside_report_sections(
        self, book: Book, ask: Ask, about: About, on: date
    ) -> Iterable[Section]:
        """Observer, for the report of an animal or an enclosure: its parts, as commands give."""
        return ()

    @hookspec
    def warmside_sheet_sections(
        self, book: Book, ask: Ask, sheet: Sheet, about: About, on: date, until: date
    ) -> Iterable[Section]:
        """Observer, for a sheet that goes to somebody else: what this plugin adds, in few words.

        A vet's and an owner's sheet are about one animal, as of `on`; a sitter's is about all that
        are here from `on` to `until`, or about one whom he looks after; an emergency sheet is about
        all: nobody is named. On a vet's sheet `order` is a `Place`; on the others lower is nearer
        to the top. What a vet is told stands on an owner's sheet, too.
        """
        return ()

    @hookspec
    def warmside_answer(
        self, book: Book, ask: Ask, what: str, about: Whom, on: date
    ) -> Iterable[Estimate | DayRange | Distribution]:
        """Observer, when another plugin asks: a quantity that the manifest declares, for a day.

        The asker sees every answer with the plugin that gave it.
        """
        return ()

    @hookspec
    def warmside_settle(
        self, writer: StepWriter, ask: Ask, task: Task, value: str, when: When, note: str
    ) -> Iterable[str]:
        """Integral, for a task of this plugin that no event settles: write that it was done.

        `value` is what the keeper typed with it; to a hook that does not name it none may be typed.
        Gives what was done in the keeper's words; a plugin that gives nothing leaves the task to
        its command.
        """
        return ()

    @hookspec
    def warmside_check(self, book: Book, ask: Ask) -> Iterable[str]:
        """Observer, for `file check`: what is wrong in this plugin's own data, in a line each."""
        return ()

    @hookspec
    def warmside_unknown_words(
        self, book: Book, ask: Ask, words: Mapping[str, Mapping[str, int]]
    ) -> Iterable[UnknownWord]:
        """Observer, before an import writes anything: words of which this plugin knows no meaning.

        `words` holds by field (`fed.item`) each word of the sheet with how many rows have it. What
        is given is asked about once each, beside unknown animals and kinds.
        """
        return ()
