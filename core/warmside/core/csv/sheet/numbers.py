"""Which mark stands before decimals, judged over all numbers of a file; else it is asked."""

from __future__ import annotations

import re
from collections.abc import Iterable

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted

NUMBER = r"[+-]?\d[\d.,'’ \u00a0\u202f]*"
_MARKED = re.compile(r"\d[\d.,'’]*[.,][\d.,]*\d")


def decimal_mark(texts: Iterable[str]) -> str:
    """`.` or `,`; `?` where numbers such as 1.268 could be either and nothing tells.

    Where no number has a mark the point is as good as any.
    """
    proved, open_marks = set[str](), set[str]()
    for text in texts:
        for number in _MARKED.finditer(text):
            found = number[0]
            marks = [c for c in found if c in ".,"]
            last = marks[-1]
            whole, _, after = found.rpartition(last)
            if len(set(marks)) > 1:
                proved.add(last)
            elif len(marks) > 1:
                proved.add("," if last == "." else ".")
            elif len(after) != 3 or len(whole) > 3 or whole.startswith("0"):
                proved.add(last)
            else:
                open_marks.add(last)
    if len(proved) == 1:
        return proved.pop()
    return "?" if proved or open_marks else "."


def plain_number(text: str, mark: str) -> str:
    """The number with a decimal point and without signs between thousands; else BadInput.

    A mark that is not the file's decimal mark must stand before exactly three digits.
    """
    bare: str = re.sub(r"['’ \u00a0\u202f]", "", text)
    other = "," if mark == "." else "."
    groups = rf"[+-]?\d{{1,3}}(?:\{other}\d{{3}})+(?:\{mark}\d+)?"
    if other in bare and not re.fullmatch(groups, bare):
        raise BadInput(f"{quoted(text)} does not go with {mark!r} before decimals; see --decimal")
    return bare.replace(other, "").replace(mark, ".")
