"""References read from CSV, and every way in which a file can be wrong."""

from __future__ import annotations

from importlib.resources import files

import pytest

from warmside.api import BadInput, Mark, Source
from warmside.plugins.weight.lms.lms import Lms, mass_at, score, z_of_centile
from warmside.plugins.weight.lms.reference_table import parse_reference

GOOD = """\ufeff# species: Inventus draco
# source: made up, with a comma
# licence: CC0
# mark: invented example
sex,age_days,l,m,s
male,0,0.1,30,0.10
male,100,-0.2,130,0.12

female,0,0.1,32,0.10
female,100,-0.2,150,0.12
"""


def test_rows_and_origin_are_read() -> None:
    """Head lines, a byte-order mark and an empty line are understood."""
    found = parse_reference(GOOD)
    assert found.species == "Inventus draco"
    assert found.source == Source("made up, with a comma", Mark.INVENTED)
    assert found.curve("female").at(100) == Lms(-0.2, 150.0, 0.12)
    found.check_origin()


def test_a_score_without_an_animal() -> None:
    """What the command line asks: sex, age and mass against a file (a row of WHO 2006)."""
    text = "sex,age_days,l,m,s\nmale,269,0.0933,8856.7,0.1088\n"
    found = score(6300, parse_reference(text).curve("male").at(269))
    assert found.tail_rule
    assert found.z == pytest.approx(-3.08, abs=0.005)


def test_the_nearest_curve_is_chosen() -> None:
    """Own sex and line first, then any."""
    text = "sex,line,age_days,l,m,s\nany,,0,0,1,0.1\nmale,,0,0,2,0.1\nany,dwarf,0,0,3,0.1\n"
    found = parse_reference(text)
    wanted = {("male", ""): 2, ("female", ""): 1, ("male", "dwarf"): 3, ("unknown", "giant"): 1}
    for (sex, line), m in wanted.items():
        assert found.curve(sex, line).m_g == (m,)


def test_another_species_is_refused() -> None:
    """When asked for, when given at import, and when rows mix."""
    found = parse_reference(GOOD)
    assert found.curve("male", species="inventus DRACO")
    with pytest.raises(BadInput, match="is for Inventus draco, not Alius alius"):
        found.curve("male", species="Alius alius")
    with pytest.raises(BadInput, match="not Alius alius"):
        parse_reference(GOOD, species="Alius alius")
    mixed = "species,sex,age_days,l,m,s\nA b,any,0,0,1,0.1\nC d,any,1,0,1,0.1\n"
    with pytest.raises(BadInput, match="line 3: a row for C d in a reference for A b"):
        parse_reference(mixed)


def test_a_sex_without_a_curve_is_named() -> None:
    """With what there is."""
    found = parse_reference("sex,age_days,l,m,s\nmale,0,0,1,0.1\n")
    with pytest.raises(BadInput, match="no curve for sex 'female', only male"):
        found.curve("female")
    with pytest.raises(BadInput, match="sex 'hen' is not known"):
        found.curve("hen")


def test_a_kept_reference_needs_source_and_licence() -> None:
    """Either in the file or given beside it."""
    bare = "sex,age_days,l,m,s\nmale,0,0,1,0.1\n"
    with pytest.raises(BadInput, match="names no source"):
        parse_reference(bare).check_origin()
    with pytest.raises(BadInput, match="names no licence"):
        parse_reference(bare, source="own weighings").check_origin()
    parse_reference(bare, source="own weighings", licence="own").check_origin()


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("male,10,0.1,30,0", "line 3: s of 0 is not above 0"),
        ("male,10,0.1,0,0.1", "line 3: m of 0"),
        ("male,5,0.1,30,0.1", "line 3: age 5 days stands there twice"),
        ("male,4,0.1,30,0.1", "line 3: age 4 days comes after 5; sort"),
        ("hen,10,0.1,30,0.1", "line 3: sex 'hen' is not known"),
        ("male,-1,0.1,30,0.1", "line 3: age of -1 days is before hatching"),
        ("male,ten,0.1,30,0.1", "line 3: age_days 'ten' is not a number"),
        ("male,10,nan,30,0.1", "line 3: l 'nan' is not a number"),
        ("male,10,0.1,30", "line 3: 4 cells under 5 columns"),
        ('male,10,0.1,30,"0.1', "line 3: "),
    ],
)
def test_a_bad_row_is_named_by_its_line(row: str, told: str) -> None:
    """Each with what is wrong with the value."""
    with pytest.raises(BadInput, match=told):
        parse_reference(f"sex,age_days,l,m,s\nmale,5,0.1,30,0.1\n{row}\n")


@pytest.mark.parametrize(
    ("header", "told"),
    [
        ("sex;age_days;l;m;s", "commas"),
        ("sex,l,m,s", "sex and age_days are needed"),
        ("sex,age_days,l,m", "l, m and s, or at least three centile columns"),
        ("sex,age_days,p3,p50", "at least three"),
        ("sex,age_days,l,m,s,p3,p50,p97", "keep one kind"),
        ("sex,age_days,l,m,s,colour", "'colour' is not known"),
        ("sex,age_days,l,m,s,s", "twice"),
        ("sex,age_days,p0,p50,p97", "'p0' is not known"),
    ],
)
def test_a_bad_header_is_explained(header: str, told: str) -> None:
    """Before any row is looked at."""
    with pytest.raises(BadInput, match=told):
        parse_reference(f"{header}\nmale,5,1,2,3\n")


@pytest.mark.parametrize("text", ["", "\n\n", "# source: x\n", "sex,age_days,l,m,s\n"])
def test_an_empty_file_is_no_reference(text: str) -> None:
    """No rows."""
    with pytest.raises(BadInput, match="no rows"):
        parse_reference(text)


def test_an_unknown_mark_is_refused() -> None:
    """With the known ones."""
    with pytest.raises(BadInput, match="mark 'sure' is not known; use one of: published"):
        parse_reference(GOOD.replace("invented example", "sure"))


def test_centile_columns_become_lms() -> None:
    """The centiles come out again."""
    text = "sex,age_days,p3,p10,p50,p90,p97\nany,0,22.1,24.6,30,37.4,41.9\n"
    lms = parse_reference(text).curve("any").at(0)
    for centile, mass in zip((3, 10, 50, 90, 97), (22.1, 24.6, 30, 37.4, 41.9), strict=True):
        assert mass_at(z_of_centile(centile), lms) == pytest.approx(mass, rel=0.01)


def test_the_shipped_example_is_marked_invented() -> None:
    """It reads, covers ten years, and says that no real animal stands behind it."""
    path = files("warmside.plugins.weight") / "data" / "example_reference.csv"
    found = parse_reference(path.read_text("utf-8"))
    assert found.source.mark is Mark.INVENTED
    assert "no real animal" in found.source.text
    assert {sex for sex, _ in found.curves} == {"male", "female"}
    assert all(c.covers(0) and c.covers(3650) for c in found.curves.values())
