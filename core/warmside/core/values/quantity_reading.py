"""The mechanics of reading a typed quantity: numbers, names of scales, and what is in doubt.

Text is parsed in exact decimal arithmetic.
"""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from itertools import pairwise
from typing import NamedTuple

from warmside.core.values.hints import closest, quoted
from warmside.core.values.measures.measure import Limit, Measure
from warmside.core.values.scales import Scale

_LONGEST_TEXT = 60

# patterns are compiled when first used: a start mostly needs none
_NUMBER = r"[+-]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,2})?"
_GROUPED = r"[+-]?[1-9][0-9]{0,2},[0-9]{3}"
_LOOKALIKES = str.maketrans(
    {
        "º": "°",
        "⁄": "/",
        "˚": "°",
        "−": "-",
        "–": "-",
        "′": "'",
        "’": "'",
        "‘": "'",
        "“": '"',
        "”": '"',
    }
)


class Doubt(Exception):
    """What is wrong with the text and what to do; the entry point adds the text itself."""

    def __init__(self, wrong: str, remedy: str) -> None:
        super().__init__(wrong)
        self.wrong = wrong
        self.remedy = remedy


def tidied(text: str) -> str:
    """One spelling for signs that look alike, for width and for spaces."""
    text = unicodedata.normalize("NFKC", text.translate(_LOOKALIKES)).translate(_LOOKALIKES)
    text = "".join(c if c.isprintable() else " " for c in text)
    text = " ".join(text.replace("''", '"').replace("^2", "2").split())
    return text.replace("° ", "°")


class Reading(NamedTuple):
    """Reads texts of one measure; `bare` is the scale of a number without a unit, if allowed."""

    measure: Measure
    help: str
    bare: Scale | None

    def of(self, typed: str) -> list[tuple[Decimal, Scale]]:
        """The numbers of the text, each with its scale."""
        pairs = self._pairs(typed)
        if len(pairs) == 1 and not pairs[0][1] and self.bare:
            return [(_decimal(pairs[0][0]), self.bare)]
        if len(pairs) > 1 and not pairs[-1][1]:
            raise Doubt(f"has no unit after {pairs[-1][0]}", f"write {self.help}")
        return [(_decimal(number), self._named(name, number)) for number, name in pairs]

    def _pairs(self, typed: str) -> list[tuple[str, str]]:
        """The text cut into numbers and what stands behind each."""
        write = f"write {self.help}"
        if len(typed) > _LONGEST_TEXT:
            raise Doubt("is too long for a quantity", write)
        first = re.match(_NUMBER, typed)
        if first is None:
            raise Doubt("is no number" if typed else "was typed", write)
        if not any(scale.chain for scale in self.measure.scales):
            pairs = [(first[0], typed[first.end() :].strip())]
        else:
            _, *cut = re.split(f"({_NUMBER})", typed)
            pairs = [(n, name.strip()) for n, name in zip(cut[::2], cut[1::2], strict=True)]
        _check_cut(pairs, write)
        return pairs

    def _named(self, name: str, number: str) -> Scale:
        """The scale of a typed unit name."""
        if not name:
            raise Doubt("has no unit", f"write {self._with_units(number)}")
        key = name.replace(" per ", "/").replace(" / ", "/").replace(". ", " ")
        key = key.rstrip(". ").casefold()
        known = self.measure.by_name
        if key in known:
            return known[key]
        if key in self.measure.refused:
            raise Doubt(*self.measure.refused[key])
        near = closest(key, [n for n in known if n])
        meant = f" (did you mean {known[near].names[0]!r}?)" if near else ""
        words = self.measure.words
        raise Doubt(
            f"has {quoted(name)!r}, which is no unit for {words}{meant}", f"write {self.help}"
        )

    def _with_units(self, number: str) -> str:
        """The number as it might have been meant: `86C or 86F`."""
        _decimal(number)  # refuse what has two meanings first
        return " or ".join(f"{number}{scale.names[0]}" for scale in self.measure.offered)


def _check_cut(pairs: list[tuple[str, str]], write: str) -> None:
    """Refuse numbers that were cut where no unit stands between: `1/2`, `1,234.5`, `3-4`."""
    if any(re.match(r"/$|/ ?[0-9]", name) for _, name in pairs):
        raise Doubt("holds a fraction", "write it as a decimal number, 0.5 for 1/2")
    glued = any(not name and after[0] in ".," for (_, name), (after, _) in pairwise(pairs))
    if glued or any(re.match("[.,] ?[0-9]", name) for _, name in pairs):
        raise Doubt("cannot be read as one number", "write it without thousands separators")
    if any(not name for _, name in pairs[:-1]) or any(n[0] in "+-" for n, _ in pairs[1:]):
        raise Doubt("cannot be read as one quantity", write)


def _decimal(number: str) -> Decimal:
    """The number; a comma that might group thousands is refused."""
    if re.fullmatch(_GROUPED, number):
        whole, fraction = number.replace(",", ""), number.replace(",", ".")
        raise Doubt(
            f"could mean {whole} or {fraction}", "write it with a decimal point or without comma"
        )
    return Decimal(number.replace(",", "."))


def total_of(parts: list[tuple[Decimal, Scale]]) -> Decimal:
    """The stored value of all parts; only the first may carry a sign."""
    for (number, above), (smaller, below) in pairwise(parts):
        ratio = above.holds(below)
        if not above.chain or above.chain != below.chain or ratio <= 1:
            raise Doubt("cannot be read as one quantity", "write one unit, or the larger first")
        if number != int(number):
            raise Doubt("has a fraction before its last part", "write it in one unit")
        if smaller >= ratio:
            raise Doubt(
                f"has {smaller} {below.symbol}, which is 1 {above.symbol} or more",
                "check the numbers",
            )
    sign = -1 if parts[0][0].is_signed() and len(parts) > 1 else 1
    first = parts[0][1].to_stored(parts[0][0])
    return first + sign * sum((s.to_stored(n) for n, s in parts[1:]), Decimal(0))


def check_limits(total: Decimal, measure: Measure, help: str) -> None:
    """Refuse what no quantity of that measure can be; narrower limits belong to the field."""
    least, most = measure.least, measure.most
    if least is not None and total < least.value:
        raise _beyond(least)
    if measure.whole and total != int(total):
        raise Doubt("is no whole number", f"write {help}")
    if abs(total) > most.value:
        raise _beyond(most)


def _beyond(limit: Limit) -> Doubt:
    return Doubt(limit.wrong, limit.remedy)
