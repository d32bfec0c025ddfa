"""Papers and printers as the keeper sets them: refused then, not first when printing."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from warmside.api import Ask, RowChange
from warmside.plugins.labels.content.label import LabelKind
from warmside.plugins.labels.reading.memory import profile_named
from warmside.plugins.labels.reading.papers import paper_of, profile_in_use, stocks_known

CHECKS: Mapping[str, Callable[[Ask], object]] = {
    "stocks_file": lambda ask: stocks_known(ask, None),
    "stock": paper_of,
    "sign_stock": lambda ask: paper_of(ask, kind=LabelKind.DOOR),
    "profile": lambda ask: profile_named(ask.book, profile_in_use(ask, None)),
}
"""For each setting what raises BadInput or NotFound where it cannot be used."""


def check_changed(ask: Ask, changes: Iterable[RowChange]) -> None:
    """Try each of our settings that a step changed; others may be wrong and are left."""
    for change in changes:
        if change.table == "plugin_state" and change.key.get("name") == "labels":
            before, after = _settings(change.before), _settings(change.after)
            for name, check in CHECKS.items():
                if name in after and before.get(name) != after[name]:
                    check(ask)


def _settings(row: Mapping[str, Any] | None) -> dict[str, Any]:
    return dict(json.loads((row or {}).get("settings") or "{}"))
