"""An animal's own growth curve, kept across runs until a weighing or a meal changes it."""

from __future__ import annotations

from warmside.api import Ask, BadInput
from warmside.plugins.weight.course.standing import Standing
from warmside.plugins.weight.growth.growth import Growth, grow
from warmside.plugins.weight.growth.keeping import from_kept, to_keep
from warmside.plugins.weight.kinds import CHECKED

RESTS_ON = ("animal", "plugin_state", "event:weighed", "event:fed", f"event:{CHECKED}")


def grown(ask: Ask, it: Standing) -> Growth:
    """The growth curve of the weighings; BadInput where they are too few for one.

    A fit takes a tenth of a second and SciPy's import more; kept, it is there in a millisecond.
    """
    those = it.weights.course.weighings
    if it.on < ask.book.today:
        return grow(those)
    key = f"weight.growth.{it.weights.animal.id}"
    kept = ask.book.derived(key, RESTS_ON, lambda: to_keep(grow(those)))
    return from_kept(kept, those)


def grown_if_any(ask: Ask, it: Standing) -> Growth | None:
    """As `grown`; None where the weighings are too few."""
    try:
        return grown(ask, it)
    except BadInput:
        return None
