"""A treatment as it was given last, offered again where the keeper types none.

It is what a vet ordered and the keeper recorded, word for word; nothing is proposed of our own.
"""

from __future__ import annotations

from msgspec.structs import replace

from warmside.core.doing.recording import Recording
from warmside.core.record.entities import Event
from warmside.core.record.typed_subjects import typed_subjects
from warmside.core.session.session import Session
from warmside.core.values.questions import Question

TREATED = "treated"


def with_treatment(session: Session, wanted: Recording, given: str | None = None) -> Recording:
    """The request with what was given; raises Unanswered where that has to be asked.

    Of one named animal the last treatment is the default; who takes it, takes dose and vet too.
    """
    subjects = typed_subjects(wanted.subjects)
    typed = "what" in wanted.fields or any(s.value for s in subjects)
    if wanted.kind != TREATED or typed or len(subjects) != 1:
        return wanted
    last, label = _last(session, subjects[0].name)
    usual = last.data["what"] if last else ""
    said = f"; on {last.day}: {_words(last)}" if last else ""
    question = Question("what", f"What was given to {label}, as ordered{said}", "--what", usual)
    what = question.answered(given)
    again = {n: last.data[n] for n in ("dose", "by")} if last and what == usual else {}
    kept = {name: text for name, text in again.items() if text}
    return replace(wanted, fields={**kept, **wanted.fields, "what": what})


def _last(session: Session, name: str) -> tuple[Event | None, str]:
    with session.read() as book:
        animal = book.animal(name)
        return book.latest_of(animal.id, TREATED).get(TREATED), animal.label


def _words(last: Event) -> str:
    return ", ".join(last.data[n] for n in ("what", "dose", "by") if last.data[n])
