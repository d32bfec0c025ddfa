"""What cameras write beside the pixels is gone once a picture is kept, and the picture is upright.

Outside checks: EXIF written and read back by piexif, a library of its own; the eight orientations
as CIPA DC-008-2019 (Exif 2.32), 4.6.4 A, defines the first row and column of each, and as piexif
writes them; SHA-256 of `abc` from FIPS 180-4's published examples.
"""

from __future__ import annotations

import io
from itertools import pairwise

import piexif
import pytest
from PIL import Image, ImageCms

from invented_pictures import SECRETS, coded, exif, jpeg, paper, picture, told_png
from warmside.core.pictures.kept import digest_of, look_at

RED, GREEN, BLUE, GREY = (220, 20, 20), (20, 200, 20), (20, 20, 220), (128, 128, 128)
# what lies above left, above right, below left, below right once it is upright, by the meaning of
# each value: the side of the stored picture that its 0th row and 0th column are
UPRIGHT = {
    1: (RED, GREEN, BLUE, GREY),  # row 0 top, column 0 left
    2: (GREEN, RED, GREY, BLUE),  # top, right
    3: (GREY, BLUE, GREEN, RED),  # bottom, right
    4: (BLUE, GREY, RED, GREEN),  # bottom, left
    5: (RED, BLUE, GREEN, GREY),  # left, top
    6: (BLUE, RED, GREY, GREEN),  # right, top
    7: (GREY, GREEN, BLUE, RED),  # right, bottom
    8: (GREEN, GREY, RED, BLUE),  # left, bottom
}
GIVEN = {
    "photo.jpg": lambda: jpeg(exif=exif(), comment=SECRETS[2]),
    "turned.jpg": lambda: jpeg(exif=exif(6), comment=SECRETS[2]),
    "photo.png": told_png,
    "photo.webp": lambda: coded("WEBP", exif=exif(), xmp=b"<x>" + SECRETS[0] + b"</x>"),
}


@pytest.mark.parametrize("name", GIVEN)
def test_place_numbers_and_words_are_gone(name: str) -> None:
    raw = GIVEN[name]()
    assert any(secret in raw for secret in SECRETS), "there was nothing to be stripped"
    kept = look_at(raw, name)
    for content in (kept.raw, kept.small):
        assert not [secret for secret in SECRETS if secret in content]
        assert b"Exif" not in content and b"xmp" not in content and b"iTXt" not in content
    if kept.kind == "jpg":
        told = piexif.load(kept.raw)
        assert not told["0th"] and not told["Exif"] and not told["GPS"] and not told["thumbnail"]


def test_heic_of_a_phone_is_kept_as_a_clean_jpeg() -> None:
    heif = pytest.importorskip("pillow_heif")
    heif.register_heif_opener()
    raw = coded("HEIF", picture(64, 64), exif=exif())
    assert SECRETS[0] in raw
    kept = look_at(raw, "IMG_0001.HEIC")
    assert kept.kind == "jpg" and SECRETS[0] not in kept.raw
    assert not piexif.load(kept.raw)["GPS"]
    assert kept.when is not None and kept.when.isoformat() == "2026-02-14T09:30:00"


@pytest.mark.parametrize("orientation", UPRIGHT)
def test_each_orientation_is_turned_upright(orientation: int) -> None:
    kept = look_at(jpeg(quality=95, exif=exif(orientation)), "photo.jpg")
    image = Image.open(io.BytesIO(kept.raw))
    wide, high = image.size
    assert (wide > high) == (orientation <= 4) and (kept.width, kept.height) == image.size
    places = [(x, y) for y in (high // 4, 3 * high // 4) for x in (wide // 4, 3 * wide // 4)]
    for place, colour in zip(places, UPRIGHT[orientation], strict=True):
        found = image.getpixel(place)
        assert isinstance(found, tuple)
        assert max(abs(a - b) for a, b in zip(found, colour, strict=True)) < 25, orientation


def test_a_profile_which_may_hold_the_number_of_a_screen_is_left_out() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    raw = jpeg(icc_profile=profile)
    assert b"ICC_PROFILE" in raw
    assert b"ICC_PROFILE" not in look_at(raw, "photo.jpg").raw


def test_what_is_kept_is_as_good_as_what_was_given() -> None:
    """Pixels differ by no more than a coding of the same tables does."""
    noise = Image.effect_noise((64, 64), 40).convert("RGB")
    raw = jpeg(noise, quality=80)
    before, after = (Image.open(io.BytesIO(r)) for r in (raw, look_at(raw, "a.jpg").raw))
    differences = sorted(abs(a - b) for a, b in zip(before.tobytes(), after.tobytes(), strict=True))
    assert differences[len(differences) * 99 // 100] <= 6


def test_a_png_is_kept_to_the_pixel_and_a_paper_to_the_byte() -> None:
    given = picture(31, 17)
    kept = look_at(coded("PNG", given), "plan.png")
    assert Image.open(io.BytesIO(kept.raw)).tobytes() == given.tobytes()
    assert look_at(paper(), "permit.pdf").raw == paper()


def test_the_digest_is_sha_256() -> None:
    """FIPS 180-4, example `abc`."""
    expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert digest_of(b"abc") == expected


def test_the_orientations_of_the_table_are_all_different() -> None:
    assert all(a != b for a, b in pairwise(UPRIGHT.values()))
