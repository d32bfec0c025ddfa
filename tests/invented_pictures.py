"""Invented pictures and papers for tests, small; what cameras write comes from piexif."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path
from typing import Any

import piexif
from PIL import Image
from PIL.PngImagePlugin import PngInfo

SECRETS = (b"SERIAL-4711", b"Invented Lens 5000", b"shelf in the cellar", b"NO-7788")
"""What must be gone: the camera's number, its lens, a comment, an owner."""


def picture(width: int = 48, height: int = 36, mode: str = "RGB") -> Image.Image:
    """Red above left, green above right, blue below left, grey below right."""
    made = Image.new("RGB", (width, height), (128, 128, 128))
    middle = (width // 2, height // 2)
    made.paste((220, 20, 20), (0, 0, *middle))
    made.paste((20, 200, 20), (middle[0], 0, width, middle[1]))
    made.paste((20, 20, 220), (0, middle[1], middle[0], height))
    return made.convert(mode)


def jpeg(image: Image.Image | None = None, **options: Any) -> bytes:
    """A photo as JPEG."""
    file = io.BytesIO()
    (image or picture()).save(file, "JPEG", **options)
    return file.getvalue()


def coded(format: str, image: Image.Image | None = None, **options: Any) -> bytes:
    """A photo in another coding."""
    file = io.BytesIO()
    (image or picture()).save(file, format, **options)
    return file.getvalue()


def exif(orientation: int = 1, taken: bytes = b"2026:02:14 09:30:00") -> bytes:
    """What a phone writes beside the pixels: place, numbers, owner, a thumbnail of its own."""
    small = jpeg(picture(16, 12))
    return bytes(
        piexif.dump(
            {
                "0th": {
                    piexif.ImageIFD.Orientation: orientation,
                    piexif.ImageIFD.Make: b"Invented",
                    piexif.ImageIFD.ImageDescription: SECRETS[2],
                },
                "Exif": {
                    piexif.ExifIFD.DateTimeOriginal: taken,
                    piexif.ExifIFD.BodySerialNumber: SECRETS[0],
                    piexif.ExifIFD.LensModel: SECRETS[1],
                    piexif.ExifIFD.CameraOwnerName: SECRETS[3],
                },
                "GPS": {
                    piexif.GPSIFD.GPSLatitudeRef: b"N",
                    piexif.GPSIFD.GPSLatitude: ((48, 1), (12, 1), (30, 1)),
                },
                "thumbnail": small,
                "1st": {piexif.ImageIFD.Compression: 6},
            }
        )
    )


def told_png() -> bytes:
    """A PNG with words beside its pixels."""
    info = PngInfo()
    info.add_text("Comment", SECRETS[2].decode())
    info.add_itxt("XML:com.adobe.xmp", f"<x>{SECRETS[0].decode()}</x>")
    return coded("PNG", pnginfo=info, exif=exif())


def paper(title: str = "Invented paper") -> bytes:
    """A page as PDF."""
    from reportlab.pdfgen.canvas import Canvas

    file = io.BytesIO()
    canvas = Canvas(file, invariant=True)
    canvas.drawString(72, 720, title)
    canvas.save()
    return file.getvalue()


def zipped() -> bytes:
    """A ZIP file of one member."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("member", "invented")
    return file.getvalue()


def write(folder: Path, name: str, content: bytes) -> Path:
    """The content in a file of the folder."""
    path = folder / name
    path.write_bytes(content)
    return path
