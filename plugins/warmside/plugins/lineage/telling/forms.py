"""Headings of papers that are filled in by hand, and what is said above them."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import shapes

BLANK = " "
WIDTH_MM, WORDS_MM, ROW_MM, SIGN_MM = 170.0, 82.0, 6.5, 16.0
THIN_PT, SMALL_PT = 0.5, 8.0
PERSON, PLACE, SIGN = "name and address", "day and place", "signature"
NOT_LEGAL = (
    "Not legal advice. Who owns young, who answers for faults and hereditary harm, what permits "
    "and proofs of origin an animal needs, and who may deal in animals differs by country, and "
    "consumer law can override what two people write. Ask those who know the law where you live. "
    "A vet judges health; nothing here is a diagnosis."
)
LOAN_HEADINGS = (
    "purpose: breeding, or holding only",
    "value of the animal",
    "mates allowed",
    "what is done with hybrids",
    "infertile eggs, dead young",
    "who picks first, and when",
    "housing and feeding",
    "vet: up to what cost, who decides, who pays",
    "death, theft, escape without fault; post-mortem",
    "transport and risk; insurance",
    "quarantine before and after, at both places",
    "records and photos, who gets them",
    "lending on, moving house",
    "early end; in what state it returns",
    "permits and marks of origin",
    "law and court",
)
"""What two keepers settle before a loan (common practice, no source)."""
HANDED = (
    "proof of legal origin, permits",
    "microchip or other mark",
    "temper and handling",
    "prey it takes and how it is offered",
    "warm side, cool side, light, humidity as kept here",
    "how it travelled, and at what temperature",
)
"""What goes with an animal, beside what is on record (common practice, no source)."""


def to_fill_in(key: str, title: str, headings: Sequence[str]) -> shapes.Drawing:
    """Headings with a line to write on beside each."""
    drawn: list[shapes.Shape] = []
    for n, heading in enumerate(headings, 1):
        base = n * ROW_MM - 1.5
        drawn.append(shapes.Label((0, base), heading, SMALL_PT))
        drawn.append(shapes.Stroke((WORDS_MM, base + 1), (WIDTH_MM, base + 1), THIN_PT))
    height = ROW_MM * len(headings)
    text = tuple(f"{heading}: {'_' * max(10, 76 - len(heading))}" for heading in headings)
    lines = {"headings": list(headings)}
    return shapes.Drawing(key, title, WIDTH_MM, height, "mm", tuple(drawn), text, lines)


def signatures(*sides: str) -> shapes.Drawing:
    """A line to sign on for each side."""
    drawn: list[shapes.Shape] = []
    for n, side in enumerate(sides):
        base = (n + 1) * SIGN_MM - 5
        for label, start, end in ((f"{side}: {PERSON}", 0, 90), (PLACE, 94, 128), (SIGN, 132, 170)):
            drawn.append(shapes.Stroke((start, base), (end, base), THIN_PT))
            drawn.append(shapes.Label((start, base + 3.5), label, SMALL_PT))
    height = SIGN_MM * len(sides)
    text = tuple(
        f"{side}: {PERSON} ____________ {PLACE} ________ {SIGN} ________" for side in sides
    )
    signed = {"sides": list(sides)}
    title = "Signatures"
    return shapes.Drawing("signatures", title, WIDTH_MM, height, "mm", tuple(drawn), text, signed)
