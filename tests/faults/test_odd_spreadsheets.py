"""Spreadsheets that come through a pipe, and such as no machine has room for."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import pytest
from tests.piped import piped

from warmside.testing import Keeper

openpyxl = pytest.importorskip("openpyxl")


def spreadsheet(path: Path, **more: object) -> Path:
    """One weighing of Ember, and more in the cells that are named."""
    cells = {"A1": "date", "B1": "animal", "C1": "mass_g"}
    cells |= {"A2": date(2026, 1, 5), "B2": "EMB", "C2": 1268}
    book = openpyxl.Workbook()
    for place, value in (cells | more).items():
        book.active[place] = value
    book.save(path)
    return path


@pytest.mark.skipif(os.name != "posix", reason="needs a named pipe")
def test_a_spreadsheet_out_of_a_pipe(stocked: Keeper, tmp_path: Path) -> None:
    """Its name does not say what it is."""
    sheet = spreadsheet(tmp_path / "a.xlsx").read_bytes()
    with piped(tmp_path / "pipe", sheet) as pipe:
        assert stocked.json("import", pipe, "--kind", "weighed")["new"] == 1
    assert "1.268 kg" in stocked.run("history").stdout


def test_a_cell_in_the_last_corner(stocked: Keeper, tmp_path: Path) -> None:
    """Which makes a sheet of 17 thousand million cells."""
    sheet = spreadsheet(tmp_path / "far.xlsx", XFD1048576="x")
    line = stocked.run("import", sheet, "--kind", "weighed", ok=False).complaint(2)
    assert "far below or beside the others" in line


def test_what_is_no_spreadsheet_but_called_one(stocked: Keeper, tmp_path: Path) -> None:
    path = tmp_path / "a.xlsx"
    path.write_bytes(b"PK\x03\x04" + b"nothing" * 100)
    assert "as a spreadsheet" in stocked.run("import", path, ok=False).complaint(2)
