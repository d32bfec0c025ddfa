"""Files that anybody may have made: each is kept clean or refused in one line."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import PurePath

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from invented_pictures import coded, exif, jpeg, paper, picture, zipped
from warmside.core.pictures.content import MOST_BYTES
from warmside.core.pictures.kept import Taken, look_at
from warmside.core.pictures.photos import SMALL
from warmside.core.values.errors import BadInput

PHOTO, PAPER = jpeg(), paper()


def claimed_png(width: int, height: int) -> bytes:
    """A PNG of a few bytes that says it is so large; its sums are right."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        sum = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + sum

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    packed = chunk(b"IDAT", zlib.compress(bytes(100)))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + packed + chunk(b"IEND", b"")


REFUSED = {  # name, content, what is said
    "nothing": ("a.jpg", b"", "empty"),
    "words": ("a.jpg", b"not a picture at all", "no picture and no paper"),
    "a page of the web": ("a.jpg", b"<html><script>1</script></html>", "no picture"),
    "drawing with scripts": ("a.svg", b"<svg xmlns='http://www.w3.org/2000/svg'/>", "no picture"),
    "moving picture": ("a.gif", coded("GIF"), "no picture"),
    "another ending": ("a.png", PHOTO, "is JPEG by its content"),
    "paper named as a photo": ("a.jpg", PAPER, "is PDF by its content"),
    "cut off": ("a.jpg", jpeg(picture(400, 300))[:-2000], "cut off"),
    "cut off in the header": ("a.jpg", PHOTO[:40], "cannot be read as JPEG"),
    "cut off PNG": ("a.png", coded("PNG")[:-30], "cut off"),
    "paper cut off": ("a.pdf", PAPER[:-20], "no whole PDF"),
    "paper with another end": ("a.pdf", PAPER[:200] + b"\nstartxref\n9\n%%EOF\n", "no whole PDF"),
    "200 million pixels": ("a.png", claimed_png(20_000, 10_000), "more than 64 million pixels"),
    "70 million pixels": ("a.png", claimed_png(10_000, 7_000), "more than 64 million pixels"),
    "more than any screen": ("a.png", claimed_png(2**30, 2**30), "pixels"),
    "photo and ZIP": ("a.jpg", PHOTO + zipped(), "JPEG and ZIP at once"),
    "paper and ZIP": ("a.pdf", PAPER + zipped(), "PDF and ZIP at once"),
    "photo and paper": ("a.jpg", jpeg(comment=PAPER), "JPEG and PDF at once"),
    "name with a line feed": ("a\nb.png", PHOTO, "a b.png is JPEG"),
    "name with a path": ("../../etc/passwd.png", PHOTO, "passwd.png is JPEG"),
    "name with a path of Windows": ("C:\\secret\\b.png", PHOTO, "b.png is JPEG"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_is_no_sound_picture_is_refused_in_a_line(case: str) -> None:
    name, content, said = REFUSED[case]
    with pytest.raises(BadInput) as refused:
        look_at(content, name)
    assert said in str(refused.value)
    assert str(refused.value).isprintable() and "etc" not in str(refused.value)


def test_a_file_that_is_too_large_is_refused_unread() -> None:
    with pytest.raises(BadInput, match="larger than 64 MB"):
        look_at(PHOTO + bytes(MOST_BYTES), "a.jpg")


@given(st.binary(max_size=200), st.integers(0, 400))
@settings(max_examples=60)
def test_whatever_is_put_into_a_photo_it_is_kept_whole_or_refused(more: bytes, at: int) -> None:
    """Never another error, and never a file that carries what was put in behind the pixels."""
    place = min(at, len(PHOTO))
    try:
        kept = look_at(PHOTO[:place] + more + PHOTO[place:], "a.jpg")
    except BadInput as refused:
        assert "\n" not in str(refused)
    else:
        assert Image.open(io.BytesIO(kept.raw)).size == (kept.width, kept.height)


def test_what_hangs_behind_the_pixels_is_left_out() -> None:
    """Phones put a short film there; whatever it is, it is not kept."""
    kept = look_at(PHOTO + b"\0\0\0\x18ftypmp42" + b"film" * 500, "moving.jpg")
    assert b"film" not in kept.raw


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "I;16"])
def test_every_way_to_tell_a_pixel_is_shown(mode: str) -> None:
    image = Image.new("I;16", (40, 30), 40_000) if mode == "I;16" else picture(mode=mode)
    kept = look_at(coded("PNG", image), "a.png")
    small = Image.open(io.BytesIO(kept.small))
    assert small.mode in ("L", "RGB") and Image.open(io.BytesIO(kept.raw)).size == image.size
    if mode == "I;16":
        assert Image.open(io.BytesIO(kept.raw)).getpixel((0, 0)) == 40_000 >> 8


def test_four_inks_are_told_as_light() -> None:
    kept = look_at(jpeg(picture(mode="CMYK")), "scan.jpg")
    red = Image.open(io.BytesIO(kept.raw)).convert("RGB").getpixel((5, 5))
    assert isinstance(red, tuple) and red[0] > 180 > 90 > red[1]


def test_a_preview_is_small_and_of_the_same_shape() -> None:
    kept = look_at(jpeg(picture(1600, 800)), "a.jpg")
    assert Image.open(io.BytesIO(kept.small)).size == (SMALL, SMALL // 2)
    assert look_at(PAPER, "a.pdf").small == b""


@pytest.mark.parametrize("name", ["a.jpg", "A.JPEG", "photo", "a.b.jpg"])
def test_names_that_tell_no_other_content_are_fine(name: str) -> None:
    assert isinstance(look_at(PHOTO, name), Taken) and PurePath(name)


@pytest.mark.parametrize("said", [b"0000:00:00 00:00:00", b"2026-02-14 09:30:00", b"yesterday"])
def test_a_clock_that_says_nothing_is_not_believed(said: bytes) -> None:
    assert look_at(jpeg(exif=exif(taken=said)), "a.jpg").when is None
