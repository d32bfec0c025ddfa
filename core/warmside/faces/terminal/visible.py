"""Text made safe to show: what could move a cursor, reverse or hide text becomes a visible escape.

After the Unicode general categories Cc, Cf, Cs, Zl and Zp; kept are the line feed and the two
joiners that emoji and several scripts need.
"""

from __future__ import annotations

import re

_UNSAFE = re.compile(
    "[\x00-\x09\x0b-\x1f\x7f-\x9f\xad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f"
    "\ufeff\ufff9-\ufffb\ufffe\uffff\ud800-\udfff\U0001bca0-\U0001bca3\U0001d173-\U0001d17a"
    "\U000e0000-\U000e007f]"
)


def visible(text: str) -> str:
    """The text with control, direction and lone surrogate characters shown as `\\x1b` and alike."""
    return _UNSAFE.sub(_escape, text.replace("\r\n", "\n").replace("\t", " "))


def visible_line(text: str) -> str:
    """As `visible`, on one line: line feeds become blanks."""
    return visible(text).replace("\n", " ")


def json_safe(text: str) -> str:
    """JSON text that stays equal in value but can be encoded and shown anywhere."""
    return _UNSAFE.sub(_json_escape, text)


def _escape(match: re.Match[str]) -> str:
    code = ord(match[0])
    if code <= 0xFF:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"


def _json_escape(match: re.Match[str]) -> str:
    code = ord(match[0])
    if code <= 0xFFFF:
        return f"\\u{code:04x}"
    high, low = divmod(code - 0x10000, 0x400)
    return f"\\u{0xD800 + high:04x}\\u{0xDC00 + low:04x}"
