"""JSON has stable keys with units, stored numbers, and is one valid object whatever is in it."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from faces.specimen import DRAWING
from warmside.core.answers.parts import (
    Answer,
    Axis,
    Bars,
    Cell,
    Chart,
    Column,
    Fact,
    Kind,
    Line,
    Moment,
    Part,
    Section,
    Span,
    Table,
    Timeline,
    TimelineRow,
    Tone,
    Words,
)
from warmside.core.values.basis import Basis, Estimate, Mark, Source
from warmside.core.values.errors import WarmsideError
from warmside.core.values.units import Unit
from warmside.faces.data.json_face import render_json

ZONE = ZoneInfo("Europe/Vienna")
BASIS = Basis("a rule", Source("a table", Mark.COMMON_PRACTICE), (3, 5))
BASIS_DATA = {
    "rule": "a rule",
    "source": "a table",
    "mark": "common practice, no source",
    "events": [3, 5],
}
NEED = Estimate(8.1, 6.9, 9.4, Unit.ENERGY_RATE, BASIS)


def data(*parts: Part, **more: object) -> dict[str, object]:
    answer = Answer(parts=parts, **more)  # type: ignore[arg-type]
    loaded = json.loads(render_json(answer, ZONE))
    assert isinstance(loaded, dict)
    return loaded


def test_the_same_keys_are_always_there() -> None:
    assert data() == {
        "format": 1,
        "title": "",
        "notes": [],
        "sections": [],
        "warnings": [],
    }


@pytest.mark.parametrize(
    ("value", "kind", "key", "stored"),
    [
        (612.0, Unit.MASS, "k_g", 612.0),
        (3, Unit.COUNT, "k", 3),
        (0.25, Unit.PROBABILITY, "k", 0.25),
        (float("nan"), Unit.MASS, "k_g", None),
        (float("inf"), Unit.MASS, "k_g", None),
        (None, Unit.MASS, "k_g", None),
        (date(2025, 3, 1), Kind.DATE, "k", "2025-03-01"),
        (datetime(2025, 6, 1, 18, 30, tzinfo=UTC), Kind.MOMENT, "k", "2025-06-01T18:30:00Z"),
        (datetime(2025, 6, 1, 20, 30, tzinfo=ZONE), Kind.MOMENT, "k", "2025-06-01T18:30:00Z"),
        (datetime(2025, 6, 1, 20, 30), Kind.MOMENT, "k", "2025-06-01T18:30:00Z"),
        (True, Kind.YESNO, "k", True),
        (("a", "b"), Kind.LIST, "k", ["a", "b"]),
        ("007", Kind.CODE, "k", "007"),
    ],
)
def test_a_fact_is_a_key_with_its_unit(
    value: Cell, kind: Kind | Unit, key: str, stored: object
) -> None:
    assert data(Fact("k", "title", value, kind))[key] == stored


def test_an_estimate_gives_value_range_and_basis() -> None:
    found = data(Fact("need", "daily need", NEED, Unit.ENERGY_RATE))
    assert list(found)[2:6] == [
        "need_kj_per_day",
        "need_low_kj_per_day",
        "need_high_kj_per_day",
        "need_basis",
    ]
    assert found["need_low_kj_per_day"] == 6.9
    assert found["need_basis"] == BASIS_DATA


def test_a_plain_fact_gives_its_basis_too() -> None:
    assert data(Fact("m", "mass", 1.0, Unit.MASS, BASIS))["m_basis"] == BASIS_DATA


def test_rows_of_a_table_all_have_the_same_keys() -> None:
    columns = (
        Column("name", "name"),
        Column("need", "need", Unit.ENERGY_RATE),
        Column("id", "number", Kind.CODE, text=False),
    )
    table = Table("animals", columns, (("Ember", NEED, "x1"), ("Sedge", None, "x2")))
    rows = data(table)["animals"]
    assert isinstance(rows, list)
    first, second = rows
    assert list(first) == list(second)
    assert first["need_basis"] == BASIS_DATA
    assert second == {
        "name": "Sedge",
        "need_kj_per_day": None,
        "need_low_kj_per_day": None,
        "need_high_kj_per_day": None,
        "need_basis": None,
        "id": "x2",
    }


def test_words_are_notes_with_their_tone() -> None:
    found = data(Words("calm"), Words("ask a vet", Tone.CAUTION), warnings=("late",))
    assert found["notes"] == [
        {"text": "calm", "tone": "plain"},
        {"text": "ask a vet", "tone": "caution"},
    ]
    assert found["warnings"] == ["late"]


def test_a_section_holds_its_own_keys() -> None:
    section = Section("Growth", (Fact("mass", "mass", 1.0, Unit.MASS), Words("fine")))
    found = data(Fact("mass", "mass", 2.0, Unit.MASS), sections=(section,))
    assert found["mass_g"] == 2.0
    assert found["sections"] == [
        {"title": "Growth", "mass_g": 1.0, "notes": [{"text": "fine", "tone": "plain"}]}
    ]


def test_a_chart_is_data_with_dates_and_units() -> None:
    day = float(date(2025, 3, 1).toordinal())
    line = Line("mass", (day, day + 1.5), (100.0, None), points=True)
    found = data(Chart("growth", "Growth", "day", "mass", Unit.MASS, (line,)))
    assert found["growth"] == {
        "title": "Growth",
        "x_title": "day",
        "y_title": "mass",
        "y_unit": "g",
        "axis": "days",
        "lines": [
            {
                "title": "mass",
                "points": True,
                "x": ["2025-03-01", "2025-03-02T12:00:00"],
                "y_g": [100.0, None],
            }
        ],
        "bands": [],
        "bars": [],
        "marks": [],
    }


def test_instants_are_utc_and_bars_say_their_breadth() -> None:
    """2025-03-30 01:00 UTC is 1743296400 s after 1970: the C library, by `date`."""
    bars = Bars("lamp", (1_743_296_400.0,), (3.0,), 1800.0)
    chart = Chart("c", "C", "time", "heat", Unit.HOURS, axis=Axis.INSTANTS, bars=(bars,))
    found = data(chart)["c"]
    assert isinstance(found, dict)
    assert found["bars"] == [
        {"title": "lamp", "x": ["2025-03-30T01:00:00Z"], "y_hours": [3.0], "width": 1800.0}
    ]


def test_a_drawing_is_its_data_and_its_size() -> None:
    assert data(DRAWING)["kin"] == {
        "title": DRAWING.title,
        "width_mm": 120,
        "height_mm": 52,
        "animals": ["Ash", "Briar"],
        "since": "2025-03-01",
    }
    with pytest.raises(WarmsideError, match="called 'width_mm'"):
        data(replace(DRAWING, data={"width_mm": 3}))


def test_a_timeline_is_data() -> None:
    day = date(2025, 3, 1)
    row = TimelineRow("Ember", (Span(day, day, "opaque"),), (Moment(day, "o", "meal"),))
    assert data(Timeline("care", "Care", day, day, (row,)))["care"] == {
        "title": "Care",
        "start": "2025-03-01",
        "end": "2025-03-01",
        "today": None,
        "rows": [
            {
                "title": "Ember",
                "spans": [
                    {"start": "2025-03-01", "end": "2025-03-01", "label": "opaque", "strong": True}
                ],
                "moments": [{"day": "2025-03-01", "sign": "o", "label": "meal"}],
            }
        ],
    }


def test_extra_comes_last_and_may_replace_a_key() -> None:
    found = data(
        Fact("mass", "mass", 2.0, Unit.MASS),
        extra={
            "plan": {"due": date(2025, 3, 1), "of": (1, Mark.PUBLISHED)},
            "mass_g": 3,
            "format": 9,
        },
    )
    assert list(found)[-2:] == ["plan", "mass_g"]
    assert found["plan"] == {"due": "2025-03-01", "of": [1, "published"]}
    assert (found["mass_g"], found["format"]) == (3, 1)


def test_two_values_under_one_key_are_refused() -> None:
    with pytest.raises(WarmsideError, match="called 'mass_g'"):
        data(Fact("mass", "mass", 1.0, Unit.MASS), Fact("mass", "mass", 2.0, Unit.MASS))
    with pytest.raises(WarmsideError, match="called 'title'"):
        data(Fact("title", "title", "x"))


def test_an_estimate_in_another_unit_than_declared_is_refused() -> None:
    with pytest.raises(WarmsideError, match="declared in g but estimated in kj_per_day"):
        data(Fact("need", "need", NEED, Unit.MASS))


def test_what_json_cannot_hold_is_refused_by_type() -> None:
    with pytest.raises(WarmsideError, match="type set has no place in JSON"):
        data(extra={"x": {1}})


TEXT = st.text(st.characters(codec=None))
NUMBER = st.floats() | st.integers()
CELL = TEXT | NUMBER | st.none() | st.booleans() | st.tuples(TEXT) | st.dates()


@settings(deadline=None)
@given(TEXT, st.lists(CELL, max_size=5), NUMBER, NUMBER)
def test_any_content_is_one_line_of_valid_json(
    text: str, cells: list[Cell], low: float, high: float
) -> None:
    """Read back by the standard library's parser in its strict form, after RFC 8259."""
    estimate = Estimate(None, low, high, Unit.MASS, Basis(text, Source(text, Mark.INVENTED)))
    table = Table("rows", (Column("cell", text),), tuple((cell,) for cell in cells))
    answer = Answer(
        text, (Words(text), Fact("e", text, estimate), table), warnings=(text,), extra={"x": text}
    )
    written = render_json(answer, ZONE)
    assert written.isprintable() or " " in written
    assert "\n" not in written

    def refuse(constant: str) -> None:
        raise AssertionError(constant)

    found = json.loads(written.encode("utf-8"), parse_constant=refuse)
    assert found["x"] == json.loads(json.dumps(text))
    assert len(found["rows"]) == len(cells)
