"""Whether a label says something else than when it was last printed."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from warmside.plugins.labels.content import Label


def fingerprint(label: Label) -> str:
    """A short digest of all that a label says; equal digests mean equal labels."""
    said = json.dumps(asdict(label), sort_keys=True)  # ASCII, so lone surrogates do no harm
    return hashlib.sha256(said.encode("ascii")).hexdigest()[:24]
