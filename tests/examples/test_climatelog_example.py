"""The example of a third-party plugin, found as an installed package is; .ci/run runs its tests."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from warmside.core.file import sqlite
from warmside.core.plugins.discovery import installed
from warmside.migrations import lineage_of, runner
from warmside.testing import Keeper

EXAMPLE = Path(__file__).parents[2] / "examples" / "warmside-climatelog"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A folder of packages in which the example is, with the metadata that an installer writes."""
    project = tomllib.loads((EXAMPLE / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    info = tmp_path / "site" / f"warmside_climatelog-{project['version']}.dist-info"
    info.mkdir(parents=True)
    (info / "METADATA").write_text(
        f"Metadata-Version: 2.4\nName: {project['name']}\nVersion: {project['version']}\n"
    )
    points = project["entry-points"]["warmside.plugins"]
    lines = "\n".join(f"{name} = {target}" for name, target in points.items())
    (info / "entry_points.txt").write_text(f"[warmside.plugins]\n{lines}\n")
    return info.parent


@pytest.fixture
def example(site: Path, keeper: Keeper, monkeypatch: pytest.MonkeyPatch) -> Keeper:
    """A keeper on whose machine the example is installed."""
    monkeypatch.syspath_prepend(str(EXAMPLE / "src"))
    monkeypatch.syspath_prepend(str(site))
    return keeper


def test_it_is_found_by_its_entry_point_and_enabled_by_name(example: Keeper) -> None:
    (offer,) = installed()["climatelog"]
    assert (offer.distribution, offer.version) == ("warmside-climatelog", "0.1.0")
    example.run("plugin", "enable", "climatelog")
    listed = {p["name"]: p for p in example.json("plugin", "list")["plugins"]}
    assert (listed["climatelog"]["state"], listed["climatelog"]["problem"]) == ("enabled", "")
    assert "climatelog.readout" in example.run("record", "--help").stdout
    assert example.json("plugin", "show", "climatelog")["settings"][0]["name"] == "most"


def test_its_tables_agree_with_its_revisions(example: Keeper) -> None:
    from warmside_climatelog import MANIFEST

    lineage = lineage_of(MANIFEST)
    assert lineage is not None
    assert runner.script(lineage).get_heads() == [lineage.head]
    engine = sqlite.open_engine(example.path)
    runner.upgrade(engine, [lineage])
    assert runner.differences(engine, lineage, str(MANIFEST.tables)) == []
