"""What a command answers and a report section holds, before any face.

Every face (terminal, JSON, PDF, SVG, HTML) renders the same parts. Numbers are in stored units;
the faces convert them to the collection's units. Text is plain: the faces escape it.
Charts, timelines, drawings and pictures load when they are first named: the round has none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from importlib import import_module
from typing import TYPE_CHECKING, Any, Literal

from msgspec import Struct, field

from warmside.core.answers.cells import Cell, Kind
from warmside.core.answers.tables import Column, Fact, Table
from warmside.core.answers.words import Tone, Words, paragraphs

if TYPE_CHECKING:
    from warmside.core.answers.any_part import Part
    from warmside.core.answers.charts import Axis, Band, Bars, Chart, Line, MarkRow
    from warmside.core.answers.drawings import Drawing
    from warmside.core.answers.strips import Shot, Strip
    from warmside.core.answers.timelines import Moment, Span, Timeline, TimelineRow

__all__ = (
    "Answer",
    "Axis",
    "Band",
    "Bars",
    "Cell",
    "Chart",
    "Column",
    "Drawing",
    "Fact",
    "Kind",
    "Line",
    "MarkRow",
    "Moment",
    "Part",
    "Section",
    "Shot",
    "Span",
    "Strip",
    "Table",
    "Timeline",
    "TimelineRow",
    "Tone",
    "Words",
    "paragraphs",
    "said",
)

_LATE = {
    "any_part": "Part",
    "charts": "Axis Band Bars Chart Line MarkRow",
    "drawings": "Drawing",
    "strips": "Shot Strip",
    "timelines": "Moment Span Timeline TimelineRow",
}
_WHERE = {name: module for module, names in _LATE.items() for name in names.split()}


def __getattr__(name: str) -> Any:
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(import_module(f"warmside.core.answers.{_WHERE[name]}"), name)
    globals()[name] = found
    return found


class Section(Struct, frozen=True):
    """A titled part of a report; `order` sorts sections of all plugins."""

    title: str
    parts: tuple[Part, ...]
    order: int = 500


class Answer(Struct, frozen=True):
    """What a command answers.

    `warnings` go to stderr; `extra` holds JSON that has no place on a terminal. With `page` "one"
    the paper fits on one page, or says what was left out.
    `paper` is what a PDF is made for.
    """

    title: str = ""
    parts: tuple[Part, ...] = ()
    sections: tuple[Section, ...] = ()
    warnings: tuple[str, ...] = ()
    extra: Mapping[str, object] = field(default_factory=dict)
    exit_code: int = 0
    page: Literal["flow", "one"] = "flow"
    paper: Literal["a4", "letter"] = "a4"

    def all_parts(self) -> Iterator[Part]:
        """The parts of the answer and then those of its sections."""
        yield from self.parts
        for section in self.sections:
            yield from section.parts


def said(text: str, *more: Part, hints: Sequence[str] = ()) -> Answer:
    """An answer that is a sentence, with further parts and hints below."""
    return Answer(parts=(Words(text), *more, *paragraphs(*hints, tone=Tone.HINT)))
