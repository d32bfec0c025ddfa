"""An answer in the terminal reads quietly, and says in words what colour only repeats."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.core.answers.parts import Answer, Fact, Kind, Section, Table, Tone, Words, said
from warmside.core.values.basis import Basis, Estimate, Mark, Source
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.faces.look import Look
from warmside.faces.terminal.text import render_text
from warmside.faces.terminal.widths import text_width

LOOK = Look(80, Display.METRIC, ZoneInfo("UTC"))
NEED = Estimate(
    8.1, 6.9, 9.4, Unit.ENERGY_RATE, Basis("a rule", Source("a table", Mark.FROM_MEMORY), (1, 2))
)
ANSWER = Answer(
    "Ember",
    (
        Words("A made-up animal."),
        Fact("species", "species", "Tiliqua gigas", Kind.LATIN),
        Fact("need", "daily need", NEED, Unit.ENERGY_RATE),
        Words("ask a vet", Tone.CAUTION),
        Words("warmside round", Tone.HINT),
        Words("warmside status", Tone.HINT),
    ),
    (Section("Sheds", (Table("sheds", (), ()),)),),
    warnings=("said elsewhere",),
)


def test_parts_stand_apart_and_facts_are_aligned() -> None:
    assert render_text(ANSWER, LOOK) == "\n".join(
        [
            "Ember",
            "=====",
            "",
            "A made-up animal.",
            "",
            "species:    Tiliqua gigas",
            "daily need: 8.1 (6.9–9.4) kJ/day",
            "            a rule; a table [from memory]; from 2 records",
            "",
            "caution: ask a vet",
            "",
            "next: warmside round",
            "next: warmside status",
            "",
            "Sheds",
            "-----",
            "nothing on record",
        ]
    )


def test_colour_adds_styles_and_changes_no_word() -> None:
    coloured = render_text(ANSWER, replace(LOOK, colour=True))
    assert "\x1b[1mEmber\x1b[0m" in coloured
    assert "\x1b[3mTiliqua gigas\x1b[0m" in coloured
    assert "\x1b[1;33mcaution:\x1b[0m ask a vet" in coloured
    for code in ("0", "1", "2", "3", "36", "1;33"):
        coloured = coloured.replace(f"\x1b[{code}m", "")
    assert coloured == render_text(ANSWER, LOOK)


def test_long_titles_put_each_fact_on_its_own_lines() -> None:
    answer = Answer(parts=(Fact("a", "a title that takes most of it", "some words"),))
    assert render_text(answer, replace(LOOK, width=32)).split("\n") == [
        "a title that takes most of it:",
        "  some words",
    ]


def test_a_fact_of_several_lines_stays_aligned() -> None:
    answer = Answer(parts=(Fact("a", "note", "one\ntwo"),))
    assert render_text(answer, LOOK) == "note: one\n      two"


def test_warnings_are_left_to_the_caller() -> None:
    assert "said elsewhere" not in render_text(ANSWER, LOOK)


def test_an_empty_answer_is_empty_text() -> None:
    assert render_text(Answer(), LOOK) == ""
    assert render_text(said("done", hints=["warmside round"]), LOOK) == (
        "done\n\nnext: warmside round"
    )


ANY_TEXT = st.text(st.characters(codec=None), max_size=80)


@settings(deadline=None)
@given(st.lists(ANY_TEXT, min_size=4, max_size=4), st.integers(20, 100))
def test_no_text_exceeds_the_width(texts: list[str], width: int) -> None:
    title, label, value, paragraph = texts
    fact = Fact("k", label, value, basis=Basis(value, Source(label, Mark.INVENTED)))
    parts = (Words(paragraph), fact, Words(paragraph, Tone.CAUTION))
    answer = Answer(title, parts, (Section(label, parts),))
    for line in render_text(answer, replace(LOOK, width=width)).split("\n"):
        assert text_width(line) <= width
