"""Labels printed: what was asked for, planned from the book, then written and noted together."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import Answer, BadInput, Session, counted, near_miss, quoted
from warmside.plugins.labels.commands.keeping import remember_printed, remember_sheet
from warmside.plugins.labels.commands.pdf_file import check_target, write_pdf
from warmside.plugins.labels.content.label import Label, LabelKind
from warmside.plugins.labels.content.picking import Ready
from warmside.plugins.labels.drawing.sheet import SheetOptions, SheetResult, draw_sheets
from warmside.plugins.labels.paper.places import parse_used, used_text
from warmside.plugins.labels.paper.stock import Stock
from warmside.plugins.labels.reading.choosing import SORTS, Choice
from warmside.plugins.labels.reading.memory import profile_named, used_before
from warmside.plugins.labels.reading.papers import paper_of, profile_in_use
from warmside.plugins.labels.reading.portraits import portraits_of
from warmside.plugins.labels.reading.ready import Wanted, ready_labels
from warmside.plugins.labels.telling.printed import nothing_changed, printed_answer

NEXT = "next"


class Printing(Struct, frozen=True):
    """What to print, for whom, and onto which places of which paper.

    `start` is the number of the first place, or `next` to go on with the sheet printed last.
    """

    target: Path
    kind: str
    choice: Choice
    lines: str = ""
    hazard: str = ""
    changed: bool = False
    copies: int = 1
    stock: str = ""
    stocks: Path | None = None
    start: str | None = None
    used: str = ""
    profile: str | None = None
    cut_lines: bool = False
    cut_marks: bool = False
    preview: bool = False
    overwrite: bool = False
    pictures: bool = False


class Plan(Struct, frozen=True):
    """The labels that are ready and where they go; `offer` names a begun sheet not gone on with."""

    wanted: Printing
    paper: Stock
    ready: list[Ready]
    warnings: list[str]
    options: SheetOptions
    offer: str
    on: date

    @property
    def labels(self) -> list[Label]:
        """The labels in the order of the print."""
        return [r.label for r in self.ready]


def plan(session: Session, wanted: Printing) -> Plan:
    """All that is read and checked before a print; BadInput, NotFound or Refused say what."""
    check_target(wanted.target, wanted.overwrite)
    labels = _labels(wanted)
    with session.ask() as ask:
        on = ask.book.today
        paper = paper_of(ask, wanted.stock, wanted.stocks, labels.kind)
        ready, warnings = ready_labels(ask, labels, on)
        before = used_before(ask.book, paper)
        profile = profile_named(ask.book, profile_in_use(ask, wanted.profile))
        pictures, without = portraits_of(session, ask, ready) if wanted.pictures else ({}, [])
    first, gone = _places(wanted, before, paper) if ready else (1, before)
    options = SheetOptions(
        first, gone, wanted.copies, wanted.cut_lines, wanted.cut_marks, wanted.preview, profile
    )
    options = replace(options, pictures=pictures)
    offer = _offer(wanted, before, paper) if ready else ""
    return Plan(wanted, paper, ready, [*warnings, *without], options, offer, on)


def _labels(wanted: Printing) -> Wanted:
    kind = LabelKind(_one_of("kind", wanted.kind, [k.value for k in LabelKind]))
    if wanted.pictures and kind is not LabelKind.ANIMAL:
        raise BadInput("pictures stand on animals' cards: add --kind animal")
    choice = replace(wanted.choice, sort=_one_of("sort", wanted.choice.sort, SORTS))
    return Wanted(kind, choice, wanted.lines, wanted.hazard, wanted.changed)


def printed(session: Session, planned: Plan) -> Answer:
    """Write the file, and unless it is a preview note what was printed; both or neither."""
    if not planned.ready:
        return nothing_changed()
    target, preview = planned.wanted.target, planned.wanted.preview
    result = draw_sheets(planned.labels, planned.paper, planned.options)
    if preview:
        write_pdf(target, result.pdf)
    else:
        _keep(session, planned, result)
    offer = f"{planned.offer}; to go on there: --start next" if planned.offer else ""
    warnings = (*planned.warnings, *result.warnings)
    return printed_answer(
        target, planned.paper, planned.ready, result, preview, warnings, "" if preview else offer
    )


def _keep(session: Session, planned: Plan, result: SheetResult) -> None:
    words = f"printed {counted(len(result.placed), 'label')} on {planned.paper.name}"
    with session.step(words) as writer:
        remember_sheet(writer, planned.paper, result.used)
        remember_printed(writer, planned.labels, planned.on)
        write_pdf(planned.wanted.target, result.pdf)


def _one_of(what: str, text: str, allowed: Sequence[str]) -> str:
    """The allowed word that was typed; BadInput with a near miss for another."""
    word = text.strip().lower()
    if word not in allowed:
        near = near_miss(word, allowed)
        raise BadInput(f"no {what} {quoted(text)!r}{near}; it is one of {', '.join(allowed)}")
    return word


def _offer(wanted: Printing, before: frozenset[int], paper: Stock) -> str:
    """The sheet that was begun, where nothing was typed about places."""
    if wanted.start is not None or wanted.used or not before:
        return ""
    return f"used on the last sheet of {paper.name}: {used_text(before)}"


def _places(wanted: Printing, before: frozenset[int], paper: Stock) -> tuple[int, frozenset[int]]:
    """The first place, and the places gone before it or after it."""
    typed = parse_used(wanted.used, paper) if wanted.used else frozenset()
    start = "1" if wanted.start is None else wanted.start.strip().lower()
    if start == NEXT:
        return 1, typed | before
    if not start.isdecimal() or len(start) > 6:
        raise BadInput(
            f"start {quoted(wanted.start or '')!r} is no place; write 1 to {paper.places}, or next"
        )
    return int(start), typed
