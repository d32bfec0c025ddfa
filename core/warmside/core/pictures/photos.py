"""A photo made upright and clean: its pixels alone are kept, in sRGB, with nothing beside them.

Decoding and writing anew leaves behind where and when it was taken, the camera's number, comments,
and whatever else a file may carry. Imports Pillow, which takes 50 ms: import this late.
"""

from __future__ import annotations

import io
import threading
import warnings
from datetime import datetime
from typing import Any

from msgspec import Struct
from PIL import ExifTags, Image, ImageCms, ImageOps

from warmside.core.pictures.content import Format
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted

MOST_PIXELS = 64_000_000  # common practice, no source: phones take up to 50 million
SMALL = 640  # pixels of a preview's longer side
QUALITY, SMALL_QUALITY = 92, 82
_PLAIN = {"L", "RGB", "RGBA"}
_READ_AS = {
    Format.JPEG: ("JPEG", "MPO"),
    Format.PNG: ("PNG",),
    Format.WEBP: ("WEBP",),
    Format.HEIC: ("HEIF",),
}
_opening = threading.Lock()  # what is warned of is a matter of the whole process


class Photo(Struct, frozen=True):
    """The bytes to keep, how they are coded, the preview, and when the camera says it was taken.

    `kind` is the ending of the file's name, jpg or png; sizes are pixels, upright.
    """

    raw: bytes
    kind: str
    small: bytes
    width: int
    height: int
    taken: datetime | None


def clean_photo(raw: bytes, format: Format, name: str) -> Photo:
    """The photo as it is kept; BadInput where it is damaged, too large, or cannot be read here."""
    if format is Format.HEIC:
        _learn_heic(name)
    image = _opened(raw, format, name)
    try:
        return _cleaned(image, format)
    except Exception as error:  # a damaged file raises whatever its decoder stumbles over
        raise BadInput(
            f"{quoted(name)} is damaged or was cut off ({_in_short(error)}); copy it again"
        ) from error


def _learn_heic(name: str) -> None:
    try:
        from pillow_heif import register_heif_opener
    except ImportError:
        raise BadInput(
            f"{quoted(name)} is HEIC, which is read only with pillow-heif beside Warmside; "
            "install that, or save the picture as JPEG"
        ) from None
    register_heif_opener()


def _opened(raw: bytes, format: Format, name: str) -> Image.Image:
    """The picture with its size known and no pixel read yet."""
    try:
        with _opening, warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            image = Image.open(io.BytesIO(raw), formats=_READ_AS[format])
    except Image.DecompressionBombError:
        raise BadInput(_too_large(name)) from None
    except Exception as error:
        raise BadInput(
            f"{quoted(name)} cannot be read as {format.title} ({_in_short(error)}); copy it again"
        ) from error
    if image.width * image.height > MOST_PIXELS:
        raise BadInput(_too_large(name))
    return image


def _too_large(name: str) -> str:
    most = MOST_PIXELS // 1_000_000
    return f"{quoted(name)} has more than {most} million pixels; save it smaller"


def _in_short(error: Exception) -> str:
    return quoted(str(error)) if str(error) else type(error).__name__


def _cleaned(image: Image.Image, format: Format) -> Photo:
    image.load()
    taken = _taken(image)
    upright = _in_srgb(_plain(_upright(image)))
    upright.info.clear()  # what some writers would put beside the pixels
    kind = "png" if format is Format.PNG or upright.mode == "RGBA" else "jpg"
    raw = _written(upright, kind)
    return Photo(raw, kind, preview(upright), upright.width, upright.height, taken)


def _taken(image: Image.Image) -> datetime | None:
    """When the camera's clock says the picture was taken; None where it says nothing that is."""
    exif = image.getexif()
    said = exif.get_ifd(ExifTags.IFD.Exif).get(ExifTags.Base.DateTimeOriginal)
    try:
        return datetime.strptime(str(said)[:19], "%Y:%m:%d %H:%M:%S")
    except ValueError:
        return None


def _upright(image: Image.Image) -> Image.Image:
    """The picture as it is looked at; the same one where it is upright already."""
    turned = image.getexif().get(ExifTags.Base.Orientation, 1)
    return image if turned == 1 else ImageOps.exif_transpose(image)


def _plain(image: Image.Image) -> Image.Image:
    """Eight bits of grey or colour, with transparency where there is some."""
    if image.mode in _PLAIN and "transparency" not in image.info:
        return image
    if image.mode.startswith("I"):  # 16 bits of grey
        return image.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    if image.mode == "1":
        return image.convert("L")
    return image.convert("RGBA" if image.has_transparency_data else "RGB")


def _in_srgb(image: Image.Image) -> Image.Image:
    """Colours as every screen shows them; a profile that cannot be used is left out."""
    profile = image.info.get("icc_profile")
    if not profile or image.mode == "L":
        return image
    try:
        given = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        own: Any = ImageCms.createProfile("sRGB")
        made = ImageCms.profileToProfile(image, given, own, outputMode=image.mode)
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        return image
    return made if made is not None else image


def _written(image: Image.Image, kind: str) -> bytes:
    """A JPEG that needed no change is coded with its own tables, which loses next to nothing."""
    file = io.BytesIO()
    if kind == "png":
        image.save(file, "PNG")
    elif image.format == "JPEG":
        image.save(file, "JPEG", quality="keep")
    else:
        image.save(file, "JPEG", quality=QUALITY, subsampling="4:4:4")
    return file.getvalue()


def small_photo(raw: bytes, name: str) -> bytes:
    """The preview of a photo that is kept; BadInput where it cannot be read."""
    image = _opened(raw, Format.PNG if name.endswith("png") else Format.JPEG, name)
    try:
        return preview(image)
    except Exception as error:
        raise BadInput(f"{quoted(name)} is damaged ({_in_short(error)})") from error


def preview(image: Image.Image) -> bytes:
    """The picture small, as JPEG, on white where it is transparent."""
    small = image.copy()
    small.thumbnail((SMALL, SMALL))
    if small.mode == "RGBA":
        white = Image.new("RGBA", small.size, "white")
        small = Image.alpha_composite(white, small).convert("RGB")
    file = io.BytesIO()
    small.save(file, "JPEG", quality=SMALL_QUALITY)
    return file.getvalue()
