"""Tables fit the terminal whatever is in them."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.core.answers.parts import Cell, Column, Kind, Table
from warmside.core.values.basis import Basis, Estimate, Mark, Source
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.faces.look import Look
from warmside.faces.terminal.text_table import render_table
from warmside.faces.terminal.widths import text_width

LOOK = Look(80, Display.METRIC, ZoneInfo("UTC"))
SOURCE = Source("a made-up table", Mark.INVENTED)
COLUMNS = (
    Column("name", "name"),
    Column("mass", "mass", Unit.MASS),
    Column("note", "note"),
    Column("id", "number", text=False),
)
TABLE = Table(
    "animals",
    COLUMNS,
    (("Ember", 612.0, "calm", "x1"), ("Sedge", 95.5, "shy", "x2")),
    title="Animals",
)

TEXT = st.text(st.characters(codec=None), max_size=60)
NUMBER = st.floats(-1e9, 1e9)


def estimates() -> st.SearchStrategy[Estimate]:
    unit, basis = Unit.ENERGY_RATE, Basis("rule", SOURCE)
    return st.builds(Estimate, NUMBER | st.none(), NUMBER, NUMBER, st.just(unit), st.just(basis))


@st.composite
def tables(draw: st.DrawFn) -> Table:
    """Any texts, numbers and estimates under any titles."""
    kinds: tuple[tuple[Kind | Unit, st.SearchStrategy[Cell]], ...] = (
        (Kind.TEXT, TEXT),
        (Kind.LATIN, TEXT),
        (Kind.LIST, st.tuples(TEXT, TEXT)),
        (Unit.MASS, NUMBER | st.none()),
        (Unit.ENERGY_RATE, estimates() | st.none()),
    )
    chosen = draw(st.lists(st.sampled_from(kinds), min_size=1, max_size=6))
    columns = tuple(Column(f"c{i}", draw(TEXT), kind) for i, (kind, _) in enumerate(chosen))
    rows = draw(st.lists(st.tuples(*(cells for _, cells in chosen)), max_size=4))
    return Table("t", columns, tuple(rows), title=draw(TEXT))


def test_columns_are_aligned_and_numbers_stand_right() -> None:
    assert render_table(TABLE, LOOK) == [
        "Animals",
        "name     mass  note",
        "-----  ------  ----",
        "Ember   612 g  calm",
        "Sedge  95.5 g  shy",
    ]


def test_no_rows_say_so() -> None:
    assert render_table(replace(TABLE, rows=(), empty="no animals"), LOOK) == [
        "Animals",
        "no animals",
    ]


def test_the_widest_text_column_gives_way_and_numbers_stay_whole() -> None:
    table = replace(TABLE, rows=(("Ember", 612.0, "a long note on her habits " * 4, ""),))
    lines = render_table(table, replace(LOOK, width=60))
    assert lines[3].startswith("Ember  612 g  a long note")
    assert all(text_width(line) <= 60 for line in lines)
    assert len(lines) > 4


def test_a_narrow_terminal_gets_one_field_a_line() -> None:
    table = replace(TABLE, rows=(("Ember", 612.0, "a long note on her habits", ""),) * 2)
    lines = render_table(table, replace(LOOK, width=30))
    assert lines == [
        "Animals",
        "name: Ember",
        "mass: 612 g",
        "note: a long note on her",
        "  habits",
        "",
        "name: Ember",
        "mass: 612 g",
        "note: a long note on her",
        "  habits",
    ]


def test_colour_only_adds() -> None:
    latin = replace(
        TABLE,
        columns=(Column("species", "species", Kind.LATIN), *COLUMNS[1:]),
        rows=(("Tiliqua gigas", 1.0, "", ""),),
    )
    plain = "\n".join(render_table(latin, LOOK))
    coloured = "\n".join(render_table(latin, replace(LOOK, colour=True)))
    assert "\x1b" not in plain
    assert "\x1b[3mTiliqua gigas\x1b[0m" in coloured
    for code in ("\x1b[0m", "\x1b[1m", "\x1b[2m", "\x1b[3m"):
        coloured = coloured.replace(code, "")
    assert coloured == plain


def test_the_basis_of_estimates_is_said_once_below() -> None:
    cell = Estimate(8.1, 6.9, 9.4, Unit.ENERGY_RATE, Basis("rule", SOURCE, (1,)))
    other = replace(cell, basis=Basis("rule", SOURCE, (2, 3)))
    table = Table("t", (Column("need", "need", Unit.ENERGY_RATE),), ((cell,), (other,)))
    lines = render_table(table, LOOK)
    assert lines[-1] == "basis of need: rule; a made-up table [invented example]"
    assert len(lines) == 5


def test_sources_of_one_rule_are_said_together_for_all_columns_that_share_them() -> None:
    other = Source("usual sizes", Mark.FROM_MEMORY)
    cells = [Estimate(8.1, 6.9, 9.4, Unit.MASS, Basis("rule", s)) for s in (SOURCE, other)]
    columns = (Column("one", "one", Unit.MASS), Column("all", "all", Unit.MASS))
    lines = render_table(Table("t", columns, tuple((c, c) for c in cells)), LOOK)
    said = "basis of one, all: rule; a made-up table [invented example]; usual sizes [from memory]"
    assert " ".join(line.strip() for line in lines[4:]) == said


@settings(deadline=None)
@given(tables(), st.integers(20, 120))
def test_no_line_exceeds_the_width(table: Table, width: int) -> None:
    for line in render_table(table, replace(LOOK, width=width)):
        assert text_width(line) <= width


@settings(deadline=None)
@given(tables(), st.integers(20, 120))
def test_cells_never_break_a_line(table: Table, width: int) -> None:
    text = "\n".join(render_table(table, replace(LOOK, width=width)))
    assert len(text.splitlines()) == len(text.split("\n")) - text.endswith("\n")
    text.encode("utf-8")


def test_a_single_row_may_be_a_sentence_without_what_is_empty() -> None:
    one = replace(TABLE, rows=(("Ember", 612.0, None, "x1"),), prose=True)
    assert render_table(one, LOOK) == ["Animals", "Ember: mass 612 g"]
    assert len(render_table(replace(TABLE, prose=True), LOOK)) == 5  # two rows are a table


def test_the_sentence_keeps_the_basis_of_its_estimate() -> None:
    basis = Basis("a rule", SOURCE)
    mass = Estimate(612.0, 600.0, 620.0, Unit.MASS, basis)
    told = render_table(replace(TABLE, rows=(("Ember", mass, "", "x1"),), prose=True), LOOK)
    assert told[1] == "Ember: mass 612 (600–620) g" and "basis of mass: a rule" in told[2]
