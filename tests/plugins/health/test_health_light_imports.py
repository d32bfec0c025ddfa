"""What the round imports of this plugin stays light."""

from __future__ import annotations

import subprocess
import sys

HEAVY = ("sqlalchemy", "numpy", "scipy", "reportlab", "typer")


def test_the_hooks_import_no_heavy_library() -> None:
    script = (
        "import sys, warmside.plugins.health.hooks; "
        f"print([m for m in {HEAVY} if m in sys.modules])"
    )
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True)
    assert found.stdout.strip() == "[]", found.stderr
