"""One cell, read for its field: the text that the record takes, a note, and what else it says."""

from __future__ import annotations

import re

from msgspec import Struct

from warmside.core.csv.events import PRESENT
from warmside.core.csv.sheet.headings import unit_named
from warmside.core.csv.sheet.numbers import NUMBER, plain_number
from warmside.core.csv.sheet.usual_words import (
    CHOICES,
    FORMS,
    NO,
    OUTCOMES,
    YES,
    folded,
    is_nothing,
)
from warmside.core.kinds.fields import FieldSpec, Form

_NOTED = re.compile(r"(?P<value>.*?)\s*(?:[(\[](?P<note>.*?)[)\]]?|(?P<mark>[?*]+))$")
_COUNTED = re.compile(r"(?i)(?P<count>\d{1,3})\s*(?:x|×)?\s+(?P<what>[^\d\s].*)")
_GRAMS = re.compile(r"(?i)\b(\d+(?:[.,]\d+)?)\s*(?:g|gr|grams?)\b")


class CellRead(Struct, frozen=True):
    """What a cell fills, by field name; blank texts are never among them."""

    fields: dict[str, str] = {}
    note: str = ""


def read_cell(kind: str, spec: FieldSpec | None, text: str, unit: str, mark: str) -> CellRead:
    """A filled cell of a column that holds this field of this kind; BadInput if it cannot be read.

    `mark` stands before decimals; `unit` is of numbers without one. A plain yes says that there was
    such an event, a plain no that there was none.
    """
    field = f"{kind}.{spec.key if spec else ''}"
    if is_nothing(text):
        return CellRead()
    if spec is not None and spec.form is Form.QUANTITY:
        return _quantity(field, text, unit, mark)
    if field == "fed.item":
        return _meal(text, mark)
    if spec is not None and spec.form is Form.WHOLE:
        return CellRead({field: re.sub(r"(?i)\s*[x×]\s*|\.0$", "", text)})
    if spec is None or spec.choices:
        return _choice(field, spec, text)
    return CellRead({field: text})


def _quantity(field: str, text: str, unit: str, mark: str) -> CellRead:
    noted = _NOTED.fullmatch(text)
    value, note = (noted["value"], noted["note"] or noted["mark"]) if noted else (text, "")
    found = re.fullmatch(rf"(?P<number>{NUMBER})\s*(?P<unit>[^\d\s]\S*)?\.?", value)
    if found is None:
        return CellRead({field: value}, note)
    named = unit_named((found["unit"] or "").rstrip(".")) or (found["unit"] or "")
    number = plain_number(found["number"].strip(), mark)
    return CellRead({field: f"{number} {named or unit}".strip()}, note or "")


def _choice(field: str, spec: FieldSpec | None, text: str) -> CellRead:
    """A choice by its own word, by another, or with its note behind it."""
    noted = _NOTED.fullmatch(text)
    value, note = (noted["value"], noted["note"] or "") if noted else (text, "")
    word = folded(value)
    meant = chosen(field, spec, word)
    if meant is not None:
        return CellRead({field: meant} if meant else {}, note)
    head, _, rest = re.sub(r"\s*[,;–-]\s*", "|", value, count=1).partition("|")
    meant = chosen(field, spec, folded(head))
    if rest and meant is not None:
        return CellRead({field: meant} if meant else {}, "; ".join(t for t in (rest, note) if t))
    if spec is None:
        return CellRead({field: PRESENT}, text)
    return CellRead({field: value}, note)


def chosen(field: str, spec: FieldSpec | None, word: str) -> str | None:
    """The choice that a folded word means; blank for a no, None where it means no known one."""
    if spec is not None and word.replace("-", " ") in spec.choices:
        return word.replace("-", " ")
    if spec is not None and word in dict(spec.also):
        return dict(spec.also)[word]
    if word in CHOICES.get(field, {}):
        return CHOICES[field][word]
    if word in YES:
        return PRESENT
    return "" if word in NO else None


def _meal(text: str, mark: str) -> CellRead:
    """Food as it is noted in one cell: `2 x mouse (refused)`, `f/t rat 45 g, taken`, `R`."""
    fields = dict[str, str]()
    if folded(text) in OUTCOMES:
        return CellRead({"fed.outcome": OUTCOMES[folded(text)]})
    what, outcome, note = _outcome_behind(text)
    if outcome:
        fields["fed.outcome"] = outcome
    if counted := _COUNTED.fullmatch(what):
        fields["fed.count"], what = counted["count"], counted["what"]
    if (grams := _GRAMS.search(what)) and fields.get("fed.count", "1") == "1":
        fields["fed.mass"] = f"{plain_number(grams[1], mark)} g"
        what = " ".join((what[: grams.start()] + what[grams.end() :]).split(" ")).strip(" ,;-")
    first, _, rest = what.partition(" ")
    if rest and folded(first) in FORMS:
        fields["fed.form"], what = FORMS[folded(first)], rest
    fields["fed.item"] = " ".join(what.split())
    return CellRead(fields, note)


def _outcome_behind(text: str) -> tuple[str, str, str]:
    """The food, the outcome that stands behind it, and a note in brackets that is none."""
    noted = re.fullmatch(r"(.+?)\s*[(\[](.*?)[)\]]?", text)
    if noted:
        outcome = OUTCOMES.get(folded(noted[2]), "")
        return (noted[1], outcome, "" if outcome else noted[2])
    parts = re.split(r"\s*[,;:]\s*|\s+[–-]\s+|\s+(?=\S+$)", text)
    last = folded(parts[-1])
    if len(parts) > 1 and last in OUTCOMES and not last.isdigit():
        return text[: text.rindex(parts[-1])].strip(" ,;:–-"), OUTCOMES[last], ""
    return text, "", ""
