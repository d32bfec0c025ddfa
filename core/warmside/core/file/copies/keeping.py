"""Which of the daily copies are kept: some of days, some of weeks, some of months. No imports."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from warmside.core.values.errors import BadInput

RULE = re.compile(r"(\d{1,3}) days?, (\d{1,3}) weeks?, (\d{1,3}) months?")


class Keeping(NamedTuple):
    """For how many days, weeks and months with a copy one is kept."""

    days: int
    weeks: int
    months: int

    @property
    def text(self) -> str:
        """The rule as the file holds it."""
        return f"{self.days} days, {self.weeks} weeks, {self.months} months"


USUAL = Keeping(14, 8, 24)  # common practice, no source


def parse_keeping(text: str) -> Keeping:
    """The rule that was typed; at least one daily copy is kept."""
    found = RULE.fullmatch(text.strip())
    if found is None or not int(found[1]):
        raise BadInput(f"cannot read {text!r} as a rule for copies; write: {USUAL.text}")
    return Keeping(*map(int, found.groups()))


def kept(days: Iterable[date], rule: Keeping) -> set[date]:
    """The days whose copies are kept: the newest ones, and the first of newest weeks and months."""
    every = sorted(set(days))
    weeks: dict[tuple[int, int], date] = {}
    months: dict[tuple[int, int], date] = {}
    for day in every:
        weeks.setdefault(day.isocalendar()[:2], day)
        months.setdefault((day.year, day.month), day)
    newest_weeks = list(weeks.values())[len(weeks) - min(rule.weeks, len(weeks)) :]
    newest_months = list(months.values())[len(months) - min(rule.months, len(months)) :]
    return {*every[-rule.days :], *newest_weeks, *newest_months}
