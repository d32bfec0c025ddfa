"""The round must stay quick to start: what feeds it imports nothing heavy."""

from __future__ import annotations

import subprocess
import sys

HEAVY = ("sqlalchemy", "numpy", "scipy", "reportlab", "typer", "alembic", "icalendar")


def loaded(module: str, *heavy: str) -> str:
    path = f"import sys; sys.path[:] = {sys.path!r}"
    code = f"{path}; import {module}; print([m for m in {heavy} if m in sys.modules])"
    done = subprocess.run(
        [sys.executable, "-I", "-c", code], capture_output=True, text=True, check=True
    )
    return done.stdout.strip()


def test_the_manifest_needs_neither_tables_nor_reference_data() -> None:
    assert loaded("warmside.plugins.feeding", *HEAVY, "tomllib", "pluggy") == "[]"


def test_the_hooks_need_nothing_heavy() -> None:
    assert loaded("warmside.plugins.feeding.hooks", *HEAVY) == "[]"


def test_the_check_can_fail() -> None:
    assert loaded("warmside.plugins.feeding.tables", *HEAVY) == "['sqlalchemy']"
