"""Parts that are filled in by hand: lines to write on, headings with a line each, signatures."""

from __future__ import annotations

from warmside.core.answers.drawings import Drawing, Label, Shape, Stroke

__all__ = ("BLANK", "NOT_LEGAL", "lines_to_write", "signatures", "to_fill_in")

BLANK = " "
"""The value of a fact that is filled in by hand."""
NOT_LEGAL = (
    "Not legal advice. Who owns young, who answers for faults and hereditary harm, what permits "
    "and proofs of origin an animal needs, and who may deal in animals differs by country, and "
    "consumer law can override what two people write. Ask those who know the law where you live. "
    "A vet judges health; nothing here is a diagnosis."
)
"""What stands on papers that two people sign."""
WIDE_MM, WORDS_MM, ROW_MM, TALL_MM, SIGN_MM = 168.0, 82.0, 6.5, 7.5, 16.0
THIN_PT, SMALL_PT = 0.5, 8.0
PERSON, PLACE, SIGN = "name and address", "day and place", "signature"
DASHES = 76


def lines_to_write(key: str, *headings: str) -> Drawing:
    """A line to write on behind each heading, which may be empty."""
    drawn: list[Shape] = []
    for number, heading in enumerate(headings, 1):
        base = number * TALL_MM - 1.5
        if heading:
            drawn.append(Label((0, base - 0.6), heading, SMALL_PT))
        drawn.append(Stroke((_breadth_mm(heading), base), (WIDE_MM, base), THIN_PT))
    text = tuple(_typed(heading) for heading in headings)
    return _drawing(key, "", TALL_MM * len(headings), drawn, text, {"headings": list(headings)})


def to_fill_in(key: str, title: str, *headings: str) -> Drawing:
    """Headings below each other, the lines to write on all beginning at one place."""
    drawn: list[Shape] = []
    for number, heading in enumerate(headings, 1):
        base = number * ROW_MM - 1.5
        drawn.append(Label((0, base), heading, SMALL_PT))
        drawn.append(Stroke((WORDS_MM, base + 1), (WIDE_MM, base + 1), THIN_PT))
    text = tuple(f"{heading}: {'_' * max(10, DASHES - len(heading))}" for heading in headings)
    return _drawing(key, title, ROW_MM * len(headings), drawn, text, {"headings": list(headings)})


def signatures(*sides: str) -> Drawing:
    """A line to sign on for each side."""
    drawn: list[Shape] = []
    for number, side in enumerate(sides, 1):
        base = number * SIGN_MM - 5
        for label, start, end in (
            (f"{side}: {PERSON}", 0, 90),
            (PLACE, 94, 128),
            (SIGN, 132, WIDE_MM),
        ):
            drawn.append(Stroke((start, base), (end, base), THIN_PT))
            drawn.append(Label((start, base + 3.5), label, SMALL_PT))
    text = tuple(
        f"{side}: {PERSON} ____________ {PLACE} ________ {SIGN} ________" for side in sides
    )
    height = SIGN_MM * len(sides)
    return _drawing("signatures", "Signatures", height, drawn, text, {"sides": list(sides)})


def is_by_hand(part: object) -> bool:
    """Whether a part is there to be filled in by hand, and so means nothing but on paper."""
    return isinstance(part, Drawing) and bool(part.data.keys() & {"headings", "sides"})


def _drawing(
    key: str,
    title: str,
    height: float,
    drawn: list[Shape],
    text: tuple[str, ...],
    data: dict[str, list[str]],
) -> Drawing:
    return Drawing(key, title, WIDE_MM, height, "mm", tuple(drawn), text, data)


def _breadth_mm(heading: str) -> float:
    """A little more than a heading takes: 0.6 of the letters' size for each."""
    return len(heading) * SMALL_PT * 0.6 * 25.4 / 72 + 2 if heading else 0.0


def _typed(heading: str) -> str:
    return f"{heading} {'_' * (DASHES - len(heading))}" if heading else "_" * DASHES
