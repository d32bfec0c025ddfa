"""A page on a small collection, asked in this process, without a network."""

from __future__ import annotations

import signal
from pathlib import Path

import pytest

from page.phones import HOST, Clock, Phone
from warmside.cli.opening import open_collection
from warmside.cli.page_commands import PageCommands
from warmside.cli.plugin_choice import PluginChoice
from warmside.core.session.live import Live
from warmside.page.app import Page
from warmside.page.phones.devices import Devices
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session", autouse=True)
def stoppable() -> None:
    """Programs that tests start are stopped by Ctrl-C, also where this run was begun with `&`."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(scope="session")
def stocked(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Two enclosures with three animals, invented; water is due, and a weighing."""
    keeper = new_keeper(tmp_path_factory.mktemp("stocked"), plugins=["feeding", "rhythm", "shed"])
    for line in (
        ("enclosure", "add", "Low shelf", "--code", "LOW"),
        ("enclosure", "add", "High shelf", "--code", "HIGH"),
        *(
            ("animal", "add", n, "--species", s, "--enclosure", e, "--since", "2025-01-01")
            for n, s, e in (
                ("Ember", "ball python", "LOW"),
                ("Moss", "leopard gecko", "HIGH"),
                ("Sky", "leopard gecko", "HIGH"),
            )
        ),
        ("record", "weighed", "EMB=1200g", "--at", "2026-01-01"),
        ("record", "fed", "EMB", "--item", "rat", "--mass", "40g", "--at", "2026-02-25"),
        ("record", "watered", "LOW", "HIGH", "--at", "2026-03-01"),
        ("rhythm", "set", "watered", "--every", "2"),
        ("rhythm", "set", "weighed", "--every", "30"),
    ):
        keeper.run(*line)
    return keeper


@pytest.fixture
def keeper(stocked: Keeper, tmp_path: Path) -> Keeper:
    """The keeper of a copy of that collection."""
    return copy_of(stocked, tmp_path)


@pytest.fixture
def clock(keeper: Keeper) -> Clock:
    """The page's clock, at the keeper's moment."""
    return Clock(keeper.now)


@pytest.fixture
def page(keeper: Keeper, clock: Clock, tmp_path: Path) -> Page:
    """The page of the keeper's collection."""
    choice = PluginChoice()
    live = Live(keeper.path, lambda p, now: open_collection(p, now, choice), lambda: clock.now)
    devices = Devices(tmp_path / "own" / "phones")
    return Page(live, devices, PageCommands(keeper.path), [HOST], lambda: clock.seconds)


@pytest.fixture
def phone(page: Page) -> Phone:
    """A keeper's paired phone."""
    return Phone(page).pair()
