"""The terminal face: an answer as quiet text that fits the width, with or without colour."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import TYPE_CHECKING

from msgspec.structs import replace

from warmside.core.answers.parts import Answer, Fact, Kind, Section, Table, Tone, Words
from warmside.faces.cells import fact_text, said_bases
from warmside.faces.look import Look
from warmside.faces.preformatted import panels, pre_lines
from warmside.faces.terminal.ink import Ink, field_lines, paint
from warmside.faces.terminal.text_table import render_table
from warmside.faces.terminal.visible import visible, visible_line
from warmside.faces.terminal.widths import hanging, text_width, wrap

if TYPE_CHECKING:
    from warmside.core.answers.parts import Part

LEAST_WIDTH = 20
_BASIS_INDENT = 4
_TITLE_SHARE = 0.4
_SAID = {Tone.PLAIN: "", Tone.CAUTION: "caution: ", Tone.HINT: "next: "}
_INKS = {Tone.PLAIN: Ink.NONE, Tone.CAUTION: Ink.CAUTION, Tone.HINT: Ink.HINT}


def render_text(answer: Answer, look: Look) -> str:
    """The answer as lines of at most `look.width` columns (20 at least), no line feed at the end.

    Warnings are left to the caller, who writes them to stderr.
    """
    look = replace(look, width=max(look.width, LEAST_WIDTH))
    blocks = [_heading(answer.title, "=", look)] if answer.title else []
    blocks += _blocks(answer.parts, look)
    for section in answer.sections:
        blocks += _section(section, look)
    return "\n\n".join("\n".join(lines) for lines in blocks if lines)


def _section(section: Section, look: Look) -> list[list[str]]:
    heading = _heading(section.title, "-", look)
    first, *rest = [*_blocks(section.parts, look)] or [[]]
    return [[*heading, *first], *rest]


def _heading(title: str, rule: str, look: Look) -> list[str]:
    lines = wrap(visible(title), look.width)
    under = rule * max(map(text_width, lines))
    return [*(paint(line, Ink.BOLD, look.colour) for line in lines), under]


def _blocks(parts: Iterable[Part], look: Look) -> Iterator[list[str]]:
    """Neighbouring facts, hints and cautions stand together; all else apart."""
    for key, group in groupby(parts, _together):
        if key is Fact:
            yield _facts([part for part in group if isinstance(part, Fact)], look)
        elif key in (Tone.HINT, Tone.CAUTION):
            yield [line for part in group for line in _lines(part, look)]
        else:
            yield from (_lines(part, look) for part in group)


def _together(part: Part) -> object:
    return part.tone if isinstance(part, Words) else type(part)


def _lines(part: Part, look: Look) -> list[str]:
    match part:
        case Words():
            return _pre(part, look) if part.pre else _words(part, look)
        case Fact():
            return _facts([part], look)
        case Table():
            return render_table(part, look)
        case _:
            from warmside.faces.terminal.figures import render_figure  # the round has none

            return render_figure(part, look)


def _words(words: Words, look: Look) -> list[str]:
    """A paragraph after the word that says its tone; the word alone is coloured."""
    said = _SAID[words.tone]
    if not said:
        return wrap(visible(words.text), look.width)
    first, *rest = wrap(visible(words.text), look.width - len(said))
    painted = paint(said.rstrip(), _INKS[words.tone], look.colour)
    return [f"{painted} {first}".rstrip(), *(" " * len(said) + line for line in rest)]


def _pre(words: Words, look: Look) -> list[str]:
    """Lines as they are, below the word that says their tone."""
    tone = paint(_SAID[words.tone].rstrip(), _INKS[words.tone], look.colour)
    return [*([tone] if tone else []), *panels(pre_lines(words.text), look.width)]


def _facts(facts: list[Fact], look: Look) -> list[str]:
    """Titles to the left, values aligned; one below the other where titles are long."""
    titles = [visible_line(fact.title) for fact in facts]
    column = max(map(text_width, titles)) + 2
    lines: list[str] = []
    for fact, title, basis in zip(facts, titles, said_bases(facts), strict=True):
        ink = Ink.ITALIC if fact.kind is Kind.LATIN else Ink.NONE
        value = fact_text(fact, look)
        if column > look.width * _TITLE_SHARE:
            lines += field_lines(title, value, ink, look)
            lines += _basis(basis, _BASIS_INDENT, look)
        else:
            label = f"{title}:".ljust(column - text_width(title) + len(title))
            lines += _aligned(label, value, column, ink, look)
            lines += _basis(basis, column, look)
    return lines


def _aligned(label: str, value: str, column: int, ink: Ink, look: Look) -> list[str]:
    first, *rest = (paint(t, ink, look.colour) for t in wrap(value, look.width - column))
    return [(label + first).rstrip(), *(" " * column + line for line in rest)]


def _basis(text: str, indent: int, look: Look) -> list[str]:
    lines = hanging(text, look.width - indent) if text else []
    return [" " * indent + paint(line, Ink.DIM, look.colour) for line in lines]
