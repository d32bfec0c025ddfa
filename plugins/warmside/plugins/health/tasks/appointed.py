"""Appointments, vaccinations that a vet named a day for, and results that are awaited."""

from __future__ import annotations

from datetime import date

from warmside.api import OWN_RECORDS, About, Basis, Mark, Source, Task
from warmside.plugins.health.appointments.appointment import Appointment
from warmside.plugins.health.appointments.vaccination import Vaccination
from warmside.plugins.health.kinds import EXAMINED, RESULT, SAMPLE, VACCINATED
from warmside.plugins.health.samples.sample import Sample

TAKE_ALONG = (
    "take along: the vet's sheet, a fresh dropping in a closed cup, the medicines in use; the "
    "animal warm, in a box of its own"
)
USUAL = Source("so long a laboratory usually needs", Mark.COMMON_PRACTICE)


def appointment_task(animal: int, code: str, one: Appointment, on: date) -> Task | None:
    """The appointment on its day; a vet visit on record settles it."""
    if one.due > on:
        return None
    off = f"if it was cancelled: warmside health appointment {code} {one.due} --cancelled"
    return Task(
        one.words,
        one.due,
        Basis(f"an appointment of {one.day}", OWN_RECORDS, (one.event,)),
        About(animal),
        settles=EXAMINED,
        data={"by": one.by} if one.by else {},
        note=f"{TAKE_ALONG}; {off}" if one.due == on else off,
        key=f"appointment {one.due}",
        asks=("told",),
        keepers=True,
    )


def result_task(animal: int, one: Sample, on: date) -> Task | None:
    """A result to ask for, from the day that was promised; the result on record settles it."""
    if one.asked_from > on:
        return None
    promised = one.expected is not None
    why = f"handed in on {one.day}" + (f", promised for {one.expected}" if promised else "")
    return Task(
        f"ask for the result: {one.words}",
        one.asked_from,
        Basis(why, OWN_RECORDS if promised else USUAL, (one.event,)),
        About(animal),
        settles=SAMPLE,
        data={"state": RESULT, "what": one.what, "lab": one.lab, "ref": one.ref},
        note="write it down word for word; what it means the vet says",
        key=f"result {one.event}",
        asks=("says",),
        keepers=True,
    )


def vaccination_task(animal: int, one: Vaccination, on: date) -> Task | None:
    """A vaccination to be given again, on the day that a vet named."""
    if one.again is None or one.again > on:
        return None
    return Task(
        f"ask the vet for the vaccination with {one.what}",
        one.again,
        Basis(f"{one.by or 'the vet'} named the day on {one.day}", OWN_RECORDS, (one.event,)),
        About(animal),
        settles=VACCINATED,
        data={"what": one.what},
        note="a vet gives it, and says whether it is still needed",
        key=f"vaccination {one.what}",
        asks=("by",),
        keepers=True,
    )
