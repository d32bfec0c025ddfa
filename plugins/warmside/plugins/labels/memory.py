"""What is remembered between prints: the sheet begun, what each label said, the printers."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from sqlalchemy import select

from warmside.api import BadInput, Book, NotFound, StepWriter, near_miss, quoted
from warmside.plugins.labels.change import fingerprint
from warmside.plugins.labels.content import Label
from warmside.plugins.labels.places import parse_used, used_text
from warmside.plugins.labels.profile import UNCORRECTED, PrinterProfile, checked_profile
from warmside.plugins.labels.stock import Stock
from warmside.plugins.labels.tables import printed, profile, sheet

NO_PROFILE = "none"


def used_before(book: Book, stock: Stock) -> frozenset[int]:
    """The places used on the sheet of a stock that was printed last; none for a new sheet."""
    text = _sheets(book).get(stock.name, "")
    try:
        return parse_used(text, stock) if text else frozenset()
    except BadInput:  # the keeper's stock of that name has other places now
        return frozenset()


def _sheets(book: Book) -> dict[str, str]:
    return {row[0]: row[1] for row in book.rows(select(sheet.c.stock, sheet.c.used))}


def remember_sheet(writer: StepWriter, stock: Stock, used: frozenset[int]) -> None:
    """Note which places of the last sheet are gone; a page of one label needs no memory."""
    if stock.places == 1:
        return
    if stock.name in _sheets(writer.book):
        writer.change(sheet, {"stock": stock.name}, used=used_text(used))
    else:
        writer.insert(sheet, stock=stock.name, used=used_text(used))


def fingerprints(book: Book) -> dict[tuple[str, str], str]:
    """What each label said when it was last printed, by kind and code."""
    c = printed.c
    return {(kind, code): f for kind, code, f in book.rows(select(c.kind, c.code, c.fingerprint))}


def is_changed(label: Label, before: dict[tuple[str, str], str]) -> bool:
    """Whether a label says something else than when it was last printed, or never was."""
    return before.get((label.kind.value, label.code_text)) != fingerprint(label)


def remember_printed(writer: StepWriter, labels: Iterable[Label], on: date) -> None:
    """Note what each label says now."""
    known = fingerprints(writer.book)
    for label in labels:
        key = {"kind": label.kind.value, "code": label.code_text}
        values = {"fingerprint": fingerprint(label), "day": on.isoformat()}
        if (label.kind.value, label.code_text) in known:
            writer.change(printed, key, **values)
        else:
            writer.insert(printed, **key, **values)


def profiles(book: Book) -> dict[str, tuple[PrinterProfile, str]]:
    """The printers' corrections and the days they were measured, by name."""
    c = profile.c
    query = select(
        c.name, c.offset_x_mm, c.offset_y_mm, c.scale_x, c.scale_y, c.rotation_deg, c.day
    ).order_by(c.name)
    return {r[0]: (checked_profile(PrinterProfile(*r[1:6])), r[6]) for r in book.rows(query)}


def profile_named(book: Book, name: str) -> PrinterProfile:
    """The correction of that name; none for an empty name or `none`."""
    if not name or name == NO_PROFILE:
        return UNCORRECTED
    known = profiles(book)
    if name not in known:
        raise NotFound(
            f"there is no printer profile {quoted(name)!r}{near_miss(name, known)}; "
            "see: warmside labels calibrate list"
        )
    return known[name][0]


def store_profile(writer: StepWriter, name: str, found: PrinterProfile) -> None:
    """Set or replace the correction of that name."""
    values = {
        "offset_x_mm": found.offset_x_mm,
        "offset_y_mm": found.offset_y_mm,
        "scale_x": found.scale_x,
        "scale_y": found.scale_y,
        "rotation_deg": found.rotation_deg,
        "day": writer.book.today.isoformat(),
    }
    if name in profiles(writer.book):
        writer.change(profile, {"name": name}, **values)
    else:
        writer.insert(profile, name=name, **values)


def drop_profile(writer: StepWriter, name: str) -> None:
    """Remove the correction of that name; NotFound where there is none."""
    if name == NO_PROFILE or not name:
        raise NotFound("that is no printer profile; see: warmside labels calibrate list")
    profile_named(writer.book, name)
    writer.remove(profile, {"name": name})
