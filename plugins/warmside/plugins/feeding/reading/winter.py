"""Planned winter rests, how far they are, and who may be rested."""

from __future__ import annotations

from datetime import timedelta

from warmside.api import About, Level
from warmside.plugins.feeding.condition.season import season_of
from warmside.plugins.feeding.kinds import LOOKED, REST
from warmside.plugins.feeding.planning.situation import rest_in
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.resting.course import Course
from warmside.plugins.feeding.resting.period import Candidate

# A weighing up to so many days before cooling began is its mass then.
BEFORE_DAYS = 45


def course_of(reading: Reading, animal_id: int) -> Course | None:
    """The planned rest of an animal that is not over yet."""
    rest, on = rest_in(reading.last(animal_id).get(REST)), reading.on
    if rest is None:
        return None
    cooling = reading.last(animal_id).get("cooling")
    near = cooling if cooling and cooling.day >= rest.stop else None
    begun = near is not None and near.data["state"] == "begun"
    if (near and not begun) or (not begun and on >= rest.food):
        return None
    cooled = near.day if near else None
    start = cooled or rest.cool
    weighed = reading.weighings(animal_id, start - timedelta(days=BEFORE_DAYS))
    before = [w for w in weighed if w.day <= start]
    looked = reading.last(animal_id).get(LOOKED)
    return Course(
        animal_id,
        rest,
        season_of(reading.book.animals[animal_id].species.scientific),
        cooled,
        before[-1] if before else next(iter(weighed), None),
        weighed[-1] if weighed else None,
        looked.day if looked and looked.day >= rest.cool else None,
    )


def candidate(reading: Reading, animal_id: int) -> Candidate:
    """Who is to rest, with all that any plugin finds of it now."""
    animal, subject = reading.book.animals[animal_id], reading.subject(animal_id)
    staged = reading.ask.stage(animal_id, reading.on)
    found = reading.ask.findings(reading.on, About(animal_id))
    trouble = tuple(f.words for f in found if f.level is not Level.NOTE)
    weighing = reading.weighing(animal_id)
    assert subject is not None
    return Candidate(
        animal.label,
        season_of(animal.species.scientific),
        staged.stage.value if staged.stage else None,
        staged.life.age[0],
        (reading.on - weighing.day).days if weighing else None,
        subject.body,
        trouble,
    )
