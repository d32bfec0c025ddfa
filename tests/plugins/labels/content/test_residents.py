"""What goes into the slots of a label: the keeper's words, the animals', the enclosure's, tasks."""

from __future__ import annotations

from warmside.api import LabelLine
from warmside.plugins.labels.content.animals import Occupant
from warmside.plugins.labels.content.residents import Residents
from warmside.plugins.labels.content.slots import note_key

NOTE = LabelLine(note_key("meal"), "only water")
ANIMAL = LabelLine("diet.next-meal", "2 crickets on Friday")
PLACE = LabelLine("lamps.next-meal", "feed by daylight")
COMING = {"meal": {"Ember": "Fri 2026-03-06, feed"}}


def _residents(animal: tuple[LabelLine, ...], place: tuple[LabelLine, ...]) -> Residents:
    return Residents((Occupant("EMB", "Ember"),), {"Ember": animal}, place, COMING)


def test_the_note_about_the_enclosure_then_the_animals_then_the_enclosure_then_the_task() -> None:
    assert _residents((ANIMAL,), (PLACE, NOTE)).slot("meal") == "only water"
    assert _residents((ANIMAL,), (PLACE,)).slot("meal") == "2 crickets on Friday"
    assert _residents((), (PLACE,)).slot("meal") == "feed by daylight"
    assert _residents((), ()).slot("meal") == "Fri 2026-03-06, feed"
    assert _residents((), ()).slot("misting") == ""


def test_a_task_of_the_enclosure_itself_speaks_for_all_inside() -> None:
    about = Residents((), {"Ember": (), "Moss": ()}, (), {"misting": {"": "Thu", "Moss": "Fri"}})
    assert about.slot("misting") == "Thu"


def test_what_is_said_of_animals_is_not_said_again_of_their_enclosure() -> None:
    tools, of_place = LabelLine("apart.tools", "red box"), LabelLine("apart.tools", "boxes: red")
    assert _residents((tools,), (of_place,)).listed("tools") == ["red box"]
    assert _residents((), (of_place,)).listed("tools") == ["boxes: red"]


def test_what_not_to_do_adds_up_from_all() -> None:
    about = _residents(
        (LabelLine("shed.do-not", "handle"),),
        (
            LabelLine("lamps.do-not", "handle; open the lid"),
            LabelLine(note_key("donot"), "whistle"),
        ),
    )
    assert about.listed("donot") == ["handle", "open the lid", "whistle"]


def test_lines_to_pick_are_the_animals_and_else_the_enclosures_in_their_order() -> None:
    about = _residents(
        (LabelLine("weight.last", "412 g", 20),),
        (
            LabelLine("weight.last", "together 412 g", 20),
            LabelLine("lamps.warm", "31 °C", 10),
            LabelLine("lamps.warm", "29 °C at night", 10),
        ),
    )
    assert [(line.key, line.text) for line in about.extra()] == [
        ("lamps.warm", "31 °C, 29 °C at night"),
        ("weight.last", "412 g"),
    ]
