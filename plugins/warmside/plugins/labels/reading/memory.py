"""What is remembered between prints: the sheet begun, what each label said, the printers."""

from __future__ import annotations

from typing import NamedTuple

from warmside.api import BadInput, Book, NotFound, near_miss, quoted
from warmside.plugins.labels.content.label import Label, fingerprint
from warmside.plugins.labels.paper.places import parse_used
from warmside.plugins.labels.paper.profile import UNCORRECTED, PrinterProfile, checked_profile
from warmside.plugins.labels.paper.stock import Stock

NO_PROFILE = "none"


class Measured(NamedTuple):
    """A printer's correction, and the day on which it was measured."""

    profile: PrinterProfile
    day: str


def sheets(book: Book) -> dict[str, str]:
    """The places used on the sheet of each stock that was printed last, as text."""
    return dict(book.rows("SELECT stock, used FROM labels_sheet"))


def used_before(book: Book, stock: Stock) -> frozenset[int]:
    """The places used on the sheet of a stock that was printed last; none for a new sheet."""
    text = sheets(book).get(stock.name, "")
    try:
        return parse_used(text, stock) if text else frozenset()
    except BadInput:  # the keeper's stock of that name has other places now
        return frozenset()


def fingerprints(book: Book) -> dict[tuple[str, str], str]:
    """What each label said when it was last printed, by kind and code."""
    rows = book.rows("SELECT kind, code, fingerprint FROM labels_printed")
    return {(kind, code): said for kind, code, said in rows}


def is_changed(label: Label, before: dict[tuple[str, str], str]) -> bool:
    """Whether a label says something else than when it was last printed, or never was."""
    return before.get((label.kind.value, label.code_text)) != fingerprint(label)


def profiles(book: Book) -> dict[str, Measured]:
    """The printers' corrections, by name."""
    rows = book.rows(
        "SELECT name, day, offset_x_mm, offset_y_mm, scale_x, scale_y, rotation_deg "
        "FROM labels_profile ORDER BY name"
    )
    return {
        name: Measured(checked_profile(PrinterProfile(*values)), day) for name, day, *values in rows
    }


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
    return known[name].profile
