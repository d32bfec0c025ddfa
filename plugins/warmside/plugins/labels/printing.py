"""`warmside labels print`: labels onto the free places of a sheet, as a PDF."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Book, Session, near_miss, quoted, session_of
from warmside.plugins.labels.building import Ready, Wanted, ready_labels
from warmside.plugins.labels.choosing import SORTS, Choice
from warmside.plugins.labels.content import LabelKind
from warmside.plugins.labels.fitting import SIGNS
from warmside.plugins.labels.memory import (
    fingerprints,
    is_changed,
    profile_named,
    remember_printed,
    remember_sheet,
    used_before,
)
from warmside.plugins.labels.pdf_file import check_target, write_pdf
from warmside.plugins.labels.places import parse_used, used_text
from warmside.plugins.labels.sheet import SheetOptions, SheetResult, draw_sheets
from warmside.plugins.labels.stock import Stock, find_stock
from warmside.plugins.labels.stockfile import all_stocks, read_stocks
from warmside.plugins.labels.told import nothing_changed, printed_answer

NEXT = "next"


def print_labels(
    context: typer.Context,
    target: Annotated[Path, typer.Argument(metavar="FILE.pdf", help="The file to write.")],
    kind: Annotated[str, typer.Option(help=", ".join(LabelKind))] = LabelKind.ENCLOSURE.value,
    enclosure: Annotated[
        list[str] | None, typer.Option(help="Only this enclosure; may be given again.")
    ] = None,
    animal: Annotated[
        list[str] | None, typer.Option(help="Only this animal, or where it lives.")
    ] = None,
    room: Annotated[str | None, typer.Option(help="Only in this room.")] = None,
    state: Annotated[
        str | None, typer.Option(help="Only those a plugin sets apart, such as quarantined.")
    ] = None,
    changed: Annotated[
        bool, typer.Option("--changed", help="Only what changed since it was printed.")
    ] = False,
    sort: Annotated[str, typer.Option(help=", ".join(SORTS))] = SORTS[0],
    lines: Annotated[
        str, typer.Option(help="Lines by key, in that order; see: warmside labels lines")
    ] = "",
    hazard: Annotated[str, typer.Option(help="The danger, for hazard signs.")] = "",
    copies: Annotated[int, typer.Option(help="How often each label is printed.")] = 1,
    stock: Annotated[str, typer.Option(help="See: warmside labels stocks")] = "",
    stocks: Annotated[
        Path | None, typer.Option(metavar="FILE.toml", help="A file with stocks of your own.")
    ] = None,
    start: Annotated[
        str | None, typer.Option(metavar="N", help="First free place, or: next")
    ] = None,
    used: Annotated[
        str, typer.Option(metavar="PLACES", help="Places already gone, such as 1-7,12.")
    ] = "",
    profile: Annotated[
        str | None, typer.Option(help="Printer profile, or none; see: warmside labels calibrate")
    ] = None,
    cut_lines: Annotated[
        bool, typer.Option("--cut-lines", help="Outlines to cut along, for plain paper.")
    ] = False,
    preview: Annotated[
        bool, typer.Option("--preview", help="Cross out used places; nothing is noted.")
    ] = False,
    replace: Annotated[
        bool, typer.Option("--replace", help="Write over any file, not only over labels.")
    ] = False,
) -> Answer:
    """Write labels, cards or signs as a PDF.

    By default a label for each enclosure in use.
    """
    session = session_of(context)
    check_target(target, replace)
    choice = Choice(
        tuple(enclosure or ()), tuple(animal or ()), room, state, one_of("sort", sort, SORTS)
    )
    wanted = Wanted(
        LabelKind(one_of("kind", kind, [k.value for k in LabelKind])), choice, lines, hazard
    )
    with session.read() as book:
        on = book.today
        paper = paper_of(book, stock, stocks, wanted.kind)
        ready, warnings = ready_labels(book, wanted, on)
        ready = _changed(book, ready) if changed else ready
        if not ready:
            return nothing_changed()
        gone = _Gone(start, used, used_before(book, paper))
        first, used_places = gone.places(session, paper)
        correction = profile_named(book, book_profile(book, profile))
    options = SheetOptions(first, used_places, copies, cut_lines, preview, correction)
    result = draw_sheets([r.label for r in ready], paper, options)
    _keep(session, target, preview, paper, ready, result, on)
    hint = "" if gone.is_settled or preview else gone.hint(paper)
    return printed_answer(
        target, paper, ready, result, preview, (*warnings, *result.warnings), hint
    )


def one_of(what: str, text: str, allowed: Sequence[str]) -> str:
    """The allowed word that was typed; BadInput with a near miss for another."""
    word = text.strip().lower()
    if word not in allowed:
        near = near_miss(word, allowed)
        raise BadInput(f"no {what} {quoted(text)!r}{near}; it is one of {', '.join(allowed)}")
    return word


def paper_of(
    book: Book, name: str, file: Path | None, kind: LabelKind = LabelKind.ENCLOSURE
) -> Stock:
    """The stock that was named, or the one of the settings, shipped or the keeper's own."""
    setting = "sign_stock" if kind in SIGNS else "stock"
    return find_stock(name or book.setting("labels", setting), stocks_known(book, file))


def stocks_known(book: Book, file: Path | None) -> tuple[Stock, ...]:
    """The shipped stocks and those of the file, or of the file in the settings."""
    kept = book.setting("labels", "stocks_file")
    path = file or (Path(kept).expanduser() if kept else None)
    return all_stocks(read_stocks(path) if path else ())


def book_profile(book: Book, name: str | None) -> str:
    """The profile that was named, or the one of the settings."""
    return str(book.setting("labels", "profile")) if name is None else name


def _changed(book: Book, ready: list[Ready]) -> list[Ready]:
    before = fingerprints(book)
    return [r for r in ready if is_changed(r.label, before)]


@dataclass(frozen=True, slots=True)
class _Gone:
    """What was typed about used places, and what is remembered of the sheet printed last."""

    start: str | None
    used: str
    before: frozenset[int]

    @property
    def is_settled(self) -> bool:
        """Whether there is nothing to offer: a place was named, or the last sheet was full."""
        return self.start is not None or bool(self.used) or not self.before

    def places(self, session: Session, stock: Stock) -> tuple[int, frozenset[int]]:
        """The first place, and the places gone before it or after it."""
        typed = parse_used(self.used, stock) if self.used else frozenset()
        go_on = (self.start or "").strip().lower() == NEXT
        if not self.is_settled and session.asks:
            go_on = typer.confirm(f"{self._ended(stock)}; go on there?", default=True, err=True)
        if go_on:
            return 1, typed | self.before
        return (1 if self.start is None else _number(self.start, stock)), typed

    def hint(self, stock: Stock) -> str:
        """The offer to go on with the sheet that was begun."""
        return f"{self._ended(stock)}; to go on there: --start next"

    def _ended(self, stock: Stock) -> str:
        return f"used on the last sheet of {stock.name}: {used_text(self.before)}"


def _number(text: str, stock: Stock) -> int:
    if not text.strip().isdecimal() or len(text.strip()) > 6:
        raise BadInput(f"start {quoted(text)!r} is no place; write 1 to {stock.places}, or next")
    return int(text)


def _keep(
    session: Session,
    target: Path,
    preview: bool,
    stock: Stock,
    ready: list[Ready],
    result: SheetResult,
    on: date,
) -> None:
    """Write the file, and unless it is a preview note what was printed; both or neither."""
    if preview:
        write_pdf(target, result.pdf)
        return
    with session.step(f"printed {len(result.placed)} labels on {stock.name}") as writer:
        remember_sheet(writer, stock, result.used)
        remember_printed(writer, [r.label for r in ready], on)
        write_pdf(target, result.pdf)
