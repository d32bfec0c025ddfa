"""What a settled question after a death writes."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import BadInput, NewEvent, StepWriter, Task, When, near_miss, quoted
from warmside.plugins.health.deaths.death import NECROPSY_KEY
from warmside.plugins.health.kinds import ASKED_FOR, DEATH, NECROPSY

YES = ("yes", "y", "asked")


def settled(writer: StepWriter, task: Task, value: str, when: When, note: str) -> Iterator[str]:
    """Write the answer to a question, in words; nothing for a task that is none."""
    question = task.data.get("question")
    if question is None:
        return
    animal = writer.book.animals[int(task.data["animal_id"])]
    said = necropsy_word(value) if question == NECROPSY_KEY else value.strip()
    if not said:
        raise BadInput(f"{task.what}: say behind the number what was done, such as 3=cleaned")
    data = {question: said}
    new = NewEvent(DEATH, when.day, data, animal.id, at=when.at, note=note)
    writer.record_checked([new])
    yield f"{task.what}: {said}"


def necropsy_word(text: str) -> str:
    """One of the words for a necropsy; BadInput where it is none."""
    word = " ".join(text.casefold().split())
    if word in YES:
        return ASKED_FOR
    if word not in NECROPSY:
        raise BadInput(
            f"necropsy cannot be {quoted(text)}{near_miss(word, NECROPSY)}; it is one of: "
            f"{', '.join(NECROPSY)}"
        )
    return word
