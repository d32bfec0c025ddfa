"""What cannot be true of a pedigree file beside the record: each with the line that says it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from graphlib import CycleError, TopologicalSorter

from warmside.api import PartialDate
from warmside.plugins.lineage.pedigree_file.rows import FileRow, Kept, Problem

Record = Mapping[str, Kept]
SEX_OF = {"dam": "female", "sire": "male"}


def problems(rows: Sequence[FileRow], record: Record) -> Iterator[Problem]:
    """All that is wrong, in the order of the checks."""
    for check in (_twice, _nobody, _roles, _against_record, _ages, _loops):
        yield from check(rows, record)


def _twice(rows: Sequence[FileRow], _: Record) -> Iterator[Problem]:
    """Ids with two rows, and animals that are their own parent or have one as both."""
    first: dict[str, int] = {}
    for row in rows:
        if row.id in first:
            yield row.line, f"{row.id} is there in line {first[row.id]}, too"
        first.setdefault(row.id, row.line)
        if row.id in row.parents.values():
            yield row.line, f"{row.id} cannot be its own parent"
        if row.dam and row.dam == row.sire:
            yield row.line, f"{row.dam} is dam and sire of one animal"


def _nobody(rows: Sequence[FileRow], record: Record) -> Iterator[Problem]:
    """Parents that are nowhere."""
    ids = {row.id for row in rows}
    for row in rows:
        for parent in row.parents.values():
            if parent not in ids and parent not in record:
                yield row.line, f"parent {parent} has no row of its own and is not on record"


def _roles(rows: Sequence[FileRow], record: Record) -> Iterator[Problem]:
    """Animals of one sex that are named as the other parent."""
    sexes = {row.id: row.sex for row in rows if row.sex != "unknown"}
    sexes |= {code: kept.sex for code, kept in record.items() if kept.sex != "unknown"}
    first: dict[str, tuple[str, int]] = {}
    for kept in record.values():
        for role in SEX_OF:
            first.update((parent, (role, 0)) for parent in kept.candidates(role))
    for row in rows:
        for role, parent in row.parents.items():
            sex = sexes.get(parent, "unknown")
            before, line = first.setdefault(parent, (role, row.line))
            if sex not in ("unknown", SEX_OF[role]):
                yield row.line, f"{parent} is {sex} and cannot be a {role}"
            elif before != role:
                where = f"in line {line}" if line else "on record"
                yield row.line, f"{parent} is a {role} here and a {before} {where}"


def _against_record(rows: Sequence[FileRow], record: Record) -> Iterator[Problem]:
    """What the record says otherwise."""
    for row in rows:
        if (kept := record.get(row.id)) is None:
            continue
        if "unknown" not in (row.sex, kept.sex) and row.sex != kept.sex:
            yield row.line, f"{row.id} is {kept.sex} on record, not {row.sex}"
        if row.hatched and kept.hatched and not _agree(row.hatched, kept.hatched):
            said = f"hatched {kept.hatched.text} on record, not {row.hatched.text}"
            yield row.line, f"{row.id} {said}"
        if row.species and row.species != kept.species:
            yield row.line, f"{row.id} is {kept.species} on record, not {row.species}"
        for role, parent in row.parents.items():
            known = kept.candidates(role)
            if known and known != (parent,):
                told = " or ".join(known)
                yield row.line, f"the {role} of {row.id} is {told} on record, not {parent}"


def _agree(one: PartialDate, other: PartialDate) -> bool:
    """Whether both can be the same day."""
    return one.earliest <= other.latest and other.earliest <= one.latest


def _ages(rows: Sequence[FileRow], record: Record) -> Iterator[Problem]:
    """Parents that hatched after their young, or on the same day."""
    born = {code: kept.hatched for code, kept in record.items()}
    born |= {row.id: row.hatched for row in rows if row.hatched}
    for row in rows:
        own = born.get(row.id)
        for role, parent in row.parents.items():
            theirs = born.get(parent)
            if own and theirs and not theirs.earliest < own.latest:
                yield (
                    row.line,
                    f"{role} {parent} hatched {theirs.text}, not before {row.id} ({own.text})",
                )


def _loops(rows: Sequence[FileRow], record: Record) -> Iterator[Problem]:
    """Animals that would be their own ancestors, by the file and the record together."""
    edges = {code: {*kept.dam, *kept.sire} for code, kept in record.items()}
    for row in rows:
        edges.setdefault(row.id, set()).update({*row.parents.values()} - {row.id})
    lines = {row.id: row.line for row in rows}
    while (loop := _loop(edges)) is not None:
        at = min((id for id in loop if id in lines), key=lines.__getitem__)
        start = loop.index(at)
        told = [*loop[start:], *loop[:start], at]
        numbers = sorted(lines[id] for id in loop if id in lines)
        where = f"{'line' if len(numbers) == 1 else 'lines'} {', '.join(map(str, numbers))}"
        yield (
            lines[at],
            f"nobody is their own ancestor: {' < '.join(told)} ({where})",
        )
        edges[at] = set()


def _loop(edges: Mapping[str, set[str]]) -> list[str] | None:
    """The animals of one loop, each as the young of the next; None where there is none."""
    try:
        TopologicalSorter(edges).prepare()
    except CycleError as error:
        around = list(error.args[1])[:-1]
        return around[::-1]
    return None
