"""Notes about an animal or enclosure as label lines; settings that nothing can be printed with."""

from __future__ import annotations

from collections.abc import Iterable

from warmside.api import (
    About,
    Ask,
    Book,
    LabelLine,
    NewEvent,
    RowChange,
    Section,
    hookimpl,
    sheets,
)
from warmside.plugins.labels.reading.notes import note_lines
from warmside.plugins.labels.telling.sheets import for_sheet


@hookimpl
def warmside_label_lines(book: Book, about: About) -> Iterable[LabelLine]:
    """What the keeper noted for the labels of an animal, or of an enclosure."""
    return note_lines(book, about)


@hookimpl
def warmside_sheet_sections(ask: Ask, sheet: sheets.Sheet) -> Iterable[Section]:
    """Whom to call and what never to do, in the words that labels have, too."""
    return for_sheet(sheet, ask.settings("labels"))


@hookimpl
def warmside_rows_changed(ask: Ask, changes: tuple[RowChange, ...]) -> Iterable[NewEvent]:
    """A stock or a printer that printing would refuse is refused when it is set."""
    if any(change.table == "plugin_state" for change in changes):
        from warmside.plugins.labels.reading.settable import check_changed

        check_changed(ask, changes)
    return ()
