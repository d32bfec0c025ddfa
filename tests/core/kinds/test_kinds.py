"""A kind is declared once; options, validation, JSON, history lines and help come from that."""

from __future__ import annotations

import dataclasses
import json
import math
from datetime import UTC, date, datetime, time
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.kinds.declaring import (
    animal_ref,
    choice,
    choices,
    clock,
    day,
    measure,
    whole,
    words,
    yesno,
)
from warmside.core.kinds.fields import FieldSpec, Form, Target, reference_named
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.parsing import Readers, parse_field
from warmside.core.kinds.saying import say_field, say_value
from warmside.core.kinds.shared import SHARED_KINDS
from warmside.core.kinds.validating import check_field
from warmside.core.values.errors import BadInput
from warmside.core.values.moments import parse_day
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.testing import Keeper

OF_EACH = 15  # examples of each kind; they share a dozen forms of fields
METRIC, IMPERIAL = Display.METRIC, Display.IMPERIAL
NOW = datetime(2026, 3, 5, 12, 0, tzinfo=UTC)
CODES = {7: "PEP", 12: "ASH"}


def animal_coded(target: Target, code: str) -> int:
    return next(id for id, known in CODES.items() if known == code.upper())


def animal_named(target: Target, id: int) -> str:
    return CODES[id]


READERS = Readers(lambda text: parse_day(text, NOW, ZoneInfo("Europe/Vienna")), animal_coded)


class Bath:
    """A bath in the tub."""

    water_c: float = measure(Unit.TEMPERATURE, "water", least=15, most=32)
    deep_mm: float | None = measure(Unit.LENGTH, "depth", least=1, most=500, optional=True)
    minutes: int = whole("how long", least=1, most=60, default=10)
    mood: str = choice(("calm", "restless"), "how it took it", default="calm")
    soaked: tuple[str, ...] = choices(("head", "tail"), "what went under")
    drank: bool = yesno("whether it drank")
    why: str = words("why", optional=False)
    again: str | None = day("when to bathe it again", optional=True)
    rang: str | None = clock("when the timer rang", optional=True, before="until")
    beside_animal_id: int | None = animal_ref("who sat beside it", optional=True)


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
    "again": "2026-03-12",
    "rang": "08:30",
    "beside_animal_id": 7,
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
        "--again",
        "--rang",
        "--beside",
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
        "again": "in 1 week",
        "rang": "8:30",
        "beside": "pep",
    }
    assert BATH.parse(typed, READERS) == FULL


def test_defaults_are_filled_in() -> None:
    assert BATH.parse({"water": "28C", "why": "warm day"}, READERS) == {
        "water_c": 28.0,
        "deep_mm": None,
        "minutes": 10,
        "mood": "calm",
        "soaked": [],
        "drank": False,
        "why": "warm day",
        "again": None,
        "rang": None,
        "beside_animal_id": None,
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
        ({"water": "28C", "why": "x", "again": "soon"}, "day soon cannot be read"),
        ({"water": "28C", "why": "x", "again": "2026-02-30"}, "no day of the calendar"),
        ({"water": "28C", "why": "x", "rang": "half past"}, "write it as 08:30"),
        ({"water": "28C", "why": "x", "rang": "24:00"}, "is no time of day"),
        ({"water": "28C", "moood": "calm", "why": "x"}, "no field 'moood' (did you mean 'mood'?)"),
    ],
)
def test_bad_input_names_the_field_and_what_it_may_be(typed: dict[str, str], told: str) -> None:
    with pytest.raises(BadInput) as refused:
        BATH.parse(typed, READERS)
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
        ("again", "12.3.2026"),
        ("again", "2026-02-30"),
        ("again", "2026-3-5"),
        ("again", 20260312),
        ("rang", "8:30"),
        ("rang", "24:00"),
        ("beside_animal_id", "PEP"),
        ("beside_animal_id", 0),
        ("beside_animal_id", True),
        ("beside", 7),  # the option's name, which stored data never have
        ("nosuch", 1),
    ],
)
def test_data_of_the_wrong_type_is_refused(field: str, value: object) -> None:
    with pytest.raises(BadInput):
        BATH.validate(FULL | {field: value})


class Counted:
    """A number that must be typed."""

    eggs: int = whole("how many", least=1, required=True)


def test_a_record_may_be_a_dataclass_too() -> None:
    record = dataclasses.dataclass(frozen=True, slots=True, kw_only=True)(
        type("Bath", (), {**vars(Bath), "__module__": __name__})
    )
    assert EventKind("tub.bath", "bathed", record).fields == BATH.fields


def test_a_record_has_the_fields_of_its_base_first() -> None:
    class Timed(Sizes):
        minutes: int = whole("how long")

    fields = EventKind("tub.timed", "timed", Timed).fields
    assert [s.name for s in fields] == ["one_mm", "other_mm", "minutes"]


@pytest.mark.parametrize("value", [{}, {"minutes": 10}])
def test_a_field_that_nothing_declares_is_an_error(value: dict[str, int]) -> None:
    record = type("Bare", (), {"__annotations__": {"minutes": int}, **value})
    with pytest.raises(TypeError, match=r"Bare\.minutes is declared by none of"):
        _ = EventKind("tub.bare", "bare", record).fields


def test_a_whole_number_may_be_required() -> None:
    counted = EventKind("tub.counted", "counted", Counted)
    assert counted.line(counted.parse({"eggs": "6"}, READERS), METRIC) == "counted: eggs 6"
    with pytest.raises(BadInput, match=r"tub\.counted needs --eggs: how many"):
        counted.parse({}, READERS)


def test_validation_leaves_valid_data_as_they_are() -> None:
    assert BATH.validate(FULL) == FULL


def test_a_kind_of_optional_measures_needs_one_of_them() -> None:
    sizes = EventKind("tub.sizes", "sized", Sizes)
    with pytest.raises(BadInput, match=r"tub\.sizes needs one of: --one, --other"):
        sizes.parse({}, READERS)
    assert sizes.parse({"other": "2 in"}, READERS) == {
        "one_mm": None,
        "other_mm": pytest.approx(50.8),
    }


def test_words_may_be_typed_with_hyphens_for_blanks() -> None:
    shed = next(k for k in SHARED_KINDS if k.name == "shed")
    typed = {"outcome": "One-Piece", "retained": "tail-tip, spectacle"}
    assert shed.parse(typed, READERS)["outcome"] == "one piece"
    assert shed.parse(typed, READERS)["retained"] == ["tail tip", "spectacle"]


def example_animal(target: Target, code: str) -> int:
    assert code == {Target.ANIMAL: "EMB", Target.CLUTCH: "C1"}[target]
    return 1


@pytest.mark.parametrize("kind", [*SHARED_KINDS, BATH], ids=lambda k: k.name)
def test_the_example_in_the_help_can_be_typed(kind: EventKind) -> None:
    for spec in kind.fields:
        typed = parse_field(spec, spec.example, Readers(READERS.day, example_animal))
        check_field(kind.name, spec, {spec.name: typed})
        assert " " not in spec.example


def test_a_column_that_says_its_unit_may_hold_bare_numbers() -> None:
    assert BATH.parse({"water_c": "28", "why": "x"}, READERS, bare=True)["water_c"] == 28.0


def test_the_line_tells_everything_but_defaults_and_blanks() -> None:
    data = BATH.validate(FULL)
    told = (
        "bathed: water 28 °C, deep 30 mm, minutes 15, restless, soaked tail, drank, stuck shed, "
        "again 2026-03-12, until 08:30, beside PEP"
    )
    assert BATH.line(data, METRIC, animal_named) == told
    assert BATH.line(data, METRIC).endswith("beside animal number 7"), "without a record"
    assert "water 82.4 °F" in BATH.line(data, IMPERIAL)
    least = BATH.validate({"water_c": 20.0, "why": "x"})
    assert BATH.line(least, METRIC) == "bathed: water 20 °C, calm, x"


def test_nought_is_told_where_it_was_typed() -> None:
    laid = next(k for k in SHARED_KINDS if k.name == "laid")
    told = laid.line(laid.parse({"count": "6", "good": "0"}, READERS), METRIC)
    assert told == "laid: 6 in all, 0 good"
    climate = next(k for k in SHARED_KINDS if k.name == "climate")
    told = climate.line(climate.parse({"cool": "0C"}, READERS), METRIC)
    assert told == "climate read: cool 0 °C"


def test_help_says_how_a_field_is_typed() -> None:
    typing = {s.option: s.typing_help for s in BATH.fields}
    assert typing["mood"] == "calm, restless"
    assert typing["minutes"] == "a whole number"
    assert typing["drank"] == "yes or no"
    assert typing["why"] == "text"
    assert typing["again"] == "2026-03-05, today, in 3 weeks"
    assert typing["rang"] == "a time of day such as 08:30"
    assert typing["beside"] == "code or name of an animal"
    assert "C" in typing["water"]


def test_a_day_or_time_of_python_is_stored_as_text() -> None:
    data = FULL | {"again": date(2026, 3, 12), "rang": time(8, 30)}
    assert BATH.validate(data) == FULL


def test_a_kind_may_need_one_of_its_fields() -> None:
    chosen = EventKind("tub.chosen", "chosen", Bath, one_of=("again", "rang"))
    plain = {"water_c": 28.0, "why": "x"}
    with pytest.raises(BadInput, match=r"tub\.chosen needs one of: --again, --rang"):
        chosen.validate(plain)
    assert chosen.validate(plain | {"rang": "08:30"})["rang"] == "08:30"


@pytest.mark.parametrize(
    ("name", "key", "target"),
    [
        ("partner_animal_id", "partner", Target.ANIMAL),
        ("animal_id", "animal", Target.ANIMAL),
        ("clutch_id", "clutch", Target.CLUTCH),
    ],
)
def test_the_name_of_a_stored_reference_tells_what_it_means(
    name: str, key: str, target: Target
) -> None:
    assert reference_named(name) == (key, target)


@pytest.mark.parametrize("name", ["logger_id", "animal", "manimal_id", "mass_g", "id"])
def test_other_fields_are_no_references(name: str) -> None:
    assert reference_named(name) is None


@pytest.mark.parametrize(
    ("name", "declared", "told"),
    [
        ("partner", animal_ref("x"), r"partner must end in animal_id"),
        ("partner_animal_id", whole("x"), r"partner_animal_id must end in another word"),
        ("plain", dataclasses.field(), "plain is declared by none of"),
    ],
)
def test_a_field_declared_under_the_wrong_name_is_refused(
    name: str, declared: Any, told: str
) -> None:
    record = dataclasses.make_dataclass("Wrong", [(name, int, declared)], frozen=True)
    with pytest.raises(TypeError, match=told):
        _ = EventKind("tub.wrong", "wrong", record).fields


# the shared kinds


EVERY_KIND = (*SHARED_KINDS, BATH)


def values(spec: FieldSpec) -> st.SearchStrategy[Any]:
    """Any value that the field may have."""
    absent = st.nothing() if spec.required else st.just(spec.default)
    least, most = (int(x) if x is not None else None for x in (spec.least, spec.most))
    plain = st.characters(exclude_categories=("Cc", "Cs"))
    present: dict[Form, st.SearchStrategy[Any]] = {
        Form.QUANTITY: st.floats(spec.least, spec.most, allow_nan=False, allow_infinity=False),
        Form.WHOLE: st.integers(least, most),
        Form.CHOICE: st.sampled_from(spec.choices or ("x",)),
        Form.CHOICES: st.lists(st.sampled_from(spec.choices or ("x",)), unique=True),
        Form.WORDS: st.text(plain).map(str.strip).filter(bool),
        Form.YESNO: st.booleans(),
        Form.DAY: st.dates(date(1800, 1, 1), date(2999, 12, 31)).map(date.isoformat),
        Form.CLOCK: st.times().map(lambda t: t.isoformat("minutes")),
        Form.REFERENCE: st.sampled_from(sorted(CODES)),
    }
    return absent | present[spec.form]


def records(kind: EventKind) -> st.SearchStrategy[dict[str, Any]]:
    """Any valid data of a kind, as far as a kind allows none at all."""
    whole = st.fixed_dictionaries({s.name: values(s) for s in kind.fields})
    some = whole.map(lambda d: {k: v for k, v in d.items() if v is not None})
    return some.filter(lambda d: not kind.fields or any(v != "" for v in d.values()))


def test_the_kinds_below_have_fields_of_every_form() -> None:
    assert {s.form for k in EVERY_KIND for s in k.fields} == set(Form)


@pytest.mark.parametrize("kind", EVERY_KIND, ids=lambda k: k.name)
@settings(max_examples=OF_EACH)
@given(data=st.data())
def test_every_kind_round_trips_through_json(kind: EventKind, data: st.DataObject) -> None:
    valid = kind.validate(data.draw(records(kind)))
    stored = json.loads(json.dumps(valid, ensure_ascii=False))
    assert kind.validate(stored) == valid
    for display in (METRIC, IMPERIAL):
        assert kind.line(valid, display, animal_named).startswith(kind.title)


@pytest.mark.parametrize("kind", EVERY_KIND, ids=lambda k: k.name)
@settings(max_examples=OF_EACH)
@given(data=st.data())
def test_every_kind_round_trips_through_typed_text(kind: EventKind, data: st.DataObject) -> None:
    valid = kind.validate(data.draw(records(kind)))
    typed = {s.option: typed_text(s, valid[s.name]) for s in kind.fields}
    again = kind.parse(typed, READERS, bare=True)
    for name, want in valid.items():
        assert again[name] == (pytest.approx(want) if isinstance(want, float) else want)


@pytest.mark.parametrize("kind", EVERY_KIND, ids=lambda k: k.name)
@settings(max_examples=OF_EACH)
@given(data=st.data())
def test_what_history_shows_of_a_day_a_time_an_animal_or_a_choice_can_be_typed(
    kind: EventKind, data: st.DataObject
) -> None:
    valid = kind.validate(data.draw(records(kind)))
    for spec in kind.fields:
        shown = say_field(spec, valid[spec.name], METRIC, animal_named)
        if shown and spec.form in (Form.DAY, Form.CLOCK, Form.REFERENCE, Form.CHOICE):
            again = parse_field(spec, shown.removeprefix(spec.before).split(" ")[-1], READERS)
            assert again == valid[spec.name] or " " in str(valid[spec.name])


def typed_text(spec: FieldSpec, value: Any) -> str:
    """The value as a keeper would type it; a number bare, in the stored unit."""
    if value is None:
        return ""
    if spec.form is Form.REFERENCE:
        return CODES[value]
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
def test_every_shared_kind_is_typed_and_told(kind: EventKind) -> None:
    assert kind.record.__annotations__.keys() == {s.name for s in kind.fields}
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
    assert parse_field(mass, "1 lb", READERS) == pytest.approx(453.59237)


@pytest.mark.parametrize(
    ("kind", "typed", "told"),
    [
        ("fed", {"item": "mouse"}, "fed: mouse, taken"),
        ("fed", {"item": "mouse", "count": "3"}, "fed: 3 × mouse, taken"),
        ("fed", {"item": "2 x pinky rat"}, "fed: 2 × pinky rat, taken"),
        ("fed", {"item": "2x mouse", "count": "3"}, "fed: 3 × mouse, taken"),
        ("laid", {"count": "7", "good": "5"}, "laid: 7 in all, 5 good"),
        ("hatched", {"count": "4"}, "hatched: 4 young"),
        ("returned", {"after": "show"}, "returned: from a show"),
        ("measured", {"snout_vent": "80cm"}, "measured: nose to vent 80 cm"),
        ("shed", {}, "shed"),
        ("shed", {"retained": "toes"}, "shed: skin left on toes"),
        ("shed", {"outcome": "one piece"}, "shed: one piece"),
    ],
)
def test_events_read_as_keepers_say_them(kind: str, typed: dict[str, str], told: str) -> None:
    found = next(k for k in SHARED_KINDS if k.name == kind)
    assert found.line(found.parse(typed, READERS), METRIC) == told
