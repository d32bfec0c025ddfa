"""A keeper with two rooms, some of whose animals are ill, apart or new."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper

LINES = r"""
enclosure add Low --room Attic --width 120cm --depth 60cm
enclosure add High --room Attic
enclosure add Far --room Hall
animal add Ember --species 'ball python' --sex female --hatched 2023-05-02 --enclosure LOW \
    --since 2023-06-01
animal add Moss --species 'leopard gecko' --enclosure HIG --since 2023-06-01
arrive Fern --species 'crested gecko' --enclosure FAR --at 2026-02-13
record weighed EMB=1400g --at 2025-09-01
record weighed EMB=1500g --at 2025-12-01
record weighed EMB=1350g --at 2026-03-01
record fed EMB --item 'adult rat' --mass 90g --at 2026-01-10
record fed EMB --item 'adult rat' --outcome refused --at 2026-01-24
record fed EMB --item 'adult rat' --outcome refused --at 2026-02-07
record defecated EMB --looks loose --at 2026-01-20
record shed EMB --outcome pieces --at 2026-02-01
record climate LOW --warm 31C --cool 25C --at 2026-02-20
record climate LOW --warm 29C --cool 26C --at 2026-03-02
record sign EMB --sign wheezing --where loud --at 2026-02-25
record sign EMB --sign wheezing --at 2026-03-03
record examined EMB --by 'Dr. Invented' --told 'a swab was taken' --at 2026-02-26
"""


@pytest.fixture(scope="session")
def _house(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    keeper = new_keeper(tmp_path_factory.mktemp("sheets"))
    for line in LINES.replace("\\\n", "").strip().splitlines():
        keeper.run(*shlex.split(line))
    return keeper


@pytest.fixture
def house(_house: Keeper, tmp_path: Path) -> Keeper:
    """A copy of the house for one test."""
    return copy_of(_house, tmp_path)
