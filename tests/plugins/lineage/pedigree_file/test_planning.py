"""What of a pedigree file is new, and what cannot be true."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.api import PartialDate
from warmside.plugins.lineage.pedigree_file.planning import plan
from warmside.plugins.lineage.pedigree_file.rows import FileRow, Fill, Kept

CORN = "Pantherophis guttatus"
RECORD = {
    "FER": Kept("female", PartialDate(2020), CORN),
    "RUS": Kept("male", None, CORN),
    "MOS": Kept("unknown", PartialDate(2023, 7), CORN, ("FER",), ("RUS",)),
}


def rows(*typed: str) -> list[FileRow]:
    """`A dam sire sex year` each, `-` for what is not said, from line 2 on."""
    made = []
    for line, text in enumerate(typed, 2):
        id, dam, sire, sex, year, *_ = [*text.split(), "-", "-", "-", "-"]
        born = None if year == "-" else PartialDate(int(year))
        said = ("" if p == "-" else p for p in (dam, sire))
        made.append(FileRow(line, id, *said, "unknown" if sex == "-" else sex, born, CORN))
    return made


def bad(*typed: str) -> list[tuple[int, str]]:
    return list(plan(rows(*typed), RECORD).bad)


def test_new_animals_and_parents_are_told_apart_from_those_on_record() -> None:
    found = plan(rows("A FER RUS", "B A - male 2024", "MOS FER RUS"), RECORD)
    assert [row.id for row in found.new] == ["A", "B"]
    assert found.links == (("A", "dam", "FER"), ("A", "sire", "RUS"), ("B", "dam", "A"))
    assert (found.same, found.fills, found.bad) == ((4,), (), ())


def test_what_the_record_does_not_know_is_filled_in() -> None:
    found = plan(rows("RUS - - male 2019", "MOS - - female 2023"), RECORD)
    assert found.fills == (Fill("RUS", None, PartialDate(2019)), Fill("MOS", "female", None))


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("A - -", "A - -"), (3, "A is there in line 2, too")),
        (("A A -",), (2, "A cannot be its own parent")),
        (("A FER FER",), (2, "FER is dam and sire of one animal")),
        (("A NO -",), (2, "parent NO has no row of its own and is not on record")),
        (("A RUS -",), (2, "RUS is male and cannot be a dam")),
        (("B - - male", "A B -"), (3, "B is male and cannot be a dam")),
        (("B - -", "A B -", "C - B"), (4, "B is a sire here and a dam in line 3")),
        (("FER - - male",), (2, "FER is female on record, not male")),
        (("FER - - - 2021",), (2, "FER hatched 2020 on record, not 2021")),
        (("MOS - A", "A - -"), (2, "the sire of MOS is RUS on record, not A")),
        (("A FER - - 2019",), (2, "dam FER hatched 2020, not before A (2019)")),
        (("B - - - 2022", "A B - - 2021"), (3, "dam B hatched 2022, not before A (2021)")),
        (("A B -", "B A -"), (2, "nobody is their own ancestor: A < B < A (lines 2, 3)")),
        (("FER MOS -",), (2, "nobody is their own ancestor: FER < MOS < FER (line 2)")),
    ],
)
def test_what_cannot_be_is_said_with_its_line(typed: tuple[str, ...], told: object) -> None:
    assert told in bad(*typed)


def test_of_two_that_are_wrong_both_are_said() -> None:
    assert len(bad("A NO -", "B - - male", "C B -")) == 2


def test_each_loop_is_named_once() -> None:
    found = [text for _, text in bad("A B -", "B A -", "C D -", "D C -", "E A C")]
    assert len([t for t in found if "own ancestor" in t]) == 2


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 12))
def test_a_sound_pedigree_in_any_order_is_taken_whole_and_only_once(seed: int, size: int) -> None:
    dice = random.Random(seed)
    sexes = [dice.choice(["female", "male"]) for _ in range(size)]
    made = []
    for n in range(size):
        older = range(n)
        dams = [f"N{m}" for m in older if sexes[m] == "female"] + [""]
        sires = [f"N{m}" for m in older if sexes[m] == "male"] + [""]
        born = PartialDate(2000 + n)
        made.append(
            FileRow(n, f"N{n}", dice.choice(dams), dice.choice(sires), sexes[n], born, CORN)
        )
    dice.shuffle(made)
    found = plan(made, {})
    assert not found.bad and len(found.new) == size
    kept = {
        r.id: Kept(r.sex, r.hatched, CORN, *((p,) if p else () for p in (r.dam, r.sire)))
        for r in made
    }
    again = plan(made, kept)
    assert not again.bad and not again.new and not again.links
    assert sorted(again.same) == sorted(r.line for r in made)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10_000), st.integers(2, 9))
def test_a_loop_is_found_where_there_is_one(seed: int, size: int) -> None:
    dice = random.Random(seed)
    order = dice.sample(range(size), size)
    made = [FileRow(n, f"N{n}", f"N{order[(order.index(n) + 1) % size]}") for n in range(size)]
    loops = [text for _, text in plan(made, {}).bad if "own ancestor" in text]
    assert len(loops) == 1 and all(f"N{n}" in loops[0] for n in range(size))
