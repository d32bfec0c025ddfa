"""What is wrong or doubtful in a file: each cause once, with its lines."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct

MOST_LINES = 6


class Cause(Struct, frozen=True):
    """A problem in the keeper's words, and the lines of the file that have it."""

    problem: str
    lines: tuple[int, ...]

    @property
    def said(self) -> str:
        """The cause as one sentence that begins with its lines."""
        return f"{lines_said(self.lines)}: {self.problem}"


def causes(found: Iterable[tuple[int, str]]) -> tuple[Cause, ...]:
    """The lines by their problem, in the order in which the problems first come."""
    by_problem: dict[str, list[int]] = {}
    for line, problem in found:
        by_problem.setdefault(problem, []).append(line)
    return tuple(Cause(problem, tuple(lines)) for problem, lines in by_problem.items())


def lines_said(lines: Sequence[int]) -> str:
    """`line 2`, `lines 2, 5 and 9`, or `lines 2, 3, 4, 5, 6, 7 and 93 more`."""
    lines = tuple(dict.fromkeys(lines))  # a line of a grid may have several
    if len(lines) == 1:
        return f"line {lines[0]}"
    shown = [str(n) for n in lines[:MOST_LINES]]
    more = len(lines) - len(shown)
    *first, last = [*shown, f"{more} more"] if more else shown
    return f"lines {', '.join(first)} and {last}"
