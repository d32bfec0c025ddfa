"""The whole way: a new collection, labels printed, read by an outside scanner, opened by `scan`."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
import zxingcpp

from warmside.plugins.labels.content.label import LabelKind
from warmside.testing import Keeper, new_keeper

STOCKS = ("a4-5x13", "a4-3x8", "roll-50x30")  # small, usual, single


@pytest.fixture(scope="module")
def keeper(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """A keeper with three animals, invented, and a fourth that came today."""
    made = new_keeper(tmp_path_factory.mktemp("printed"), plugins=["quarantine", "labels"])
    for code, name, room in (
        ("V-01", "Window vivarium", "living room"),
        ("V-02", "Tall glass", "attic"),
        ("Q-1", "Quiet tub", "hall"),
    ):
        made.run("enclosure", "add", name, "--code", code, "--room", room)
    for name, species, place in (
        ("Ember", "African house snake", "V-01"),
        ("Tamsin", "crested gecko", "V-02"),
        ("Moss", "crested gecko", "V-02"),
    ):
        made.run("animal", "add", name, "--species", species, "--enclosure", place)
    made.run("arrive", "Aino", "--species", "rainbow boa", "--enclosure", "Q-1")
    made.run("labels", "note", "Aino", "hazard", "bites")
    return made


def decoded(path: Path, dpi: int) -> list[str]:
    """What zxing-cpp reads from all pages."""
    pages = (p.render(scale=dpi / 72, grayscale=True).to_pil() for p in pypdfium2.PdfDocument(path))
    formats = zxingcpp.BarcodeFormat.QRCode
    return sorted(c.text for page in pages for c in zxingcpp.read_barcodes(page, formats=formats))


@pytest.mark.parametrize("kind", list(LabelKind))
@pytest.mark.parametrize("stock", STOCKS)
def test_every_printed_code_is_read_and_opens_what_it_stands_for(
    keeper: Keeper, tmp_path: Path, kind: LabelKind, stock: str
) -> None:
    """Reader: zxing-cpp on pdfium's raster at 203 dpi, which is coarse (reference lib)."""
    path = tmp_path / "out.pdf"
    answer = keeper.json("labels", "print", str(path), "--kind", kind.value, "--stock", stock)
    wanted = sorted(row["qr"] for row in answer["labels"])
    assert len(wanted) == {"animal": 4, "door": 1, "hazard": 1}.get(kind, 3)
    assert decoded(path, 203) == wanted
    text = " ".join(p.get_textpage().get_text_range() for p in pypdfium2.PdfDocument(path)).split()
    for row in answer["labels"]:
        assert row["code"] in text
        opened = keeper.json("scan", row["qr"])
        assert opened["code"] == row["code"]
        assert opened["kind"] == ("animal" if kind is LabelKind.ANIMAL else "enclosure")
