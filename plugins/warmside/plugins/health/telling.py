"""Cases in the keeper's words: the finding, the task of a recheck, the report's section."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import (
    OWN_RECORDS,
    About,
    Basis,
    Column,
    Finding,
    Kind,
    Level,
    Table,
    Task,
)
from warmside.plugins.health.cases.course_of_case import Case, Entry
from warmside.plugins.health.kinds import CASE, EXAMINED

COLUMNS = (
    Column("day", "day", Kind.DATE),
    Column("case", "case since", Kind.DATE),
    Column("state", "state"),
    Column("what", "what was seen or said"),
    Column("awaited", "awaited"),
    Column("recheck", "recheck", Kind.DATE),
)
NONE_YET = (
    f'no case on record; open one: warmside record {CASE} CODE --state open --what "what was seen"'
)


def finding(animal: int, code: str, case: Case) -> Finding:
    """An open case: since when, how it began, the newest entry, what is awaited."""
    first, last = case.entries[0], case.entries[-1]
    words = [f"case since {case.begun}, {first.what}"]
    words += [f"on {last.day}, {last.what}"] if last is not first else []
    words += [f"waiting for {case.awaited}"] if case.awaited else []
    end = f'warmside record {CASE} {code} --state closed --what "how it ended"'
    told = f"{'; '.join(words)}: a vet if it grows worse. It stays here until: {end}"
    basis = Basis("a case that is not closed", OWN_RECORDS, tuple(e.event for e in case.entries))
    return Finding("health.case", Level.LOOK_SOON, told, basis, About(animal))


def recheck_task(animal: int, named: Entry) -> Task | None:
    """The recheck on its day; a vet visit on record settles it."""
    if named.recheck is None:
        return None
    return Task(
        "recheck by the vet",
        named.recheck,
        Basis(f"a recheck was named on {named.day}", OWN_RECORDS, (named.event,)),
        About(animal),
        settles=EXAMINED,
        note="take along what was written since; leave out or change no treatment on your own",
        asks=("told",),
        keepers=True,
    )


def table(cases: Sequence[Case]) -> Table:
    """All cases of an animal with all entries, for the vet."""
    rows = tuple(
        (e.day, c.begun, "closed" if e.closes else "open", e.what, e.awaited or None, e.recheck)
        for c in cases
        for e in c.entries
    )
    return Table("cases", COLUMNS, rows, empty=NONE_YET)
