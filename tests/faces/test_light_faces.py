"""The faces of the daily round start fast: nothing heavy is imported for text or JSON."""

from __future__ import annotations

import subprocess
import sys

HEAVY = ("reportlab", "numpy", "scipy", "rich", "PIL", "sqlalchemy", "typer", "icalendar")


def loaded(module: str) -> str:
    code = f"import sys; sys.path[:0] = {sys.path!r}; import {module}; print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return run.stdout


def test_text_and_json_import_nothing_heavy() -> None:
    for module in ("warmside.faces.terminal.text", "warmside.faces.data.json_face"):
        assert not set(HEAVY) & set(loaded(module).split())


def test_the_check_would_notice() -> None:
    assert "reportlab" in loaded("warmside.faces.paper.pdf").split()
