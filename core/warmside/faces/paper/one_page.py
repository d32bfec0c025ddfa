"""An answer on one page: what has room in its order, and a line that says what was left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby

from msgspec import Struct
from msgspec.structs import replace
from reportlab.platypus import Flowable

from warmside.core.answers.parts import Answer, Fact, Part, Section, Strip, Table, Tone, Words
from warmside.faces.look import Look
from warmside.faces.paper.page_fonts import Type
from warmside.faces.paper.page_parts import beside_titles, page_head, pieces, set_piece
from warmside.faces.paper.page_styles import CLOSE, PLAIN, paragraph
from warmside.faces.paper.page_tables import ROOM

_MOST_NAMED, _NAME = 6, 40
_TRIES = 4
_SAFE = 2.0  # points, against rounding


_Whole = Sequence[Part] | Sequence[Section]
"""What is left out as a whole, or cut: neighbouring parts, or neighbouring sections of words."""


class _Setting(Struct, frozen=True):
    """How pieces are set, and the points that are left for them."""

    look: Look
    kind: Type

    def height(self, flowables: list[Flowable]) -> float:
        """The points that these take below each other; of two spaces that meet the larger."""
        whole = after = 0.0
        for flowable in flowables:
            before = max(0.0, flowable.getSpaceBefore() - after)
            after = flowable.getSpaceAfter()
            whole += flowable.wrap(ROOM, 1e6)[1] + before + after
        return float(whole)

    def set(self, piece: _Whole, before: list[Flowable]) -> list[Flowable]:
        sections = [part for part in piece if isinstance(part, Section)]
        if sections:
            return [beside_titles(sections, self.kind)]
        parts = [part for part in piece if not isinstance(part, Section)]
        return [*before, *set_piece(parts, self.look, self.kind)]


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
    """Add to the story what has room, in order, pictures small where that helps.

    Gives the names of what has none.
    """
    for title, piece in _titled_pieces(answer, setting.kind):
        flowables = setting.set(piece, title)
        height = setting.height(flowables)
        if height > left and isinstance(piece[0], Strip):
            flowables = setting.set([replace(piece[0], small=True)], title)
            height = setting.height(flowables)
        if height > left:
            flowables, name = _shortened(piece, title, setting, left)
            height = setting.height(flowables)
            yield name
        if flowables:
            title.clear()
        story += flowables
        left -= height


def _titled_pieces(answer: Answer, kind: Type) -> Iterator[tuple[list[Flowable], _Whole]]:
    """Each piece with the section's title, which the first piece that fits takes along.

    Sections of words alone that follow each other are one piece: their titles stand beside them.
    """
    for piece in pieces(_on_paper(answer.parts)):
        yield [], piece
    for of_words, group in groupby(answer.sections, _of_words):
        if of_words:
            yield [], list(group)
            continue
        for section in group:
            title: list[Flowable] = [paragraph(section.title, CLOSE, kind)]
            for piece in pieces(_on_paper(section.parts)):
                yield title, piece


def _on_paper(parts: Iterable[Part]) -> Iterator[Part]:
    """The parts without hints, which are for the one at the keyboard."""
    return (p for p in parts if not (isinstance(p, Words) and p.tone is Tone.HINT))


def _of_words(section: Section) -> bool:
    return all(isinstance(part, Words) and not part.pre for part in section.parts)


def _shortened(
    piece: _Whole, title: list[Flowable], setting: _Setting, left: float
) -> tuple[list[Flowable], str]:
    """As much of a table or of sections as fits, nothing of any other piece; what is left out."""
    table = piece[0]
    if isinstance(table, Table):
        many = len(table.rows)
        cut: Callable[[int], _Whole] = lambda n: [_beginning(table, n)]  # noqa: E731
    else:
        many = len(piece) if isinstance(table, Section) else 0
        cut = lambda n: piece[:n]  # noqa: E731
    few = _most(lambda n: setting.height(setting.set(cut(n), title)) <= left, many)
    if not few:
        return [], _name(piece)
    rest = f"{many - few} of {many} rows of {_name(piece)}"
    return setting.set(cut(few), title), rest if len(piece) == 1 else _name(piece[few:])


def _most(fits: Callable[[int], bool], many: int) -> int:
    """Of how many, less than `many`, it still fits; 0 where not even one does."""
    few = 0
    while few + 1 < many:
        middle = (few + many) // 2
        few, many = (middle, many) if fits(middle) else (few, middle)
    return few


def _beginning(table: Table, rows: int) -> Table:
    """The first rows of a table, with what is said before them."""
    breaks, heads = (
        tuple(item for item in items if item[0] < rows) for items in (table.breaks, table.heads)
    )
    return replace(table, rows=table.rows[:rows], breaks=breaks, heads=heads)


def _name(piece: _Whole) -> str:
    """What a keeper would call the piece."""
    part = piece[0]
    if isinstance(part, Section):
        return "; ".join(section.title for section in piece if isinstance(section, Section))
    if isinstance(part, Fact):
        text = ", ".join(fact.title for fact in piece if isinstance(fact, Fact))
    else:
        text = part.text if isinstance(part, Words) else part.title or part.key.replace("_", " ")
    flat = " ".join(text.split())
    return flat if len(flat) <= _NAME else flat[: _NAME - 1] + "…"


def _said(missing: list[str]) -> str:
    """The first names, and how many more there are."""
    more = len(missing) - _MOST_NAMED
    named = "; ".join(missing[:_MOST_NAMED])
    return f"{named}; and {more} more" if more > 0 else named
