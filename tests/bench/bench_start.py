"""How fast a command starts, beside what no Python program of its kind can do without.

Run: python -m pytest -q -s tests/bench/bench_start.py. Limits are ratios of medians, measured in
turn in one run: `--version` at most 1.5 times `python -c pass`, `--help` at most 1.5 times
`python -c "import typer"`, `today` on the demo at most 2 times `python -c "import sqlalchemy"`.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

import pytest

RUNS = 21
WARMSIDE = ("-c", "import sys; from warmside.cli.entry import main; sys.exit(main())")  # the script
PAIRS = {
    "--version": ((*WARMSIDE, "--version"), ("-c", "pass"), 1.5),
    "--help": ((*WARMSIDE, "--help"), ("-c", "import typer"), 1.5),
    "today": ((*WARMSIDE, "today"), ("-c", "import sqlalchemy"), 2.0),
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


def seconds(arguments: tuple[str, ...], environment: dict[str, str]) -> float:
    """The wall time of one process."""
    started = time.perf_counter()
    subprocess.run([sys.executable, *arguments], env=environment, check=True, capture_output=True)
    return time.perf_counter() - started


@pytest.mark.parametrize("name", PAIRS)
def test_start(environment: dict[str, str], name: str) -> None:
    ours, bare, limit = PAIRS[name]
    for arguments in (ours, bare):
        seconds(arguments, environment)  # compiles, and fills the disk's cache
    rounds = [(seconds(ours, environment), seconds(bare, environment)) for _ in range(RUNS)]
    mine, base = (statistics.median(times) for times in zip(*rounds, strict=True))
    print(
        f"\n{name}: {1000 * mine:.0f} ms, {' '.join(bare)}: {1000 * base:.0f} ms, "
        f"ratio {mine / base:.2f} (at most {limit})"
    )
    assert mine / base <= limit
