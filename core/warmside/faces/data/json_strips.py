"""Pictures as JSON data: what is said of each, and the digest by which its file is found."""

from __future__ import annotations

from warmside.core.answers.strips import Shot, Strip
from warmside.faces.data.json_values import Json


def strip_data(strip: Strip) -> list[Json]:
    """Each picture with its file's digest (SHA-256), kind and size."""
    return [_shot(shot) for shot in strip.shots]


def _shot(shot: Shot) -> Json:
    return {
        "picture": shot.number,
        "day": shot.day.isoformat(),
        "words": list(shot.words),
        "digest": shot.digest,
        "kind": shot.kind,
        "size_bytes": shot.size_bytes,
        "width_px": shot.width,
        "height_px": shot.height,
    }
