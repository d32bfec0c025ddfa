"""README says what the program really prints; WARMSIDE_WRITE_DOCS=1 rewrites it on purpose."""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

from printed_walk import rewritten

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"


def test_the_walk_prints_what_readme_says_and_leaves_its_papers(tmp_path: Path) -> None:
    for name in ("events.csv", "scales.csv", "scales.toml"):
        shutil.copy(ROOT / "examples" / name, tmp_path)
    now = rewritten(README.read_text(encoding="utf-8"), tmp_path)
    if os.environ.get("WARMSIDE_WRITE_DOCS"):
        README.write_text(now, encoding="utf-8")
    assert now == README.read_text(encoding="utf-8")
    for name in ("labels.pdf", "tuppence.pdf"):
        assert (tmp_path / name).read_bytes().startswith(b"%PDF-")


def test_readme_gives_exactly_two_set_up_commands() -> None:
    text = README.read_text(encoding="utf-8")
    commands = re.findall(r"^    (python3 -m venv .*)$", text, re.MULTILINE)
    assert [c.split("&&")[-1].split()[0] for c in commands] == [
        ".venv/bin/warmside",
        ".venv/bin/pytest",
    ]
