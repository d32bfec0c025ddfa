"""The large collections of the benches, made once, and the table at the end of a run."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.bench.generated import generated
from tests.bench.measured import FIGURES, lines

from warmside.testing import Keeper, new_keeper

PLUGINS = ("quarantine", "rhythm")


@pytest.fixture(scope="session")
def large(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """300 animals, 10 years, 1,000,000 events."""
    return generated(tmp_path_factory.mktemp("large"), plugins=PLUGINS)


@pytest.fixture(scope="session")
def small(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """About what the demo holds."""
    folder = tmp_path_factory.mktemp("small")
    return generated(folder, animals=7, years=3, events=2500, plugins=PLUGINS)


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """The demo collection, as the walk through the main job leaves it, with all its plugins."""
    folder: Path = tmp_path_factory.mktemp("demo")
    new_keeper(folder).run("demo", str(folder / "demo"))
    return Keeper(folder / "demo" / "demo.warmside")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the table of all figures."""
    if FIGURES:
        terminalreporter.section("figures and limits")
        for line in lines(FIGURES):
            terminalreporter.write_line(line)
