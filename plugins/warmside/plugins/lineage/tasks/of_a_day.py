"""All that the plugin asks for on a day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Ask, Task
from warmside.plugins.lineage.hatching.first_weeks import first_tasks
from warmside.plugins.lineage.kinds import NEST
from warmside.plugins.lineage.reading.eggs import incubations, parent_of
from warmside.plugins.lineage.reading.hatchlings import hatchlings
from warmside.plugins.lineage.reading.loans import running
from warmside.plugins.lineage.reading.season import seasons
from warmside.plugins.lineage.reading.unfit import planned_meetings
from warmside.plugins.lineage.tasks.loans import back_task
from warmside.plugins.lineage.tasks.season import egg_tasks, pairing_task, season_tasks


def all_tasks(ask: Ask, on: date) -> Iterator[Task]:
    """Loans that end, pairs to put together, nests, eggs to look at, hatchlings' first weeks."""
    book = ask.book
    notice = int(ask.setting("lineage", "back_notice"))
    back = (back_task(loan, book.animals[loan.animal_id], notice, on) for loan in running(book, on))
    yield from filter(None, back)
    for event in planned_meetings(ask, on):
        one, other = (
            book.animals[event.animal_id or 0],
            book.animals[event.data["partner_animal_id"]],
        )
        dam, sire = (one, other) if one.sex == "female" else (other, one)
        yield pairing_task(dam, sire, date.fromisoformat(event.data["begin"]), event.id)
    for season in seasons(ask, on):
        nest = book.latest_of(season.animal.id, NEST, on=on).get(NEST)
        yield from season_tasks(season, nest.day if nest else None, on)
    for found in incubations(ask, on):
        every = int(ask.setting("lineage", "egg_check", About(parent_of(found.clutch))))
        yield from egg_tasks(found, every, on)
    for young in hatchlings(ask, on):
        yield from first_tasks(young)
