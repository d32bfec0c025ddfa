"""The yearly faecal check of those that live here."""

from __future__ import annotations

from warmside.api import About, Basis, Mark, Source, Task
from warmside.plugins.health.kinds import SAMPLE
from warmside.plugins.health.samples.yearly import FaecalCheck

YEARLY = Source(
    "VCA Hospitals, leaflets on reptiles (undated): a yearly examination with a faecal test",
    Mark.SECONDARY,
)


def faecal_task(animal: int, check: FaecalCheck, every_days: int) -> Task:
    """To hand in a sample of droppings, which settles it."""
    return Task(
        "faecal check: hand in a fresh dropping",
        check.due,
        Basis(check.why, YEARLY, check.events),
        About(animal),
        settles=SAMPLE,
        data={"what": "faeces"},
        note="fresh, cool, in a closed cup with its name; which tests are done the vet says",
        every_days=every_days,
        key="faecal check",
        keepers=True,
    )
