"""Fixtures shared by all tests."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from warmside.testing import Keeper, new_keeper

# Programs that tests start compile our modules once, not each time, wherever Python is told not to
# write that down.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
sys.dont_write_bytecode = False  # so, too, the tests themselves: 12 s of a run
# Tests run side by side: threads of matrix products would only wait for each other.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# Where memory can hold the files that tests make, and programs among them may run, they lie there:
# a test then waits for no disk, of which a third of some tests' time went. TMPDIR overrides it.
MEMORY = Path("/dev/shm")
ROOM_BYTES = 4_000_000_000
if "TMPDIR" not in os.environ and MEMORY.is_dir() and hasattr(os, "statvfs"):
    its = os.statvfs(MEMORY)
    if its.f_bavail * its.f_frsize > ROOM_BYTES and not its.f_flag & os.ST_NOEXEC:
        os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(MEMORY))

# A slow machine is no failure; in CI the same examples are drawn every time.
settings.register_profile("home", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "home")


# Where workers share a run, every other one finds the tests from the end: each compiles half of the
# files, and reads the other half from what its neighbour wrote. All run them in the same order.
BACKWARDS = os.environ.get("PYTEST_XDIST_WORKER", "")[-1:] in tuple("13579")


class Backwards(pytest.Dir):  # type: ignore[misc]  # final, as no other folder is expected
    """A folder whose last entry comes first."""

    def collect(self) -> Iterable[pytest.Item | pytest.Collector]:
        return reversed(list(super().collect()))


def pytest_collect_directory(path: Path, parent: pytest.Collector) -> pytest.Collector | None:
    return Backwards.from_parent(parent, path=path) if BACKWARDS else None


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    if "PYTEST_XDIST_WORKER" in os.environ:
        items.sort(key=lambda item: item.path.parts)


@pytest.fixture(autouse=True, scope="session")
def caches_apart(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """What is kept across runs lies in a folder of the tests, also where a test opens a file."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture
def keeper(tmp_path: Path) -> Keeper:
    """A keeper with an empty collection, noon of 5 March 2026 in UTC."""
    return new_keeper(tmp_path)
