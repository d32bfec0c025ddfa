"""What the daily round imports stays light."""

from __future__ import annotations

import subprocess
import sys

HEAVY = ("numpy", "scipy", "sqlalchemy", "statistics", "typer", "reportlab")
ROUND = (
    "lms", "series", "limits", "checks", "centile_checks", "typing_errors", "trend",
    "life_history", "condition", "student", "spans", "rhythm", "swapped", "judging", "weights",
    "ages", "settings", "families",
)  # fmt: skip


def test_the_rounds_modules_import_nothing_heavy() -> None:
    """In a fresh process, with the search path of this one."""
    modules = ", ".join(f"warmside.plugins.weight.{name}" for name in ROUND)
    code = f"import sys; sys.path[:] = {sys.path!r}; import {modules}; print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-I", "-c", code], capture_output=True, text=True, check=True
    )
    assert not set(HEAVY) & set(done.stdout.split())
