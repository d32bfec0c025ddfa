"""Words that several answers share."""

from __future__ import annotations

from warmside.api import Basis, Mark, Source

MENDEL = Basis(
    "exact chances by Mendel's rules over the whole recorded family and all its young",
    Source("Mendel's rules; textbook of genetics", Mark.FROM_MEMORY),
)
APART = (
    "So many parents in this family are not certain that only chances of one trait are exact; "
    "those of several together are reckoned as if the traits told nothing of each other."
)
NO_VERDICT = (
    "Chances rest on what is recorded: a parent that was not the parent changes them all. Traits "
    "that are known to harm should not be bred; in some countries the law forbids it. Ask a vet."
)


def percent(chance: float) -> str:
    """A chance as a keeper reads it; never 0 or 100 unless it is certain."""
    if chance in (0.0, 1.0):
        return f"{100 * chance:.0f} %"
    shown = f"{100 * chance:.1f}" if chance < 0.1 or chance > 0.9 else f"{100 * chance:.0f}"
    if float(shown) == 0:
        return "under 0.1 %"
    return "over 99.9 %" if float(shown) == 100 else f"{shown} %"
