"""Pictures as lines of text: which there are, and what is said of them."""

from __future__ import annotations

from warmside.core.answers.strips import Shot, Strip
from warmside.core.values.counts import size_words
from warmside.faces.look import Look
from warmside.faces.terminal.ink import Ink, paint
from warmside.faces.terminal.visible import visible, visible_line
from warmside.faces.terminal.widths import wrap


def render_strip(strip: Strip, look: Look) -> list[str]:
    """The title, and a line or more for each picture."""
    title = wrap(visible(strip.title), look.width) if strip.title else []
    lines = [line for shot in strip.shots for line in _shot(shot, look)]
    return [*(paint(t, Ink.BOLD, look.colour) for t in title), *lines]


def _shot(shot: Shot, look: Look) -> list[str]:
    said = "; ".join(visible_line(words) for words in shot.words if words)
    first, *rest = wrap(f"{shot.called}: {said or size_words(shot.size_bytes)}", look.width)
    under = [line for text in rest for line in wrap(text, look.width - 2)]
    return [first, *(f"  {line}" for line in under)]
