"""Animals that eat their slough, so that none found is no missing shed."""

from __future__ import annotations

import functools
from collections.abc import Iterable

from warmside.plugins.shed.reference import rows


def eats_slough(taxa: Iterable[str]) -> bool:
    """Whether any of the names (family, genus or species, in Latin) is of a slough eater."""
    return any(name.split()[0].lower() in _known() for name in taxa if name.strip())


@functools.cache
def _known() -> frozenset[str]:
    return frozenset(t.lower() for row in rows("slough_eaters") for t in row["taxa"])
