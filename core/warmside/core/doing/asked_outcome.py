"""What came of it, asked where it is all that an event of a kind says and the keeper typed none.

Without a terminal the kind's own default holds, as its help says.
"""

from __future__ import annotations

from msgspec.structs import replace

from warmside.core.doing.recording import Recording
from warmside.core.kinds.fields import FieldSpec
from warmside.core.kinds.kind import EventKind
from warmside.core.record.typed_subjects import typed_subjects
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss, quoted
from warmside.core.values.questions import Question

OUTCOME = "outcome"


def with_outcome(kind: EventKind, wanted: Recording, given: str | None = None) -> Recording:
    """The request with what came of it; raises Unanswered where that has to be asked."""
    spec = kind.own if kind.fields else None
    typed = any(s.value for s in typed_subjects(wanted.subjects))
    if spec is None or spec.name != OUTCOME or typed or OUTCOME in wanted.fields:
        return wanted
    words = f"{spec.help[:1].upper()}{spec.help[1:]} ({', '.join(spec.choices)})"
    question = Question(OUTCOME, words, f"--{spec.option}", check=lambda text: _known(spec, text))
    return replace(wanted, fields={**wanted.fields, OUTCOME: question.answered(given)})


def _known(spec: FieldSpec, text: str) -> None:
    """Raise BadInput for a word that is none of the choices."""
    word = text.strip().casefold().replace("-", " ")
    if word not in spec.choices and word not in dict(spec.also):
        near = near_miss(word, spec.choices)
        raise BadInput(f"it is {', '.join(spec.choices)}, not {quoted(text)!r}{near}")
