"""README says what the program really prints; WARMSIDE_WRITE_DOCS=1 rewrites it on purpose."""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

import pytest

from printed_walk import rewritten

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"


@pytest.fixture(scope="module")
def walk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder in which the walk was typed, with README as it would be now."""
    folder = tmp_path_factory.mktemp("walk")
    for name in ("events.csv", "scales.csv", "scales.toml"):
        shutil.copy(ROOT / "examples" / name, folder)
    now = rewritten(README.read_text(encoding="utf-8"), folder)
    (folder / "README.md").write_text(now, encoding="utf-8")
    return folder


def test_the_walk_prints_what_readme_says(walk: Path) -> None:
    now = (walk / "README.md").read_text(encoding="utf-8")
    if os.environ.get("WARMSIDE_WRITE_DOCS"):
        README.write_text(now, encoding="utf-8")
    assert now == README.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["labels.pdf", "tuppence.pdf"])
def test_the_walk_leaves_its_papers(walk: Path, name: str) -> None:
    assert (walk / name).read_bytes().startswith(b"%PDF-")


def test_readme_gives_exactly_two_set_up_commands() -> None:
    text = README.read_text(encoding="utf-8")
    commands = re.findall(r"^    (python3 -m venv .*)$", text, re.MULTILINE)
    assert [c.split("&&")[-1].split()[0] for c in commands] == [
        ".venv/bin/warmside",
        ".venv/bin/pytest",
    ]
