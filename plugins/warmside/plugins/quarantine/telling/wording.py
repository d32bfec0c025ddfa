"""What every quarantine screen says in words; it never says that an animal is healthy."""

from __future__ import annotations

from warmside.plugins.quarantine.clock.state import QuarantineState

DEFER = (
    "a finished protocol or a negative test does not show that an animal is healthy; "
    "which tests to do, treatment and release are for a reptile vet to decide"
)
INDEPENDENCE = (
    "this takes repeat tests as independent; a carrier that sheds now and then, or hardly at all, "
    "can be negative every time, so the true figure may be lower"
)
ASK_A_VET = "whether to release is for a reptile vet to say"
POSITIVE_STANDS = (
    "a positive result stands: no end date before a reptile vet has seen the animal; ask today"
)
READY = "nothing is missing for release under this protocol"


def standing(state: QuarantineState) -> str:
    """Where a quarantine stands, in one line."""
    if state.release is not None:
        return _ended(state)
    if state.died is not None:
        return f"died {state.died}, day {state.day} of {state.protocol.days} of its quarantine"
    if state.positives:
        return POSITIVE_STANDS
    days = f"day {state.day} of {state.protocol.days}, earliest end {state.earliest_end}"
    if state.ready:
        return f"{days}; {READY}"
    count = len(state.missing)
    return f"{days}; {count} {'thing' if count == 1 else 'things'} missing for release"


def _ended(state: QuarantineState) -> str:
    assert state.release is not None
    said = f"released {state.release.day.isoformat()}, day {state.day} of {state.protocol.days}"
    if state.missing:
        said += ", while missing: " + ", ".join(m.words for m in state.missing)
    if state.release.reason:
        said += f"; the keeper's reason: {state.release.reason}"
    if state.positives:
        said += "; a positive result stands, ask a vet"
    if state.late_positives:
        said += "; A POSITIVE RESULT CAME AFTER RELEASE, ask a vet"
    return said
