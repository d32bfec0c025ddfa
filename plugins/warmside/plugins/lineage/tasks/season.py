"""What seasons and eggs ask for."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import OWN_RECORDS, About, Animal, Basis, Mark, Source, Task
from warmside.api import every_days as often
from warmside.plugins.lineage.eggs.clutch_course import LOOK_LEEWAY_DAYS
from warmside.plugins.lineage.kinds import NEST
from warmside.plugins.lineage.reading.eggs import Incubation, parent_of
from warmside.plugins.lineage.reading.season import Season

CUSTOM = Source("usual among keepers", Mark.COMMON_PRACTICE)
NEST_DAYS = 14  # so long before her window a place to lay in is given
PAIRING_DAYS = 14


def pairing_task(dam: Animal, sire: Animal, begin: date, event: int) -> Task:
    """To put a planned pair together."""
    return Task(
        f"put her together with {sire.label}",
        begin,
        Basis("planned for that day", OWN_RECORDS, (event,)),
        About(dam.id),
        settles="pairing",
        data={"partner_animal_id": sire.id, "state": "together"},
        by=begin + timedelta(days=PAIRING_DAYS),
        note="only a healthy, well-fed pair; stay with them at first, and part them if they fight",
        key=f"pair with {sire.code}",
    )


def season_tasks(season: Season, nested: date | None, on: date) -> Iterator[Task]:
    """A place to lay in before her window, and to look for eggs or young within it."""
    window, figures = season.window, season.figures
    if window is None or figures is None or on > window.latest:
        return
    basis = Basis(window.rule, window.source, window.events)
    about = About(season.animal.id)
    start = window.earliest - timedelta(days=NEST_DAYS)
    if not figures.bears_live and window.sure and (nested is None or nested < _began(season)):
        yield Task(
            "give her a place to lay in",
            start,
            Basis(f"{NEST_DAYS} days before she may lay", CUSTOM, window.events),
            about,
            settles=NEST,
            by=window.earliest,
            key="nest",
        )
    what = "young" if figures.bears_live else "eggs"
    yield Task(
        f"look for {what} every day: expected {window.earliest} to {window.latest}",
        window.earliest,
        basis,
        about,
        data={"expected": what},
        command=laid_command(season.animal, bears_live=figures.bears_live),
        key="laying expected",
        may=True,
        asks=("how many live young" if figures.bears_live else "how many eggs, slugs too", "6"),
    )


def _began(season: Season) -> date:
    return season.course.signs[0].day


def laid_command(animal: Animal, *, bears_live: bool) -> str:
    """The command that enters the eggs or young of a female."""
    word = "born" if bears_live else "laid"
    count = "5" if bears_live else "6 --good 5"
    option = "--young" if bears_live else "--eggs"
    return f"warmside lineage {word} {animal.code} {option} {count}"


def egg_tasks(found: Incubation, every_days: int, on: date) -> Iterator[Task]:
    """To look at the eggs now and then, and for young within their window."""
    about = About(parent_of(found.clutch))
    code, left = found.clutch.code, found.eggs.left
    if found.look is not None:
        yield Task(
            f"look at the eggs of clutch {code}",
            found.look,
            Basis(f"first after 7 days, then {often(every_days)}", CUSTOM),
            about,
            data={"clutch_id": found.clutch.id},
            note="do not turn them; mould, dents, sweating; the water of the incubator",
            every_days=every_days,
            by=found.look + timedelta(days=LOOK_LEEWAY_DAYS),
            key=f"eggs {code}",
        )
    window = found.window
    if window is not None and found.here:
        number = f" {left}" if left else ""
        yield Task(
            f"look for young in clutch {code}: {window.earliest} to {window.latest}",
            window.earliest,
            window.basis,
            about,
            command=f"warmside lineage hatch {code} --count{number or ' 5'}",
            data={"hatching": found.clutch.id},
            key=f"hatching {code}",
            may=True,
            asks=("how many hatched", str(left or 5)),
        )
