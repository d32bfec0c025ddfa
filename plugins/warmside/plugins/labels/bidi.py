"""A line's characters in the order in which they stand on paper, left to right.

Source: Unicode Standard Annex #9 (published), rules P2-P3, W1-W7, N0-N2, I1-I2 and L1-L4 for one
line; explicit directions are taken out before (see `wording`).
"""

from __future__ import annotations

import unicodedata
from itertools import groupby

_RIGHT = ("R", "AL")
_NEUTRAL = ("B", "S", "WS", "ON", "BN")
_BRACKETS = {"(": ")", "[": "]", "{": "}"}
_MIRROR = dict(zip("()[]{}<>«»‹›", ")(][}{><»«›‹", strict=True))


def is_plain(text: str) -> bool:
    """Whether nothing in a text runs from right to left."""
    return not any(
        c >= "\u0590" and unicodedata.bidirectional(c) in ("R", "AL", "AN") for c in text
    )


def visual_order(text: str) -> str:
    """The text as it stands on paper from left to right, brackets mirrored where they must."""
    if is_plain(text):
        return text
    base = _base_level(text)
    levels = _levels(text, base)
    return _reordered(text, levels)


def _base_level(text: str) -> int:
    """P2-P3: the direction of the first strong character."""
    strong = (unicodedata.bidirectional(c) for c in text)
    first = next((kind for kind in strong if kind in ("L", *_RIGHT)), "L")
    return int(first in _RIGHT)


def _levels(text: str, base: int) -> list[int]:
    edge = "R" if base else "L"
    weak = _resolve_weak(text, edge)
    _resolve_brackets(text, weak, edge)
    kinds = _resolve_neutrals(weak, edge)
    odd = {"L": 1, "EN": 1, "AN": 1, "R": 0}  # I2, at an odd level
    even = {"R": 1, "AN": 2, "EN": 2, "L": 0}  # I1, at an even level
    levels = [base + (odd if base else even)[kind] for kind in kinds]
    n = len(text)
    while n and unicodedata.bidirectional(text[n - 1]) in ("WS", "B", "S", "BN"):
        n -= 1
        levels[n] = base  # L1
    return levels


def _resolve_weak(text: str, edge: str) -> list[str]:
    """W1-W7."""
    kinds = [unicodedata.bidirectional(c) or "L" for c in text]
    _marks_and_numbers(kinds, edge)
    _separators(kinds)
    _terminators(kinds)
    strong = edge
    for n, kind in enumerate(kinds):  # W7
        if kind in ("L", "R"):
            strong = kind
        elif kind == "EN" and strong == "L":
            kinds[n] = "L"
    return kinds


def _marks_and_numbers(kinds: list[str], edge: str) -> None:
    """W1-W3."""
    previous = strong = edge
    for n, kind in enumerate(kinds):
        if kind == "NSM":
            kinds[n] = previous
        elif kind == "EN" and strong == "AL":
            kinds[n] = "AN"
        if kind in ("L", *_RIGHT):
            strong = kind
        previous = kinds[n]
    kinds[:] = ["R" if kind == "AL" else kind for kind in kinds]


def _separators(kinds: list[str]) -> None:
    """W4: one separator between two numbers of a kind belongs to them."""
    for n in range(1, len(kinds) - 1):
        before, after = kinds[n - 1], kinds[n + 1]
        if before == after and (
            (kinds[n] == "ES" and before == "EN") or (kinds[n] == "CS" and before in ("EN", "AN"))
        ):
            kinds[n] = before


def _terminators(kinds: list[str]) -> None:
    """W5-W6: percent and currency signs beside a number belong to it, others are neutral."""
    start = 0
    for kind, run in groupby(list(kinds)):
        end = start + len(list(run))
        if kind == "ET":
            beside = "EN" in (*kinds[max(start - 1, 0) : start], *kinds[end : end + 1])
            kinds[start:end] = ["EN" if beside else "ON"] * (end - start)
        elif kind in ("ES", "CS"):
            kinds[start:end] = ["ON"] * (end - start)
        start = end


def _resolve_brackets(text: str, kinds: list[str], edge: str) -> None:
    """N0: a pair of brackets takes the line's direction when that occurs inside it, else that of
    what is inside where the text before agrees.
    """
    for start, end in _pairs(text, kinds):
        inside = {_side(kind) for kind in kinds[start + 1 : end]} - {""}
        if not inside:
            continue
        before = next((side for kind in kinds[:start][::-1] if (side := _side(kind))), edge)
        kinds[start] = kinds[end] = edge if edge in inside else before


def _side(kind: str) -> str:
    """L, R or nothing for a neutral."""
    return "" if kind in _NEUTRAL else "L" if kind == "L" else "R"


def _pairs(text: str, kinds: list[str]) -> list[tuple[int, int]]:
    """BD16: the places of brackets that belong together, by their opening ones."""
    pairs: list[tuple[int, int]] = []
    opened: list[tuple[int, str]] = []
    for n, character in enumerate(text):
        if kinds[n] != "ON":
            continue
        if character in _BRACKETS:
            opened.append((n, _BRACKETS[character]))
        elif any(closing == character for _, closing in opened):
            while opened[-1][1] != character:
                opened.pop()
            pairs.append((opened.pop()[0], n))
    return sorted(pairs)


def _resolve_neutrals(kinds: list[str], edge: str) -> list[str]:
    """N1-N2: neutrals take the direction of both neighbours, else that of the line."""
    sides = ["L" if kind == "L" else "R" for kind in kinds]
    start = 0
    result = list(kinds)
    for neutral, run in groupby(kinds, key=lambda kind: kind in _NEUTRAL):
        end = start + len(list(run))
        if neutral:
            before = sides[start - 1] if start else edge
            after = sides[end] if end < len(kinds) else edge
            result[start:end] = [before if before == after else edge] * (end - start)
        start = end
    return result


def _reordered(text: str, levels: list[int]) -> str:
    """L2-L4, with combining marks kept after the character they sit on (L3)."""
    order = list(range(len(text)))
    for level in range(max(levels), 0, -1):
        start = 0
        for inside, run in groupby(order, key=lambda n: levels[n] >= level):
            end = start + len(list(run))
            if inside:
                order[start:end] = order[start:end][::-1]
            start = end
    return "".join(
        _MIRROR.get(text[n], text[n]) if levels[n] % 2 else text[n]
        for n in _marks_after(order, text, levels)
    )


def _marks_after(order: list[int], text: str, levels: list[int]) -> list[int]:
    """L3: a combining mark in a reversed run stands after the character it sits on."""
    result: list[int] = []
    marks: list[int] = []
    for n in order:
        if levels[n] % 2 and unicodedata.bidirectional(text[n]) == "NSM":
            marks.append(n)
        else:
            result += [n, *reversed(marks)]
            marks = []
    return result + marks
