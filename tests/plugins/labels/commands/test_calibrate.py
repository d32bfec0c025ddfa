"""`warmside labels calibrate`: measured once, applied to every print."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest

from warmside.testing import Keeper

EXACT = ("--across", "100", "--down", "100", "--left", "20", "--top", "20", "--top-right", "20")


def measured(**changed: str) -> tuple[str, ...]:
    """The options of an exact printer with some values changed."""
    values = dict(zip(EXACT[::2], EXACT[1::2], strict=True))
    values.update({f"--{name.replace('_', '-')}": value for name, value in changed.items()})
    return tuple(part for pair in values.items() for part in pair)


def bounds(path: Path) -> tuple[float, ...]:
    """The box of the first text of a PDF, in millimetres."""
    page = pypdfium2.PdfDocument(path)[0]
    text = next(page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_TEXT]))
    return tuple(v * 25.4 / 72 for v in text.get_bounds())


def test_a_shifted_printer_is_corrected_where_its_profile_is_named(
    labelled: Keeper, tmp_path: Path
) -> None:
    answer = labelled.json(
        "labels", "calibrate", "set", "desk", *measured(left="21mm", top="18,5", top_right="18,5")
    )
    assert answer["offset_x_mm"] == pytest.approx(-1) and answer["offset_y_mm"] == pytest.approx(
        1.5
    )
    plain, corrected = tmp_path / "plain.pdf", tmp_path / "corrected.pdf"
    labelled.run("labels", "print", str(plain))
    labelled.run("labels", "print", str(corrected), "--profile", "desk")
    moved = [b - a for a, b in zip(bounds(plain), bounds(corrected), strict=True)]
    assert moved == pytest.approx([-1, -1.5, -1, -1.5], abs=0.01)
    labelled.run("plugin", "set", "labels", "profile", "desk")
    labelled.run("labels", "print", str(plain))
    assert bounds(plain) == pytest.approx(bounds(corrected))
    labelled.run("labels", "print", str(plain), "--profile", "none")
    assert bounds(plain) != pytest.approx(bounds(corrected))


def test_profiles_are_listed_replaced_dropped_and_taken_back(labelled: Keeper) -> None:
    labelled.run("labels", "calibrate", "set", "desk", *EXACT)
    labelled.run("labels", "calibrate", "set", "desk", *measured(across="99.5"))
    (row,) = labelled.json("labels", "calibrate", "list")["profiles"]
    assert row["name"] == "desk" and row["stretch_across_mm"] == pytest.approx(0.503)
    labelled.run("undo")
    assert labelled.json("labels", "calibrate", "list")["profiles"][0]["stretch_across_mm"] == 0
    labelled.run("labels", "calibrate", "drop", "desk")
    assert labelled.json("labels", "calibrate", "list")["profiles"] == []
    labelled.run("undo")
    assert len(labelled.json("labels", "calibrate", "list")["profiles"]) == 1


def test_the_page_is_drawn_with_a_profile_to_check_it(labelled: Keeper, tmp_path: Path) -> None:
    labelled.run("labels", "calibrate", "set", "desk", *measured(left="22"))
    plain, checked = tmp_path / "plain.pdf", tmp_path / "checked.pdf"
    labelled.run("labels", "calibrate", "page", str(plain), "--page", "letter")
    labelled.run(
        *("labels", "calibrate", "page", str(checked), "--page", "letter", "--profile", "desk")
    )
    assert pypdfium2.PdfDocument(plain)[0].get_width() == pytest.approx(612)
    assert bounds(checked)[0] - bounds(plain)[0] == pytest.approx(-2, abs=0.01)


def test_a_roll_in_use_is_calibrated_on_a_whole_page(labelled: Keeper, tmp_path: Path) -> None:
    labelled.run("plugin", "set", "labels", "stock", "roll-50x30")
    target = tmp_path / "page.pdf"
    labelled.run("labels", "calibrate", "page", str(target))
    assert pypdfium2.PdfDocument(target)[0].get_width() == pytest.approx(595.28, abs=0.01)


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("set", "desk", *measured(across="90")), 2, "instead of 100; print at 100 %"),
        (("set", "desk", *measured(left="200")), 2, "more than 10 mm off"),
        (("set", "desk", *measured(top_right="29")), 2, "more than 2 degrees"),
        (("set", "desk", *measured(down="-100")), 2, "down"),
        (("set", "desk", *measured(down="nan")), 2, "down"),
        (("set", "desk", *measured(down="about 100")), 2, "down"),
        (("set", "desk", "--across", "100"), 2, "missing option"),
        (("set", "none", *EXACT), 2, "cannot name a printer"),
        (("set", "Desk <b>", *EXACT), 2, "cannot name a printer"),
        (("set", "desk", *EXACT, "--page", "a3"), 2, "it is one of a4"),
        (("page", "x.pdf", "--page", "a7"), 2, "too small to calibrate on"),
        (("page", "x.pdf", "--profile", "desk"), 3, "no printer profile"),
        (("drop", "desk"), 3, "no printer profile"),
        (("drop", "none"), 3, "no printer profile"),
    ],
)
def test_an_absurd_measure_is_refused_in_one_line(
    labelled: Keeper,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    arguments: tuple[str, ...],
    code: int,
    said: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    result = labelled.run("labels", "calibrate", *arguments, ok=False)
    assert result.code == code and said in result.stderr and result.stderr.count("\n") == 1
    assert not (tmp_path / "x.pdf").exists()
    assert labelled.json("labels", "calibrate", "list")["profiles"] == []
