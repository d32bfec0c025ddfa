"""What the daily round imports stays light."""

from __future__ import annotations

import subprocess
import sys

HEAVY = ("numpy", "scipy", "sqlalchemy", "statistics", "typer", "reportlab")


def test_the_rounds_modules_import_nothing_heavy() -> None:
    """In a fresh process, with the search path of this one."""
    code = (
        f"import sys; sys.path[:] = {sys.path!r}\n"
        "import warmside.plugins.weight.hooks, warmside.plugins.weight.telling.weight\n"
        "print(*sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-I", "-c", code], capture_output=True, text=True, check=True
    )
    assert not set(HEAVY) & set(done.stdout.split())
