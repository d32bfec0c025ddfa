"""How fast a command starts, beside what no Python program of its kind can do without.

Limits are ratios of medians, measured in turn in one run: `--version` at most 1.5 times
`python -c pass`, `--help` at most 1.5 times `python -c "import typer"`, `today` on the demo at
most 1.2 times `python -c "import sqlalchemy"` (wanted: no longer than that).
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from tests.bench.measured import hold_ratio

RUNS = 21
WARMSIDE = ("-c", "import sys; from warmside.cli.entry import main; sys.exit(main())")  # the script
PAIRS = {
    "--version": ((*WARMSIDE, "--version"), ("-c", "pass"), 1.5),
    "--help": ((*WARMSIDE, "--help"), ("-c", "import typer"), 1.5),
    "today": ((*WARMSIDE, "today"), ("-c", "import sqlalchemy"), 1.2),
}


@pytest.fixture(scope="module")
def environment(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The demo's collection, and compiled modules as an installed package has them."""
    folder = tmp_path_factory.mktemp("start")
    variables = os.environ | {
        "PYTHONPATH": os.pathsep.join(p for p in sys.path if p),
        "PYTHONPYCACHEPREFIX": str(folder / "compiled"),
        "WARMSIDE_COLLECTION": str(folder / "demo" / "demo.warmside"),
    }
    variables.pop("PYTHONDONTWRITEBYTECODE", None)
    command = [sys.executable, "-m", "warmside", "demo", str(folder / "demo")]
    subprocess.run(command, env=variables, check=True, capture_output=True)
    assert Path(variables["WARMSIDE_COLLECTION"]).exists()
    return variables


@pytest.mark.parametrize("name", PAIRS)
def test_start(environment: dict[str, str], name: str) -> None:
    ours, bare, limit = PAIRS[name]

    def started(arguments: tuple[str, ...]) -> object:
        command = [sys.executable, *arguments]
        return subprocess.run(command, env=environment, check=True, capture_output=True)

    label = f"{name} to {' '.join(bare[1:])}"
    hold_ratio(label, lambda: started(ours), lambda: started(bare), limit, RUNS)
