"""Where the table of a sheet is, and of which shape; all shapes are brought to one, long."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator

from msgspec import Struct

from warmside.core.csv.sheet.days import looks_like_day, month_of
from warmside.core.csv.sheet.grid import Flat, Grid, Row
from warmside.core.csv.sheet.headings import ANIMAL, DATE, heading_of
from warmside.core.csv.sheet.usual_words import TOTALS, folded, is_nothing

CELL = "cell"
"""The column of what stood in an animal's own column, or under a day."""
LOOKED_THROUGH = 40
FEWEST_DAYS = 7


class Known(Struct, frozen=True):
    """What tells headings from cells: names of animals, and columns that a mapping names."""

    animal: Callable[[str], bool]
    columns: frozenset[str] = frozenset()

    def role(self, text: str) -> str:
        """The role of a heading; `mapped` where only the mapping knows it; else empty."""
        return "mapped" if text in self.columns else heading_of(text).role


def flat(grid: Grid, known: Known, year: int | None) -> Flat:
    """The sheet as one long table; what was left away is said."""
    days = [n for n, row in enumerate(grid.rows) if is_day_row(row)]
    if days:
        return _calendar(grid, days, known, year)
    place = header_place(grid, known)
    titles, header, below = grid.rows[:place], grid.rows[place], grid.rows[place + 1 :]
    rows = tuple(_records(below, header))
    said = _left_away(titles, len(below) - len(rows), header)
    columns = _named(header, max(len(r.cells) for r in (header, *rows)))
    if months := _under_months(rows, year):
        rows = months
    above = titles[-1] if titles else None
    if above is not None and sum(map(known.animal, above.filled)) and _is_grouped(header):
        return _grouped(above, header, rows, known, said)
    own = [n for n, c in enumerate(header.cells) if known.animal(c) and not known.role(c)]
    if own and ANIMAL not in map(known.role, header.cells):
        return _wide(columns, rows, known, said)
    return Flat(columns, rows, said)


def header_place(grid: Grid, known: Known) -> int:
    """The row of headings: the one that tells most, else the first of several cells."""

    def telling(row: Row) -> int:
        if any(looks_like_day(c) for c in row.cells):
            return 0
        return sum(bool(known.role(c)) or known.animal(c) for c in row.filled)

    first = grid.rows[:LOOKED_THROUGH]
    best = max(range(len(first)), key=lambda n: (telling(first[n]), -n))
    if telling(first[best]) >= 2:
        return best
    return next((n for n, row in enumerate(first) if len(row.filled) > 1), 0)


def is_day_row(row: Row) -> bool:
    """Whether a row is numbers of days, one after the other, as over a calendar's columns."""
    numbers = [int(c) for c in row.cells if c.isdigit()]
    rising = all(b == a + 1 for a, b in itertools.pairwise(numbers) if b != 1)
    return len(numbers) >= FEWEST_DAYS and rising and all(1 <= n <= 31 for n in numbers)


def title_words(grid: Grid, known: Known) -> list[str]:
    """The cells above the table: what the sheet is called, whose it is."""
    days = [n for n, row in enumerate(grid.rows) if is_day_row(row)]
    place = days[0] if days else header_place(grid, known)
    return [c for row in grid.rows[:place] for c in row.filled]


def _records(rows: tuple[Row, ...], header: Row) -> Iterator[Row]:
    """The rows without totals and without the header repeated on a further page."""
    for row in rows:
        words = folded(row.filled[0])
        total = words.startswith(TOTALS) and (words in TOTALS or words.split()[0] in TOTALS)
        if row.cells != header.cells and not total:
            yield row


def _left_away(titles: tuple[Row, ...], dropped: int, header: Row) -> tuple[str, ...]:
    said = [f"the headings are in line {header.line}"]
    if dropped:
        said.append(
            f"{dropped} {'row' if dropped == 1 else 'rows'} of totals or headings left away"
        )
    return tuple(said if titles or dropped else said[1:])


def _named(header: Row, width: int) -> tuple[str, ...]:
    """Names of all columns, each once; those without a heading are called by their letter."""
    names: list[str] = []
    for place in range(width):
        name = header.cell(place) or f"column {place + 1}"
        names.append(f"{name} ({place + 1})" if name in names else name)
    return tuple(names)


def _under_months(rows: tuple[Row, ...], year: int | None) -> tuple[Row, ...]:
    """Rows of a day's number under rows that name a month, with whole dates; else nothing."""
    if not any(len(r.filled) == 1 and month_of(r.filled[0]) for r in rows):
        return ()
    made, month = list[Row](), (0, year)
    for row in rows:
        found = month_of(row.filled[0]) if len(row.filled) == 1 else None
        if found:
            month = (found[0], found[1] or month[1])
        elif row.cell(0).rstrip(".").isdigit() and month[0]:
            day = _iso(month[1], month[0], int(row.cell(0).rstrip(".")))
            made.append(Row(row.line, (day, *row.cells[1:])))
        else:
            made.append(row)
    return tuple(made)


def _iso(year: int | None, month: int, day: int) -> str:
    """The date as text; without its year where that is not known."""
    return f"{year}-{month:02}-{day:02}" if year else f"{day} {_MONTHS[month - 1]}"


_MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]


def _wide(
    columns: tuple[str, ...], rows: tuple[Row, ...], known: Known, said: tuple[str, ...]
) -> Flat:
    """A row for each filled cell of a column that is called after an animal."""
    shared = [n for n, c in enumerate(columns) if known.role(c) or c == f"column {n + 1}"]
    if DATE not in (heading_of(c).role for c in columns) and 0 not in shared:
        shared = [0, *shared]
    own = [n for n in range(len(columns)) if n not in shared]
    made = tuple(
        Row(row.line, (*(row.cell(n) for n in shared), columns[n], row.cell(n)))
        for row in rows
        for n in own
        if not is_nothing(row.cell(n))
    )
    heads = tuple(columns[n] for n in shared)
    return Flat((*heads, ANIMAL, CELL), made, (*said, "each animal has a column of its own"))


def _is_grouped(header: Row) -> bool:
    roles = [r for r in (heading_of(c).role for c in header.cells) if r not in ("", DATE)]
    return len(roles) > len(set(roles)) or ANIMAL not in roles


def _grouped(
    above: Row, header: Row, rows: tuple[Row, ...], known: Known, said: tuple[str, ...]
) -> Flat:
    """Columns under merged headings of animals: a row for each animal."""
    owners, owner = list[str](), ""
    for place in range(max(len(header.cells), len(above.cells))):
        cell = above.cell(place)
        owner = "" if cell and known.role(cell) else (cell or owner)
        owners.append(owner)
    shared = [n for n, who in enumerate(owners) if not who]
    names = [header.cell(n) or above.cell(n) or DATE for n in shared]
    heads = list(dict.fromkeys(header.cell(n) for n, who in enumerate(owners) if who))
    made = list[Row]()
    for row in rows:
        for who in dict.fromkeys(w for w in owners if w):
            cells = dict.fromkeys(heads, "")
            for n, w in enumerate(owners):
                if w == who:
                    cells[header.cell(n)] = row.cell(n)
            if any(not is_nothing(c) for c in cells.values()):
                made.append(Row(row.line, (*(row.cell(n) for n in shared), who, *cells.values())))
    words = (*said, "animals stand in a heading over several columns each")
    return Flat((*names, ANIMAL, *heads), tuple(made), words)


def _calendar(grid: Grid, day_rows: list[int], known: Known, year: int | None) -> Flat:
    """A grid of days: a row for each filled cell, with its animal or its month at the left."""
    made, month = list[Row](), (0, year)
    seen: list[str] = []
    for start, end in zip(day_rows, [*day_rows[1:], len(grid.rows)], strict=True):
        head = grid.rows[start]
        before = grid.rows[(day_rows[day_rows.index(start) - 1] + 1 if seen else 0) : start]
        for text in [*(c for row in before for c in row.filled), *head.filled]:
            month = _later_month(text, month)
        for row in grid.rows[start + 1 : end]:
            label = row.cell(0)
            seen.append(label)
            if len(row.filled) < 2 or folded(label).startswith(TOTALS):
                continue
            made.extend(_days_of(row, head, month, known))
    columns = (DATE, ANIMAL, CELL)
    return Flat(columns, tuple(made), ("it is a grid with a column for each day",))


def _later_month(text: str, month: tuple[int, int | None]) -> tuple[int, int | None]:
    if text.isdigit() and len(text) == 4:
        return month[0], int(text)
    for words in (text, text.rpartition(" - ")[2], " ".join(text.split()[-2:]), text.split()[-1]):
        found = month_of(words) if not words.isdigit() else None
        if found:
            return found[0], found[1] or month[1]
    return month


def _days_of(row: Row, head: Row, month: tuple[int, int | None], known: Known) -> Iterator[Row]:
    """The filled cells of a row of a calendar."""
    label = row.cell(0)
    own_month = None if known.animal(label) else month_of(label)
    number, year = (own_month[0], own_month[1] or month[1]) if own_month else month
    for place, day in enumerate(head.cells):
        if not day.isdigit() or is_nothing(row.cell(place)):
            continue
        who = "" if own_month else label
        yield Row(
            row.line, (_iso(year, number or 1, int(day)) if number else day, who, row.cell(place))
        )
