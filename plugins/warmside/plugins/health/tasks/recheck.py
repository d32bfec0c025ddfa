"""The recheck that a vet named."""

from __future__ import annotations

from warmside.api import OWN_RECORDS, About, Basis, Task
from warmside.plugins.health.cases.course_of_case import Entry
from warmside.plugins.health.kinds import EXAMINED


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
