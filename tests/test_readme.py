"""README and the walk say what the program really prints, and show what it really draws.

WARMSIDE_WRITE_DOCS=1 rewrites the printed outputs and the pictures on purpose.
"""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from printed_walk import rewritten

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
EXAMPLES = ROOT / "examples"
WALK = EXAMPLES / "WALK.md"
SHEET, CURVE = EXAMPLES / "label-sheet.png", EXAMPLES / "weight-curve.svg"
WRITING = bool(os.environ.get("WARMSIDE_WRITE_DOCS"))
MOST_LINES = 250  # what a newcomer reads before the first command
BETWEEN = "\n\f\n"


@pytest.fixture(scope="module")
def walked(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str, str]:
    """The folder after the walk and README's morning, played one after the other; what both say."""
    folder = tmp_path_factory.mktemp("walk")
    given = ("events.csv", "scales.csv", "scales.toml", "low-shelf.toml", "low-shelf-log.csv")
    for name in given:
        shutil.copy(EXAMPLES / name, folder)
    said = [path.read_text(encoding="utf-8") for path in (WALK, README)]
    walk, readme = rewritten(BETWEEN.join(said), folder).split(BETWEEN)
    return folder, walk, readme


def test_the_walk_and_the_morning_print_what_is_written(walked: tuple[Path, str, str]) -> None:
    for path, now in zip((WALK, README), walked[1:], strict=True):
        if WRITING:
            path.write_text(now, encoding="utf-8")
        assert now == path.read_text(encoding="utf-8")
    for name in ("labels.pdf", "tuppence.pdf", "low-shelf.pdf"):
        assert (walked[0] / name).read_bytes().startswith(b"%PDF-")


def test_the_pictures_are_those_of_the_walk(walked: tuple[Path, str, str]) -> None:
    sheet, curve = _upper_part(walked[0] / "labels.pdf"), walked[0] / "curve.svg"
    if WRITING:
        sheet.save(SHEET, optimize=True)
        shutil.copyfile(curve, CURVE)
    kept = Image.open(SHEET)
    assert kept.size == sheet.size
    off = np.abs(np.asarray(kept, dtype=float) - np.asarray(sheet, dtype=float)).mean()
    assert off < 2  # of 255: releases of the renderer smooth edges differently
    assert curve.read_text(encoding="utf-8") == CURVE.read_text(encoding="utf-8")


def _upper_part(pdf: Path) -> Image.Image:
    """The first two rows of a sheet, as grey pixels at 110 dpi."""
    page = pypdfium2.PdfDocument(pdf)[0].render(scale=110 / 72, grayscale=True).to_pil()
    return page.crop((0, round(page.height * 0.03), page.width, round(page.height * 0.29)))


def test_readme_is_read_within_a_minute_and_its_links_lead_somewhere() -> None:
    text = README.read_text(encoding="utf-8")
    assert text.count("\n") <= MOST_LINES
    for link in re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", text):
        assert (ROOT / link).exists(), link


def test_readme_gives_exactly_two_set_up_commands() -> None:
    text = README.read_text(encoding="utf-8")
    commands = re.findall(r"^    (python3 -m venv .*)$", text, re.MULTILINE)
    assert [c.split("&&")[-1].split()[0] for c in commands] == [
        ".venv/bin/warmside",
        ".venv/bin/pytest",
    ]


def test_readme_names_every_plugin_that_ships() -> None:
    from warmside.core.plugins.discovery import BUILT_IN

    rows = re.findall(r"^\| (\w+) \|", README.read_text(encoding="utf-8"), re.MULTILINE)
    assert rows[1:] == sorted(BUILT_IN)
