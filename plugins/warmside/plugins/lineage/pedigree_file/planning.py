"""What of a pedigree file is new to the record."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from warmside.plugins.lineage.pedigree_file.checks import Record, problems
from warmside.plugins.lineage.pedigree_file.rows import FileRow, Fill, Kept, Plan, Problem


def plan(rows: Sequence[FileRow], record: Record, unread: Sequence[Problem] = ()) -> Plan:
    """What would be written: nothing that the record has already, and nothing over it.

    `unread` is what could not be read of the file; with anything wrong nothing is written.
    """
    bad = (*unread, *problems(rows, record))
    if bad:
        return Plan(bad=bad)
    new = [row for row in rows if row.id not in record]
    fills = [f for row in rows if (f := _fill(row, record)) is not None]
    links = [link for row in rows for link in _links(row, record)]
    changed = {f.code for f in fills} | {child for child, _, _ in links}
    same = [row.line for row in rows if row.id in record and row.id not in changed]
    return Plan(tuple(new), tuple(fills), tuple(links), tuple(same))


def _fill(row: FileRow, record: Record) -> Fill | None:
    """What the file knows of an animal on record, and the record does not."""
    kept = record.get(row.id)
    if kept is None:
        return None
    sex = row.sex if kept.sex == "unknown" and row.sex != "unknown" else None
    hatched = row.hatched if _knows_more(row, kept) else None
    return Fill(row.id, sex, hatched) if sex or hatched else None


def _knows_more(row: FileRow, kept: Kept) -> bool:
    """Whether the file's date is nearer than that on record."""
    if row.hatched is None:
        return False
    return kept.hatched is None or len(row.hatched.text) > len(kept.hatched.text)


def _links(row: FileRow, record: Record) -> Iterator[tuple[str, str, str]]:
    kept = record.get(row.id)
    for role, parent in row.parents.items():
        if kept is None or not kept.candidates(role):
            yield row.id, role, parent
