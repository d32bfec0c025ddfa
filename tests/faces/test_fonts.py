"""The typefaces that are shipped."""

from __future__ import annotations

import pytest
from reportlab.pdfbase.ttfonts import TTFontFile

from warmside.core.values.errors import BadInput
from warmside.faces.fonts import FACES, font_path


@pytest.mark.parametrize("name", FACES)
def test_each_face_is_a_whole_font_with_the_signs_of_the_craft(name: str) -> None:
    known = TTFontFile(str(font_path(name))).charToGlyph
    assert len(known) > {"oblique": 1000, "mono": 3000}.get(name, 5000)
    assert all(ord(sign) in known for sign in "♀♂×–≥°½²·…▯ÄÖÜéñłØ")


def test_the_licence_lies_beside_the_fonts() -> None:
    text = font_path("regular").with_name("LICENSE-DejaVu.txt").read_text("utf-8")
    assert "Bitstream Vera Fonts Copyright" in text
    assert "Arev Fonts Copyright" in text


def test_an_unknown_face_is_refused() -> None:
    with pytest.raises(BadInput, match="no typeface called 'serif'"):
        font_path("serif")
