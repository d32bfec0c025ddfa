"""Elements of HTML and SVG that are escaped by construction: text becomes markup here only."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape

from warmside.faces.terminal.visible import visible

_DAY = r"\b\d{4}-\d{2}-\d{2}\b"
_MEASURED = r"\d(?:[\d.,]*\d)? (?:[^\W\d_]{1,3}|°[CF]|%)(?!\w)"  # units have up to three letters
_CODE = r"\([^\s()]{1,12}\)"
_ONE = re.compile(f"({_DAY}|{_MEASURED}|{_CODE})")
_VOID = {"input", "br", "hr", "meta", "link", "img"}


class Markup(str):
    """Text that is markup already; every other text is escaped when it becomes a child."""

    __slots__ = ()


Child = str | None | Iterable["Child"]
Attribute = str | float | bool | None


def element(tag: str, *children: Child, **attributes: Attribute) -> Markup:
    """An element; a trailing `_` of an attribute's name is dropped, others become hyphens.

    An attribute that is None or False is left out, one that is True stands without a value.
    """
    said = "".join(_attribute(name, value) for name, value in attributes.items())
    if tag in _VOID:
        return Markup(f"<{tag}{said}>")
    return Markup(f"<{tag}{said}>{joined(children)}</{tag}>")


def joined(children: Child) -> Markup:
    """The children one after another."""
    if children is None:
        return Markup()
    if isinstance(children, Markup):
        return children
    if isinstance(children, str):
        return Markup(escape(visible(children)))
    return Markup("".join(map(joined, children)))


def unbroken(text: str) -> Markup:
    """The text, each day, number with its unit and code whole: no end of a line parts them."""
    parts = _ONE.split(text)  # every other one is such
    return joined([_whole(p) if n % 2 else p for n, p in enumerate(parts)])


def _whole(part: str) -> Markup:
    if re.fullmatch(_DAY, part):
        return element("time", part)
    return element("span", part, class_="one")


def _attribute(name: str, value: Attribute) -> str:
    if value is None or value is False:
        return ""
    name = name.rstrip("_").replace("_", "-")
    if value is True:
        return f" {name}"
    text = f"{value:.6g}" if isinstance(value, float) else str(value)
    return f' {name}="{escape(visible(text))}"'
