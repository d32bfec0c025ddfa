"""Changed values of a protocol as one line of text, `days=120; tests.faecal.negatives=4`."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from warmside.api import BadInput, quoted
from warmside.plugins.quarantine.protocol.flat import values
from warmside.plugins.quarantine.protocol.terms import Protocol
from warmside.plugins.quarantine.protocol.values import Value

Edits = tuple[tuple[str, str], ...]
_NOT_A_RULE = ("title", "group", "tools", "warning")


def typed_edits(words: Iterable[str]) -> Edits:
    """Edits from words as typed, each `key=value`; raises BadInput for any other."""
    return tuple(_edit(word) for word in words)


def read_edits(text: str) -> Edits:
    """Edits from their line of text; raises BadInput where it cannot be read."""
    return typed_edits(part for part in text.split(";") if part.strip())


def written_edits(edits: Iterable[tuple[str, str]]) -> str:
    """The line of text that `read_edits` reads."""
    return "; ".join(f"{key}={value}" for key, value in edits)


def terms_of(protocol: Protocol, original: Protocol) -> str:
    """The rules of the protocol that differ from those of the original, as a line of text."""
    before: Mapping[str, Value] = values(original)
    changed = {
        key: value
        for key, value in values(protocol).items()
        if key.split(".")[-1] not in _NOT_A_RULE and before[key] != value
    }
    return written_edits((key, value_text(value)) for key, value in changed.items())


def value_text(value: Value) -> str:
    """A value as a keeper types it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return ", ".join(value) if isinstance(value, tuple) else str(value)


def _edit(word: str) -> tuple[str, str]:
    key, found, value = word.partition("=")
    if not found or not key.strip():
        raise BadInput(f"type a value as key=value, such as days=120, not {quoted(word)}")
    if ";" in value:
        raise BadInput(f"{key.strip()} cannot hold a semicolon; write it without")
    return key.strip(), value.strip()
