"""An answer on one page: what has room in its order, and a line that says what was left out."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace
from reportlab.platypus import Flowable

from warmside.core.answers.parts import Answer, Fact, Table, Words
from warmside.faces.look import Look
from warmside.faces.paper.page_fonts import Type
from warmside.faces.paper.page_parts import Piece, page_head, pieces, section_title, set_piece
from warmside.faces.paper.page_styles import PLAIN, paragraph
from warmside.faces.paper.page_tables import ROOM

_MOST_NAMED, _NAME = 6, 40
_TRIES = 4
_SAFE = 2.0  # points, against rounding


class _Setting(Struct, frozen=True):
    """How pieces are set, and the points that are left for them."""

    look: Look
    kind: Type

    def height(self, flowables: list[Flowable]) -> float:
        """The points that these take, their spaces counted in full."""
        return float(
            sum(f.wrap(ROOM, 1e6)[1] + f.getSpaceBefore() + f.getSpaceAfter() for f in flowables)
        )

    def set(self, piece: Piece, before: list[Flowable]) -> list[Flowable]:
        return [*before, *set_piece(piece, self.look, self.kind)]


def one_page_story(
    answer: Answer, look: Look, kind: Type, date_line: str, room: float
) -> tuple[list[Flowable], str]:
    """What fits within `room` points, and the sentence that says what does not, else nothing."""
    setting = _Setting(look, kind)
    notice: list[Flowable] = []
    for _ in range(_TRIES):
        story = page_head(answer, kind, date_line)
        left = room - _SAFE - setting.height(story) - setting.height(notice)
        missing = list(_filled(story, answer, setting, left))
        if not missing:
            return story, ""
        said = _said(missing)
        again, notice = notice, [paragraph(said, PLAIN, kind, before="left out:")]
        if setting.height(again) >= setting.height(notice):
            break
    return [*story, *notice], f"left out to fit on one page: {said}"


def _filled(story: list[Flowable], answer: Answer, setting: _Setting, left: float) -> Iterator[str]:
    """Add to the story what has room, in order; the names of what has none."""
    for title, piece in _titled_pieces(answer, setting.kind):
        flowables = setting.set(piece, title)
        height = setting.height(flowables)
        if height > left:
            flowables, name = _shortened(piece, title, setting, left)
            height = setting.height(flowables)
            yield name
        if flowables:
            title.clear()
        story += flowables
        left -= height


def _titled_pieces(answer: Answer, kind: Type) -> Iterator[tuple[list[Flowable], Piece]]:
    """Each piece with the section's title, which the first piece that fits takes along."""
    for piece in pieces(answer.parts):
        yield [], piece
    for section in answer.sections:
        title: list[Flowable] = [section_title(section, kind)]
        for piece in pieces(section.parts):
            yield title, piece


def _shortened(
    piece: Piece, title: list[Flowable], setting: _Setting, left: float
) -> tuple[list[Flowable], str]:
    """As many rows of a table as fit, nothing of any other piece; and what it is called."""
    table, few = piece[0], 0
    if not isinstance(table, Table):
        return [], _name(piece)
    many = len(table.rows)
    while few + 1 < many:
        middle = (few + many) // 2
        cut = [_beginning(table, middle)]
        if setting.height(setting.set(list(cut), title)) > left:
            many = middle
        else:
            few = middle
    if not few:
        return [], _name(piece)
    cut = [_beginning(table, few)]
    more = len(table.rows) - few
    return setting.set(list(cut), title), f"{more} of {len(table.rows)} rows of {_name(piece)}"


def _beginning(table: Table, rows: int) -> Table:
    """The first rows of a table, with what is said before them."""
    breaks, heads = (
        tuple(item for item in items if item[0] < rows) for items in (table.breaks, table.heads)
    )
    return replace(table, rows=table.rows[:rows], breaks=breaks, heads=heads)


def _name(piece: Piece) -> str:
    """What a keeper would call the piece."""
    part = piece[0]
    if isinstance(part, Fact):
        text = ", ".join(fact.title for fact in piece if isinstance(fact, Fact))
    else:
        text = part.text if isinstance(part, Words) else part.title or part.key
    flat = " ".join(text.split())
    return flat if len(flat) <= _NAME else flat[: _NAME - 1] + "…"


def _said(missing: list[str]) -> str:
    """The first names, and how many more there are."""
    more = len(missing) - _MOST_NAMED
    named = "; ".join(missing[:_MOST_NAMED])
    return f"{named}; and {more} more" if more > 0 else named
