"""Which labels there are to make, from who is there, what is said and what was typed."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from warmside.api import BadInput, Enclosure, LabelLine
from warmside.plugins.labels.content.animals import Occupant
from warmside.plugins.labels.content.label import Label, LabelKind
from warmside.plugins.labels.content.making import Subject, card_of, label_of
from warmside.plugins.labels.content.picking import Ready, picked
from warmside.plugins.labels.content.residents import Residents
from warmside.plugins.labels.content.slots import note_key

PLACE = Enclosure(1, "V-01", "Window vivarium", "hall", None, None, None, "", False)
SETTINGS = {"url_prefix": "", "contact": "Ann", "vet": "", "licence": "L 7", "do_nots": "sing; "}
EMPTY = Subject(PLACE, Residents((), {}), SETTINGS)
MOSS = Residents((Occupant("MOS", "Moss", "moss gecko", "Gekko fictus"),), {"Moss": ()})


def _said(ready: Ready | None, key: str) -> list[str]:
    assert ready is not None
    return [line.text for line in ready.label.lines if line.key == key]


def _with(*lines: LabelLine) -> Subject:
    return replace(EMPTY, about=replace(MOSS, lines={"Moss": lines}))


@pytest.mark.parametrize("kind", [LabelKind.DOOR, LabelKind.HAZARD, LabelKind.SITTER])
def test_where_nothing_is_to_be_said_there_is_no_sign_unless_it_was_named(kind: LabelKind) -> None:
    assert label_of(kind, EMPTY) is None
    named = replace(EMPTY, named=True, hazard="bites")
    assert label_of(kind, named) is not None


def test_an_empty_enclosure_has_its_code_and_is_called_by_its_name() -> None:
    ready = label_of(LabelKind.ENCLOSURE, EMPTY)
    assert ready == Ready(ready.label, "Window vivarium") and _said(ready, "room") == ["hall"]


def test_a_named_enclosure_without_a_noted_danger_asks_which() -> None:
    with pytest.raises(BadInput, match="no danger is noted for V-01; add --hazard with one of"):
        label_of(LabelKind.HAZARD, replace(EMPTY, named=True))


def test_the_gravest_noted_danger_is_on_the_sign_unless_another_was_typed() -> None:
    noted = _with(LabelLine(note_key("hazard"), "bites"), LabelLine(note_key("hazard"), "venomous"))
    assert _said(label_of(LabelKind.HAZARD, noted), "sign") == ["DANGER – VENOMOUS"]
    typed = replace(noted, hazard="large")
    assert _said(label_of(LabelKind.HAZARD, typed), "sign") == ["DANGER – LARGE ANIMAL"]
    assert _said(label_of(LabelKind.HAZARD, noted), "licence") == ["licence no.: L 7"]


def test_a_strip_has_the_general_do_nots_after_the_animals() -> None:
    strip = label_of(LabelKind.SITTER, _with(LabelLine("shed.do-not", "handle")))
    assert _said(strip, "donot") == ["Do not handle", "Do not sing"]
    assert _said(strip, "contact") == ["call: Ann"]


def test_plugins_lines_stand_on_a_label_only_when_picked() -> None:
    card = card_of(replace(MOSS, lines={"Moss": (LabelLine("weight.last", "38 g"),)}), SETTINGS)
    (plain,), warnings = picked([card], "")
    assert _said(plain, "weight.last") == [] and _said(plain, "name") == ["Moss"] and not warnings
    (chosen,), warnings = picked([card], " weight.last , NAME,weight.lst")
    assert [line.key for line in chosen.label.lines] == ["weight.last", "name"]
    assert warnings == [
        "no plugin gives a line 'weight.lst' (did you mean 'weight.last'?) for these labels; "
        "see: warmside labels lines"
    ]


def test_every_kind_carries_the_code_of_its_place(invented) -> None:
    everyone = replace(EMPTY, about=MOSS, named=True, hazard="bites")
    made: list[Label] = []
    for kind in (k for k in LabelKind if k is not LabelKind.ANIMAL):
        ready = label_of(kind, everyone)
        assert ready is not None and ready.who == "Moss"
        made.append(ready.label)
    assert {(label.code_text, label.payload) for label in made} == {
        ("V-01", "MOSS - MOSS GECKO - WS.E.V-01")
    }
