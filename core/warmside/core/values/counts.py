"""Numbers with their nouns, singular and plural."""

from __future__ import annotations


def counted(number: float, one: str, more: str = "") -> str:
    """`1 meal`, `3 meals`; `more` is the plural where it is not `one` with an s."""
    shown = str(number) if isinstance(number, int) else f"{number:g}"
    return f"{shown} {one if number == 1 else more or one + 's'}"


def every_days(days: float) -> str:
    """`every day`, `every 3 days`."""
    return "every day" if days == 1 else f"every {days:g} days"


def size_words(size_bytes: int) -> str:
    """A number of bytes as one looks at files: `840 kB`, `2.1 MB`."""
    if size_bytes >= 1_000_000:
        return f"{size_bytes / 1e6:.1f} MB"
    return f"{max(1, round(size_bytes / 1e3))} kB"
