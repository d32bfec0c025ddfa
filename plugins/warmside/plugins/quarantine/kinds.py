"""The kinds of event of a quarantine."""

from __future__ import annotations

from warmside.api import EventKind, Unit, fields
from warmside.plugins.quarantine.clock.events import Outcome

STARTED = "quarantine.started"
EDITED = "quarantine.edited"
RESTARTED = "quarantine.restarted"
SAMPLED = "quarantine.sampled"
RESULTED = "quarantine.resulted"
CHECKED = "quarantine.checked"
RELEASED = "quarantine.released"
_LAST_EVENT = 2**53


class StartedRecord:
    """A quarantine begins; its day is that of the arrival, where it names one."""

    protocol: str = fields.words("name of the protocol", optional=False)
    cause: str = fields.words("why it begins")
    edits: str = fields.words("values for this animal: days=120; tests.faecal.negatives=4")
    arrival: int | None = fields.whole(
        "number of the event by which the animal came",
        least=1,
        most=_LAST_EVENT,
        told=False,
    )


class EditedRecord:
    """Values of the protocol changed for this animal."""

    edits: str = fields.words("days=120; tests.faecal.negatives=4", optional=False)


class RestartedRecord:
    """The clock starts again."""

    cause: str = fields.words("why", optional=False)


class SampledRecord:
    """A sample was taken for a test of the protocol."""

    test: str = fields.words("which test of the protocol", optional=False)
    method: str = fields.words("which method")
    laboratory: str = fields.words("sent to whom")


class ResultedRecord:
    """What the laboratory said of a sample."""

    outcome: str = fields.choice(tuple(o.value for o in Outcome), "what the laboratory said")
    sample: int = fields.measure(
        Unit.COUNT,
        "number of the sample's event",
        least=1,
        most=_LAST_EVENT,
        before="sample",
    )


class CheckedRecord:
    """A check of the protocol was done."""

    check: str = fields.words("which check of the protocol", optional=False)
    found: bool = fields.yesno("something was seen that should not be there")
    what: str = fields.words("what was seen")


class ReleasedRecord:
    """The quarantine ends; what was missing and why it ended all the same stay on record."""

    to: str = fields.words("code of the enclosure it goes to")
    reason: str = fields.words("reason to release it while something is missing")
    missing: str = fields.words("what was missing")
    terms: str = fields.words("values of the protocol that were not the shipped ones")


KINDS = (
    EventKind(STARTED, "quarantine begun", StartedRecord),
    EventKind(EDITED, "quarantine terms changed", EditedRecord),
    EventKind(RESTARTED, "quarantine started again", RestartedRecord),
    EventKind(SAMPLED, "sample taken", SampledRecord),
    EventKind(RESULTED, "test result", ResultedRecord),
    EventKind(CHECKED, "quarantine check", CheckedRecord, todo="quarantine check"),
    EventKind(RELEASED, "released from quarantine", ReleasedRecord),
)
