"""A kind is declared once; options, validation, JSON, history lines and help come from that."""

from __future__ import annotations

import dataclasses
import json
import math
from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.kinds.kind import (
    EventKind,
    FieldSpec,
    Subject,
    choice,
    choices,
    measure,
    parse_field,
    say_value,
    whole,
    words,
    yesno,
)
from warmside.core.kinds.shared import SHARED_KINDS
from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.testing import Keeper

METRIC, IMPERIAL = Display.METRIC, Display.IMPERIAL


@dataclass(frozen=True, slots=True, kw_only=True)
class Bath:
    """A bath in the tub."""

    water_c: float = measure(Unit.TEMPERATURE, "water", least=15, most=32)
    deep_mm: float | None = measure(Unit.LENGTH, "depth of the water", least=1, optional=True)
    minutes: int = whole("how long", least=1, most=60, default=10)
    mood: str = choice(("calm", "restless"), "how it took it", default="calm")
    soaked: tuple[str, ...] = choices(("head", "tail"), "what went under")
    drank: bool = yesno("whether it drank")
    why: str = words("why", optional=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """Nothing but quantities, each optional."""

    one_mm: float | None = measure(Unit.LENGTH, "one", optional=True)
    other_mm: float | None = measure(Unit.LENGTH, "other", optional=True)


BATH = EventKind("tub.bath", "bathed", Bath)
FULL = {
    "water_c": 28.0,
    "deep_mm": 30.0,
    "minutes": 15,
    "mood": "restless",
    "soaked": ["tail"],
    "drank": True,
    "why": "stuck shed",
}


def test_options_are_the_fields_without_their_units() -> None:
    assert BATH.options == (
        "--water",
        "--deep",
        "--minutes",
        "--mood",
        "--soaked",
        "--drank",
        "--why",
    )
    assert BATH.field("water") == BATH.field("water_c") == BATH.fields[0]


def test_what_a_keeper_types_becomes_data_in_stored_units() -> None:
    typed = {
        "water": "82.4F",
        "deep": "3 cm",
        "minutes": "15",
        "mood": "restless",
        "soaked": "tail",
        "drank": "yes",
        "why": " stuck shed ",
    }
    assert BATH.parse(typed) == FULL


def test_defaults_are_filled_in() -> None:
    assert BATH.parse({"water": "28C", "why": "warm day"}) == {
        "water_c": 28.0,
        "deep_mm": None,
        "minutes": 10,
        "mood": "calm",
        "soaked": [],
        "drank": False,
        "why": "warm day",
    }


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"why": "x"}, "tub.bath needs --water: water"),
        ({"water": "28C"}, "tub.bath needs --why: why"),
        ({"water": "28C", "why": "  "}, "tub.bath needs --why: why"),
        ({"water": "28", "why": "x"}, "water"),
        ({"water": "28 parrots", "why": "x"}, "parrots"),
        ({"water": "40C", "why": "x"}, "water is at most 32 °C, not 40 °C"),
        ({"water": "5C", "why": "x"}, "water is at least 15 °C, not 5 °C"),
        ({"water": "28C", "minutes": "2.5", "why": "x"}, "minutes is a whole number, not '2.5'"),
        ({"water": "28C", "minutes": "0", "why": "x"}, "minutes is at least 1, not 0"),
        ({"water": "28C", "mood": "clam", "why": "x"}, "did you mean 'calm'"),
        ({"water": "28C", "soaked": "head,tial", "why": "x"}, "did you mean 'tail'"),
        ({"water": "28C", "drank": "perhaps", "why": "x"}, "drank is yes or no, not 'perhaps'"),
        ({"water": "28C", "moood": "calm", "why": "x"}, "no field 'moood' (did you mean 'mood'?)"),
    ],
)
def test_bad_input_names_the_field_and_what_it_may_be(typed: dict[str, str], told: str) -> None:
    with pytest.raises(BadInput) as refused:
        BATH.parse(typed)
    assert told in str(refused.value)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("water_c", "warm"),
        ("water_c", True),
        ("water_c", math.nan),
        ("water_c", math.inf),
        ("minutes", 2.5),
        ("mood", 3),
        ("soaked", ["wing"]),
        ("drank", "yes"),
        ("why", 3),
        ("nosuch", 1),
    ],
)
def test_data_of_the_wrong_type_is_refused(field: str, value: object) -> None:
    with pytest.raises(BadInput):
        BATH.validate(FULL | {field: value})


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """A number that must be typed."""

    eggs: int = whole("how many", least=1, required=True)


def test_a_whole_number_may_be_required() -> None:
    counted = EventKind("tub.counted", "counted", Counted)
    assert counted.line(counted.parse({"eggs": "6"}), METRIC) == "counted: eggs 6"
    with pytest.raises(BadInput, match=r"tub\.counted needs --eggs: how many"):
        counted.parse({})


def test_validation_leaves_valid_data_as_they_are() -> None:
    assert BATH.validate(FULL) == FULL


def test_a_kind_of_optional_measures_needs_one_of_them() -> None:
    sizes = EventKind("tub.sizes", "sized", Sizes)
    with pytest.raises(BadInput, match=r"tub\.sizes needs one of: --one, --other"):
        sizes.parse({})
    assert sizes.parse({"other": "2 in"}) == {"one_mm": None, "other_mm": pytest.approx(50.8)}


def test_words_may_be_typed_with_hyphens_for_blanks() -> None:
    shed = next(k for k in SHARED_KINDS if k.name == "shed")
    typed = {"outcome": "One-Piece", "retained": "tail-tip, spectacle"}
    assert shed.parse(typed)["outcome"] == "one piece"
    assert shed.parse(typed)["retained"] == ["tail tip", "spectacle"]


@pytest.mark.parametrize("kind", [k for k in SHARED_KINDS if k.fields], ids=lambda k: k.name)
def test_the_example_in_the_help_can_be_typed(kind: EventKind) -> None:
    first = kind.fields[0]
    parse_field(first, first.example)
    assert " " not in first.example


def test_a_column_that_says_its_unit_may_hold_bare_numbers() -> None:
    assert BATH.parse({"water_c": "28", "why": "x"}, bare=True)["water_c"] == 28.0


def test_the_line_tells_everything_but_defaults_and_blanks() -> None:
    data = BATH.validate(FULL)
    told = "bathed: water 28 °C, deep 30 mm, minutes 15, restless, soaked tail, drank, stuck shed"
    assert BATH.line(data, METRIC) == told
    assert "water 82.4 °F" in BATH.line(data, IMPERIAL)
    least = BATH.validate({"water_c": 20.0, "why": "x"})
    assert BATH.line(least, METRIC) == "bathed: water 20 °C, calm, x"


def test_help_says_how_a_field_is_typed() -> None:
    typing = {s.option: s.typing_help for s in BATH.fields}
    assert typing["mood"] == "calm, restless"
    assert typing["minutes"] == "a whole number"
    assert typing["drank"] == "yes or no"
    assert typing["why"] == "text"
    assert "C" in typing["water"]


# the shared kinds


def values(spec: FieldSpec) -> st.SearchStrategy[Any]:
    """Any value that the field may have."""
    if spec.several:
        return st.lists(st.sampled_from(spec.choices), unique=True)
    if spec.choices:
        return st.sampled_from(spec.choices) | (st.nothing() if spec.required else st.just(None))
    if spec.type is bool:
        return st.booleans()
    if spec.type is int:
        low, high = (int(x) if x is not None else None for x in (spec.least, spec.most))
        return st.integers(low, high)
    if spec.type is float:
        return st.floats(spec.least, spec.most, allow_nan=False, allow_infinity=False)
    blank = st.nothing() if spec.required else st.just("")
    plain = st.characters(exclude_categories=("Cc", "Cs"))
    return blank | st.text(plain).map(str.strip).filter(bool)


def records(kind: EventKind) -> st.SearchStrategy[dict[str, Any]]:
    """Any valid data of a kind, as far as a kind allows none at all."""
    whole = st.fixed_dictionaries({s.name: values(s) for s in kind.fields})
    return whole.map(lambda d: {k: v for k, v in d.items() if v is not None})


@pytest.mark.parametrize("kind", SHARED_KINDS, ids=lambda k: k.name)
@given(data=st.data())
def test_every_shared_kind_round_trips_through_json(kind: EventKind, data: st.DataObject) -> None:
    valid = kind.validate(data.draw(records(kind)))
    stored = json.loads(json.dumps(valid, ensure_ascii=False))
    assert kind.validate(stored) == valid
    for display in (METRIC, IMPERIAL):
        assert kind.line(valid, display).startswith(kind.title)


@pytest.mark.parametrize("kind", SHARED_KINDS, ids=lambda k: k.name)
@given(data=st.data())
def test_every_shared_kind_round_trips_through_typed_text(
    kind: EventKind, data: st.DataObject
) -> None:
    valid = kind.validate(data.draw(records(kind)))
    typed = {s.option: typed_text(valid[s.name]) for s in kind.fields}
    again = kind.parse(typed, bare=True)
    for name, want in valid.items():
        assert again[name] == (pytest.approx(want) if isinstance(want, float) else want)


def typed_text(value: object) -> str:
    """The value as a keeper would type it; a number bare, in the stored unit."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(value)
    return f"{value:.17f}" if isinstance(value, float) else str(value)


def test_the_shared_kinds_are_those_of_the_craft() -> None:
    names = {k.name for k in SHARED_KINDS}
    assert names >= {
        *("arrived", "returned", "departed", "lent", "died", "moved", "weighed", "measured"),
        *("fed", "shedding", "shed", "defecated", "cleaned", "watered", "misted", "observed"),
        *("examined", "treated", "mated", "laid", "hatched"),
    }
    assert len(names) == len(SHARED_KINDS)


@pytest.mark.parametrize("kind", SHARED_KINDS, ids=lambda k: k.name)
def test_every_shared_kind_is_a_typed_frozen_record(kind: EventKind) -> None:
    assert dataclasses.is_dataclass(kind.record)
    assert kind.record.__dataclass_params__.frozen  # type: ignore[attr-defined]
    assert kind.record.__doc__
    assert "." not in kind.name
    for spec in kind.fields:
        assert spec.help, f"{kind.name}.{spec.name} has no help"
        if spec.unit and spec.unit.suffix:
            assert spec.name.endswith(spec.unit.suffix)


@pytest.mark.parametrize("kind", SHARED_KINDS, ids=lambda k: k.name)
def test_the_command_of_every_shared_kind_offers_its_fields(
    kind: EventKind, keeper: Keeper
) -> None:
    told = " ".join(keeper.run("record", kind.name, "--help").stdout.split())
    for option in kind.options:
        assert option in told


def test_a_kind_is_recorded_and_told_from_its_declaration(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    said = keeper.json(
        "record", "fed", "EMB", "--item", "weaned mouse", "--mass", "0.5oz", "--form", "thawed"
    )
    assert said["recorded"][0]["what"] == "fed: weaned mouse, 14.2 g, thawed, taken"


def test_kinds_about_enclosures_take_enclosures() -> None:
    about = {k.name for k in SHARED_KINDS if k.subject is Subject.ENCLOSURE}
    assert about == {"cleaned", "watered", "misted", "climate"}


def test_a_value_is_said_in_the_collections_units() -> None:
    mass = next(k for k in SHARED_KINDS if k.name == "weighed").fields[0]
    assert say_value(mass, 453.59237, METRIC) == "453.6 g"
    assert "lb" in say_value(mass, 4535.9237, IMPERIAL)
    assert parse_field(mass, "1 lb") == pytest.approx(453.59237)
