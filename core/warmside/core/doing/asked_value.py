"""What an event says, asked on a terminal where the keeper typed no more than whom it is about.

Without a terminal a needed field is an error, and of what came of it the kind's default holds: of
a shed that is "not said".
"""

from __future__ import annotations

from msgspec.structs import replace

from warmside.core.doing.recording import Recording
from warmside.core.kinds.kind import Subject
from warmside.core.kinds.parsing import parse_field
from warmside.core.kinds.validating import check_field
from warmside.core.record.references import readers
from warmside.core.record.typed_subjects import typed_subjects
from warmside.core.session.session import Session
from warmside.core.values.questions import Question

OUTCOME = "outcome"


def with_value(session: Session, wanted: Recording, given: str | None = None) -> Recording:
    """The request with the value of its kind's own field; raises Unanswered where it is asked.

    A needed one is asked for a single animal or enclosure alone, since others have others; what
    came of it wherever it is all that the event says, since no default may make it a good one.
    """
    kind = session.open().host.kinds.named(wanted.kind)
    spec = kind.own if kind.fields else None
    subjects = typed_subjects(wanted.subjects)
    if (
        spec is None
        or any(s.value for s in subjects)
        or {spec.name, spec.option} & {*wanted.fields}
    ):
        return wanted
    if not (spec.name == OUTCOME or (spec.required and len(subjects) == 1)):
        return wanted
    if kind.subject is Subject.ANIMAL:
        with session.read() as book:
            for subject in subjects:
                book.animal(subject.name)  # who is not there, is said before anything is asked
    words = f"{spec.help[:1].upper()}{spec.help[1:]} ({spec.typing_help})"

    def check(text: str) -> None:
        with session.read() as book:
            value = parse_field(spec, text, readers(book))
        check_field(kind.name, spec, {spec.name: value})

    question = Question(spec.name, words, f"--{spec.option}", check=check)
    return replace(wanted, fields={**wanted.fields, spec.name: question.answered(given)})
