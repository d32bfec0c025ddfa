"""The year of a sheet: in its titles, and which of its days say none."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from warmside.core.csv.sheet import asked
from warmside.core.csv.sheet.days import DayReader
from warmside.core.csv.sheet.usual_words import is_ditto
from warmside.core.values.errors import BadInput


def without_year(texts: Sequence[str], today: date, order: str) -> str:
    """The first day that says no year; nothing where all do."""
    reader = DayReader(asked.order_stated(order), today)
    for text in texts:
        try:
            reader.read(text)
        except BadInput as error:
            if "no year" in str(error) and not is_ditto(text):
                return text
    return ""


def year_in(titles: list[str]) -> int | None:
    """The one year that the titles name; None where they name none or several."""
    found = {w for t in titles for w in words_in(t) if w.isdigit() and w[:2] in ("19", "20")}
    years = [w for w in found if len(w) == 4]
    return int(years[0]) if len(years) == 1 else None


def words_in(text: str) -> list[str]:
    """The words of a title, and the title itself, which may be a name of several."""
    return [*"".join(c if c.isalnum() else " " for c in text).split(), text]
