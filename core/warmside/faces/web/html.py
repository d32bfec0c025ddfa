"""The HTML face: any answer as a fragment of a page, its drawings as inline SVG.

Markup without styles, scripts, ids or addresses: classes say what a part is, and the page that
takes the fragment brings the style sheet.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import groupby
from typing import assert_never

from warmside.core.answers.parts import (
    Answer,
    Cell,
    Chart,
    Drawing,
    Fact,
    Kind,
    Part,
    Shot,
    Strip,
    Table,
    Timeline,
    Tone,
    Words,
)
from warmside.core.values.counts import size_words
from warmside.core.values.units import Unit
from warmside.faces.cells import cell_text, said_bases
from warmside.faces.drawn.shapes import sketch_of
from warmside.faces.drawn.sketch_svg import inline
from warmside.faces.drawn.strokes import WIDTH
from warmside.faces.look import Look
from warmside.faces.paper.page_fonts import Type
from warmside.faces.web.html_numbers import as_numbers, preformatted
from warmside.faces.web.html_tables import html_table
from warmside.faces.web.markup import Markup, element, joined, unbroken

Link = Callable[[str], str | None]
"""The address for a code (of an animal, an enclosure), or None where it is no link."""

_SAID = {Tone.PLAIN: "", Tone.CAUTION: "caution:", Tone.HINT: "next:"}


def no_link(code: str) -> None:
    """Codes are words only."""


Address = Callable[[Shot], str | None]
"""The address of a picture, or None where there is none; with `?small=1` that of its preview."""


def no_address(shot: Shot) -> None:
    """Pictures are words only."""


def render_html(
    answer: Answer,
    look: Look,
    *,
    link: Link = no_link,
    drawing_width: float = WIDTH,
    picture: Address = no_address,
) -> Markup:
    """The answer and its warnings as markup.

    Drawings are set for `drawing_width` points and take the width that they are given; choose
    about 280 for a phone, so that their letters can be read there. `picture` gives the address of
    a picture, whose preview is shown.
    """
    page = _Page(look, link, drawing_width, picture)
    title = element("h1", unbroken(answer.title)) if answer.title else None
    sections = [
        element("section", element("h2", s.title), page.parts(s.parts, "h3"))
        for s in answer.sections
    ]
    warnings = [element("p", warning, class_="warning") for warning in answer.warnings]
    return joined([title, page.parts(answer.parts, "h2"), sections, warnings])


class _Page:
    """How parts are shown on this page."""

    def __init__(self, look: Look, link: Link, drawing_width: float, picture: Address) -> None:
        self._look, self._link, self._width = look, link, drawing_width
        self._picture = picture
        self._type = Type(fallback=True)

    def parts(self, parts: Iterable[Part], heading: str) -> Iterator[Markup]:
        """The parts in their order, neighbouring facts as one list."""
        for together, group in groupby(parts, type):
            if together is Fact:
                yield self._facts([part for part in group if isinstance(part, Fact)])
            else:
                yield from (self._part(part, heading) for part in group)

    def _figure(self, part: Chart | Timeline | Drawing) -> Markup:
        """A drawing; one that is made smaller only as a whole keeps its size."""
        name = part.title or (part.y_title if isinstance(part, Chart) else "drawing")
        whole = isinstance(part, Drawing) and part.whole
        sketch = sketch_of(part, self._look, self._type, self._width)
        svg = inline(sketch, name, own_size=whole)
        numbers = as_numbers(part, self._look)
        if not whole:
            return element("figure", svg, numbers)
        # a keyboard reaches what scrolls
        return element("figure", svg, numbers, class_="whole", tabindex=0, aria_label=name)

    def _part(self, part: Part, heading: str) -> Markup:
        match part:
            case Words():
                return _words(part)
            case Fact():
                return self._facts([part])
            case Table():
                return html_table(part, self._look, self._cell, heading)
            case Chart() | Timeline() | Drawing():
                return self._figure(part)
            case Strip():
                return self._strip(part, heading)
            case _:
                assert_never(part)

    def _strip(self, strip: Strip, heading: str) -> Markup:
        title = element(heading, strip.title) if strip.title else None
        shots = element(
            "ul",
            [self._shot(shot) for shot in strip.shots],
            class_="small strip" if strip.small else "strip",
        )
        return joined([title, shots])

    def _shot(self, shot: Shot) -> Markup:
        """The picture, which leads to the whole of it; words alone where it has no address."""
        said = [element("small", words) for words in (shot.called, *shot.words)]
        address = self._picture(shot)
        if address is None:
            return element("li", said)
        if shot.kind == "pdf":
            return element(
                "li",
                element("a", f"open the PDF, {size_words(shot.size_bytes)}", href=address),
                said,
            )
        alt = ", ".join((shot.called, *shot.words))
        image = element("img", src=f"{address}?small=1", alt=alt, loading="lazy")
        return element("li", element("a", image, href=address), said)

    def _facts(self, facts: list[Fact]) -> Markup:
        rows = []
        for fact, basis in zip(facts, said_bases(facts), strict=True):
            rows.append(element("dt", fact.title))
            missing = fact.missing if fact.value is None else ""
            shown = joined(missing) if missing else self._cell(fact.value, fact.kind)
            rows.append(element("dd", shown))
            if basis:
                rows.append(element("dd", unbroken(basis), class_="basis"))
        return element("dl", rows, class_="facts")

    def _cell(self, value: Cell, kind: Kind | Unit) -> Markup:
        text = cell_text(value, kind, self._look)
        if kind is Kind.LATIN:
            return element("i", text, lang="la")
        if kind is Kind.CODE and isinstance(value, str) and (address := self._link(value)):
            return element("a", text, href=address)
        return unbroken(text)


def _words(words: Words) -> Markup:
    said = _SAID[words.tone]
    before = element("strong", said) if said else None
    if not words.pre:
        return element(
            "p", before, " " if said else None, unbroken(words.text), class_=words.tone.value
        )
    return element("div", before, preformatted(words.text), class_=words.tone.value)
