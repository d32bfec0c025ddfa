"""A scaffolded plugin works at once.

That it is formatted and typed, and that its own tests pass once it is installed, is asked by
.ci/run: it takes as long as a hundred other tests.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from warmside.core.plugins.manifest import RESERVED
from warmside.testing import Keeper

NAME = "mistlog"


@pytest.fixture
def made(keeper: Keeper, tmp_path: Path) -> Path:
    """A scaffolded plugin, and beside it the metadata that an installer would write."""
    folder = tmp_path / "made"
    keeper.run("plugin", "scaffold", NAME, folder)
    info = tmp_path / "site" / f"warmside_{NAME}-0.1.0.dist-info"
    info.mkdir(parents=True)
    (info / "METADATA").write_text(
        f"Metadata-Version: 2.4\nName: warmside-{NAME}\nVersion: 0.1.0\n"
    )
    point = f"{NAME} = warmside_{NAME}:MANIFEST"
    assert point.replace(" = w", ' = "w') in (folder / "pyproject.toml").read_text("utf-8")
    (info / "entry_points.txt").write_text(f"[warmside.plugins]\n{point}\n")
    return folder


def test_it_works_as_it_was_written(
    made: Path, keeper: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.syspath_prepend(str(made / "src"))
    monkeypatch.syspath_prepend(str(made.parent / "site"))
    keeper.run("plugin", "enable", NAME)
    keeper.run("enclosure", "add", "Shelf")
    keeper.run(NAME, "plan", "SHE", "--every", "3")
    assert [t["plugin"] for t in keeper.json("today")["tasks"]] == [NAME]


def test_the_answer_lists_what_was_written_and_says_what_to_do_next(
    keeper: Keeper, tmp_path: Path
) -> None:
    folder = tmp_path / "made"
    answer = keeper.json("plugin", "scaffold", NAME, folder)
    written = {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}
    assert {f["file"] for f in answer["files"]} == written
    assert f"src/warmside_{NAME}/migrations/{NAME}0001_plan.py" in written
    said = keeper.run("plugin", "scaffold", NAME, tmp_path / "other").stdout
    for words in ("pip install -e", "python -m pytest", f"warmside plugin enable {NAME}"):
        assert words in said


@pytest.mark.parametrize("name", ["Mist", "my-plugin", "2mist", "", "a" * 21, *sorted(RESERVED)])
def test_a_bad_name_is_refused_and_writes_nothing(
    keeper: Keeper, tmp_path: Path, name: str
) -> None:
    refused = keeper.run("plugin", "scaffold", name, tmp_path / "made", ok=False)
    assert "name" in refused.complaint(2)
    assert not (tmp_path / "made").exists()


def test_neither_a_plugin_nor_a_folder_is_written_over(keeper: Keeper, tmp_path: Path) -> None:
    refused = keeper.run("plugin", "scaffold", "shed", tmp_path / "made", ok=False)
    assert "there is a plugin shed already" in refused.complaint(4)
    (tmp_path / "kept").mkdir()
    (tmp_path / "kept" / "mine.txt").write_text("mine")
    refused = keeper.run("plugin", "scaffold", NAME, tmp_path / "kept", ok=False)
    assert "is there already" in refused.complaint(4)
    assert [p.name for p in (tmp_path / "kept").iterdir()] == ["mine.txt"]


@pytest.mark.skipif(
    os.name != "posix" or os.geteuid() == 0, reason="needs a folder it may not write"
)
def test_a_folder_that_cannot_be_made_is_one_line(keeper: Keeper, tmp_path: Path) -> None:
    tmp_path.joinpath("shut").mkdir(mode=0o500)
    refused = keeper.run("plugin", "scaffold", NAME, tmp_path / "shut" / "made", ok=False)
    assert "cannot write" in refused.complaint(5)
