"""A printed label leads a phone's camera to the page of its enclosure."""

from __future__ import annotations

from pathlib import Path
from urllib.parse import urlsplit

import pypdfium2
import zxingcpp

from page.phones import HOST, Phone
from warmside.testing import Keeper


def test_the_code_of_a_printed_label_opens_its_enclosure(
    keeper: Keeper, phone: Phone, tmp_path: Path
) -> None:
    keeper.run("plugin", "enable", "labels")
    keeper.run("plugin", "set", "labels", "url_prefix", f"HTTP://{HOST.upper()}/")
    keeper.run("labels", "print", str(tmp_path / "labels.pdf"))
    with pypdfium2.PdfDocument(tmp_path / "labels.pdf") as sheet:
        picture = sheet[0].render(scale=4).to_pil()
    codes = sorted(code.text for code in zxingcpp.read_barcodes(picture))
    assert codes == [f"HTTP://{HOST.upper()}/WS.E.{code}" for code in ("HIGH", "LOW")]
    address = urlsplit(codes[1])
    assert address.netloc.lower() in phone.page.hosts  # a browser writes hosts in small letters
    assert "Ember" in phone.get(address.path).text


def test_the_labels_are_printed_from_the_phone_and_that_is_on_record(
    keeper: Keeper, phone: Phone
) -> None:
    keeper.run("plugin", "enable", "labels")
    assert "ask=labels+print" in phone.get("/tell").text
    made = phone.fill("/tell?ask=labels+print", 'action="/paper"', **{"p.enclosure": "LOW"})
    assert made.status_code == 200 and made.mimetype == "application/pdf"
    assert made.data.startswith(b"%PDF-")
    step = keeper.json("undo", "--list")["steps"][0]
    assert "printed 1 label" in step["what"] and step["by"] == "Ann"
    odd = phone.fill("/tell?ask=labels+print", 'action="/paper"', **{"p.stock": "none-such"})
    assert odd.status_code in (400, 404) and "none-such" in odd.text


def test_an_address_that_could_not_be_printed_is_refused_when_it_is_set(keeper: Keeper) -> None:
    keeper.run("plugin", "enable", "labels")
    for odd in ("192.168.178.20:8420", "ftp://rack.home/", "HTTP://rack.home", "http://a b/"):
        said = keeper.run("plugin", "set", "labels", "url_prefix", odd, ok=False).complaint(2)
        assert "url_prefix" in said or "address" in said
