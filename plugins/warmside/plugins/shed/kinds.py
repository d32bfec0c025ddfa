"""What the keeper does about a shed: made ready before it, looked at the animal after it."""

from __future__ import annotations

from warmside.api import RETAINED, EventKind, fields

PREPARED = "shed.prepared"
CHECKED = "shed.checked"
CLEAN, LEFT_ON = "clean", "retained"


class Prepared:
    """Made ready for a shed: a humid hide, or more humidity."""

    how: str = fields.choice(
        ("humid hide", "more humidity", "both", "not needed"), "what was done", default="humid hide"
    )


class Checked:
    """Looked at spectacles, tail tip and toes after a shed."""

    found: str = fields.choice((CLEAN, LEFT_ON), "whether old skin is still on")
    where: tuple[str, ...] = fields.choices(RETAINED, "where it is still on")


KINDS = (
    EventKind(PREPARED, "made ready for the shed", Prepared, todo="humid hide"),
    EventKind(CHECKED, "checked after the shed", Checked, todo="check after the shed"),
)
