"""Photos that show who it is, apart from those that show a step to a sitter."""

from __future__ import annotations

import re
from collections.abc import Iterable

from warmside.core.record.pictures import Picture

STEP = re.compile(r"step \d+", re.IGNORECASE)
"""The view of a photo that stands beside a step: `step 2`."""


def portraits(pictures: Iterable[Picture]) -> list[Picture]:
    """The photos of them that are neither papers nor taken to show a step."""
    return [p for p in pictures if not p.is_paper and not STEP.fullmatch(p.view)]
