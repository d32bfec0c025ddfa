"""The kinds of event of an illness: its case, what a vet ordered, visits, samples, a death."""

from __future__ import annotations

from warmside.api import EventKind, Unit, fields
from warmside.plugins.health.cases.food_words import AS_TOLD, AS_USUAL, NO_FOOD

CASE = "health.case"
COURSE = "health.course"
BOTTLE = "health.bottle"
FOOD = "health.food"
APPOINTMENT = "health.appointment"
SAMPLE = "health.sample"
VACCINATED = "health.vaccinated"
DEATH = "health.death"
OPEN, CLOSED = "open", "closed"
EXAMINED = "examined"
SIGN = "sign"
TREATED = "treated"
DIED = "died"
CANCELLED = "cancelled"
HANDED_IN, RESULT = "handed in", "result"
ASKED_FOR, NO, DONE = "asked for", "no", "done"
NECROPSY = (ASKED_FOR, NO, DONE)
FROM_PLAN, FROM_LAST = "plan", "last dose"


class CaseRecord:
    """A case of illness begins, there is news of it, or it ends; no diagnosis."""

    state: str = fields.choice((OPEN, CLOSED), "open: begins or has news; closed: is over")
    what: str = fields.words("what was seen, what the vet said, or how it ended", optional=False)
    awaited: str = fields.words("what is awaited, as a result", before="awaited:")
    recheck: str | None = fields.day(
        "the day of the recheck that the vet named", optional=True, before="recheck"
    )


class CourseRecord:
    """A course of treatment as a vet ordered it, in the vet's words; nothing is worked out."""

    what: str = fields.words("the medicine or treatment as the vet wrote it", optional=False)
    dose: str = fields.words("the dose as the vet wrote it", optional=False)
    every: str = fields.words(
        "how often: 12 hours, 3 days, twice a day, daily; once if left out",
        before="how often:",
    )
    start: str | None = fields.day("the day of the first dose", optional=True, before="from")
    clock: str | None = fields.clock("the time of the first dose", optional=True, before="at")
    until: str | None = fields.day("the last day", optional=True)
    doses: int | None = fields.whole("the number of doses", least=1, most=5_000, after="doses")
    counted: str | None = fields.choice(
        (FROM_PLAN, FROM_LAST),
        "what the next dose is counted from, as the vet said; the plan if left out",
        default=None,
        before="counted from",
    )
    amount: str = fields.words("the amount of one dose: 0.1 ml, 5 mg, 1 tablet", before="amount")
    way: str = fields.words("by which way: by mouth, under the skin, on the skin")
    food: str | None = fields.choice(
        ("with food", "without food"), "with food or not", default=None
    )
    watch: str = fields.words("what to watch for", before="watch for:")
    by: str = fields.words("the vet who ordered it", optional=False, before="ordered by")
    mass_g: float | None = fields.measure(
        Unit.MASS,
        "the weight that the dose was worked out for",
        least=0.05,
        most=500_000,
        optional=True,
        before="at a weight of",
    )
    window_hours: float | None = fields.measure(
        Unit.HOURS,
        "how late a dose may be given",
        least=0.25,
        most=72,
        optional=True,
        before="in time within",
    )


class BottleRecord:
    """A bottle or box of a medicine that was handed over."""

    of: str = fields.words("the medicine, as in the order", optional=False, before="of")
    holds: str = fields.words("what it holds: 5 ml, 20 tablets", optional=False)
    expires: str | None = fields.day("last day of its use", optional=True, before="use until")
    storage: str = fields.words("how to keep it, as on its label", before="keep it:")
    batch: str = fields.words("batch", before="batch")


class FoodRecord:
    """What a vet said of an animal's food while it is in treatment."""

    says: str = fields.choice(
        (AS_USUAL, NO_FOOD, AS_TOLD), "by its plan as usual, nothing, or as the vet's words tell"
    )
    words: str = fields.words("the vet's words")
    by: str = fields.words("which vet", before="as said by")
    until: str | None = fields.day("the last day for which it holds", optional=True)


class AppointmentRecord:
    """An appointment with a vet was made, or is off."""

    due: str = fields.day("the day of the appointment", before="on")
    clock: str | None = fields.clock("its time", optional=True, before="at")
    by: str = fields.words("with which vet", before="with")
    what: str = fields.words("what for", before="for")
    state: str | None = fields.choice(
        (CANCELLED,), "cancelled; it stands if left out", default=None
    )


class SampleRecord:
    """A sample was handed in, or its result came; what it means a vet says."""

    what: str = fields.words("of what: faeces, a swab, blood, the body", optional=False)
    state: str = fields.choice((HANDED_IN, RESULT), "handed in, or the result", default=HANDED_IN)
    lab: str = fields.words("which laboratory, or in-house")
    ref: str = fields.words("the number under which it is asked for", before="number")
    expected: str | None = fields.day(
        "the day for which the result was promised", optional=True, before="expected on"
    )
    says: str = fields.words("what the result says, word for word", before="says:")


class VaccinatedRecord:
    """A vaccination that a vet gave; whether a species has one a vet says."""

    what: str = fields.words("the vaccine, as the vet wrote it", optional=False)
    by: str = fields.words("which vet", before="by")
    batch: str = fields.words("its batch", before="batch")
    again: str | None = fields.day(
        "the day that the vet named for the next", optional=True, before="again on"
    )


class DeathRecord:
    """What was found and done after a death."""

    found: str = fields.words("what was found on the body, or by a necropsy")
    necropsy: str | None = fields.choice(
        NECROPSY, "asked for, no, or done", default=None, before="necropsy:"
    )
    contacts: str = fields.words(
        "what was done for those that were with it", before="those with it:"
    )
    equipment: str = fields.words("what became of what it lived with", before="its equipment:")
    prey: str = fields.words("what became of frozen prey of the same bag", before="prey:")


KINDS = (
    EventKind(CASE, "case of illness", CaseRecord, absent=True),
    EventKind(COURSE, "treatment ordered", CourseRecord, absent=True),
    EventKind(BOTTLE, "medicine in the house", BottleRecord, absent=True),
    EventKind(FOOD, "food in treatment", FoodRecord, absent=True),
    EventKind(APPOINTMENT, "vet appointment", AppointmentRecord),
    EventKind(SAMPLE, "sample", SampleRecord, todo="hand in a sample", absent=True, dead=True),
    EventKind(VACCINATED, "vaccination", VaccinatedRecord, todo="vaccination"),
    EventKind(
        DEATH,
        "after a death",
        DeathRecord,
        one_of=("found", "necropsy", "contacts", "equipment", "prey"),
        absent=True,
        dead=True,
    ),
)
