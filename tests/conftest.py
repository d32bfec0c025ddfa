"""Fixtures shared by all tests."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, new_keeper


@pytest.fixture
def keeper(tmp_path: Path) -> Keeper:
    """A keeper with an empty collection, noon of 5 March 2026 in UTC."""
    return new_keeper(tmp_path)
