"""What is known of a group before it is tested, and what the tests make of it.

A group that was free may have caught the infection since: the chance that it was free counts for
less by the chance that it was brought in (Martin, Cameron & Greiner 2007 Prev Vet Med 79).
"""

from __future__ import annotations

from warmside.plugins.quarantine.odds.shares import check_target, share


def discounted(free: float, introduced: float) -> float:
    """The chance to be free now, from the chance to have been free and that of introduction."""
    return share("free before", free) * (1 - share("introduced", introduced))


def free_after(free: float, found: float, passed: float = 1.0) -> float:
    """The chance that a group is free once it was tested and not called infected.

    `free` is the chance before; an infected group would have been called so with `found`, a free
    one not with `passed`.
    """
    free, found, passed = share("free", free), share("found", found), share("passed", passed)
    right, wrong = free * passed, (1 - free) * (1 - found)
    return right / (right + wrong) if right else 0.0


def found_needed(free: float, target: float, passed: float = 1.0) -> float | None:
    """The group sensitivity with which a passed test brings the chance to be free to the target.

    0 where it is reached untested; None where no test reaches it.
    """
    check_target(target)
    if share("free", free) == 0:
        return None
    if free >= target:
        return 0.0
    return max(0.0, 1 - passed * free * (1 - target) / (target * (1 - free)))
