"""What is asked after a death: a necropsy, those that were with it, its things, its prey."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from warmside.api import About, Basis, Mark, Source, Task
from warmside.plugins.health.deaths.death import (
    CONTACTS,
    EQUIPMENT,
    NECROPSY_KEY,
    PREY,
    Death,
    Said,
    open_questions,
)

LABORATORIES = Source(
    "advice of state veterinary laboratories (Missouri, New Jersey) on sending in bodies: soon, "
    "cool, not frozen, with a full history",
    Mark.SECONDARY,
)
USUAL = Source("what keepers do after a death", Mark.COMMON_PRACTICE)
AT_ONCE = (NECROPSY_KEY, CONTACTS)
AFTER = timedelta(days=3)
"""Its things and its prey may wait so long (common practice, no source)."""
NAMED = 4
ASKS = {
    NECROPSY_KEY: ("whether one was asked for, done or not", "asked for"),
    CONTACTS: ("what you saw", "all look well"),
    EQUIPMENT: ("what you did", "boiled"),
    PREY: ("what you did", "thrown away"),
}
"""What is said where a question is settled, with an example."""


def death_tasks(death: Death, said: Sequence[Said], on: date) -> Iterator[Task]:
    """A task for each open question, about the enclosure: the dead is asked nothing."""
    for question in open_questions(death, said, on):
        what, note = _words(death, question)
        source = LABORATORIES if question == NECROPSY_KEY else USUAL
        yield Task(
            what,
            death.day,
            Basis(f"{death.label} died on {death.day}", source, (death.event,)),
            About(enclosure_id=death.home),
            data={"animal_id": death.animal, "question": question},
            note=note,
            key=f"death {death.event} {question}",
            asks=ASKS[question],
            by=None if question in AT_ONCE else death.day + AFTER,
            keepers=True,
        )


def _words(death: Death, question: str) -> tuple[str, str]:
    who = death.label
    if question == NECROPSY_KEY:
        return (
            f"ask a reptile vet whether a necropsy of {who} is worth while",
            "the sooner the better; keep the body cool (refrigerator, double bagged, away from "
            "food), not frozen; settle it with =asked for, =no or =done",
        )
    if question == CONTACTS:
        named = ", ".join(death.contacts[:NAMED])
        more = f" and {len(death.contacts) - NAMED} more" if len(death.contacts) > NAMED else ""
        return (
            f"look closely at those that lived with {who}, and weigh them",
            f"{named}{more}; move none to another group before the vet has said what it was; "
            "settle it with what you saw",
        )
    if question == EQUIPMENT:
        return (
            f"clean or throw away what {who} lived with",
            "bowl, hides, hooks, substrate: nothing of it to another animal before; the vet says "
            "what kills what it may have had; settle it with what you did",
        )
    return (
        f"put aside frozen prey of the bag that {who} ate from",
        f"last {'; '.join(death.meals)}; until the vet says that it was not the prey; settle it "
        "with what you did",
    )
