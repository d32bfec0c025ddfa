"""What an import of a pedigree did or would do."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from warmside.api import Answer, BadInput, Column, Fact, Kind, Part, Table, Tone, Unit, Words
from warmside.plugins.lineage.pedigree_file.rows import Plan, Problem

MOST_CAUSES = 30
CAUSES = (
    Column("problem", "problem"),
    Column("where", "lines"),
    Column("lines", "lines", Kind.LIST, text=False),
)


def told(plan: Plan, file: Path, *, dry_run: bool) -> Answer:
    """The counts, what is wrong, and how to go on."""
    verb = "would enter" if dry_run else "entered"
    count = len(plan.new)
    animals = "1 animal" if count == 1 else f"{count} animals"
    parts: list[Part] = [
        Words(f"{verb} {animals} from {file}"),
        Fact("new", "new", count, Unit.COUNT),
        Fact("parents", "parents recorded", len(plan.links), Unit.COUNT),
        Fact("filled", "known better now", len(plan.fills), Unit.COUNT),
        Fact("same", "on record already", len(plan.same), Unit.COUNT),
        Fact("bad", "bad", len(plan.bad), Unit.COUNT),
        causes_table(plan.bad),
    ]
    if count:
        parts.append(Words("They are ancestors, not here; one that is here: warmside arrive CODE"))
    if not dry_run and (plan.new or plan.links or plan.fills):
        parts.append(Words("warmside undo (takes back the whole import)", Tone.HINT))
    return Answer("", tuple(parts))


def causes(bad: Sequence[Problem]) -> dict[str, list[int]]:
    """Each cause once, with its lines."""
    found: dict[str, list[int]] = {}
    for line, problem in sorted(bad):
        found.setdefault(problem, []).append(line)
    return found


def causes_table(bad: Sequence[Problem]) -> Table:
    """A row a cause."""
    every = list(causes(bad).items())
    rows = tuple((problem, lines_said(lines), tuple(lines)) for problem, lines in every)
    more = f" (the first {MOST_CAUSES} of {len(rows)})" if len(rows) > MOST_CAUSES else ""
    return Table("bad_lines", CAUSES, rows[:MOST_CAUSES], f"What is wrong{more}", empty="")


def lines_said(lines: Sequence[int]) -> str:
    """`2, 5, 9` or `2, 3, 4, 5, 6 and 93 more`."""
    shown = ", ".join(map(str, lines[:5]))
    return f"{shown} and {len(lines) - 5} more" if len(lines) > 5 else shown


def refuse_bad(plan: Plan, file: Path) -> None:
    """Raise BadInput naming the first causes, each with its lines."""
    if plan.bad:
        every = [
            f"{'line' if len(n) == 1 else 'lines'} {lines_said(n)}: {p}"
            for p, n in causes(plan.bad).items()
        ]
        more = f"; and {len(every) - 3} more causes" if len(every) > 3 else ""
        raise BadInput(
            f"{file}, {'; '.join(every[:3])}{more}; nothing was entered; mend the file, or look at "
            "all with --dry-run"
        )
