"""Tables for a phone: prose goes under its row until the others have room."""

from __future__ import annotations

from warmside.core.answers.parts import Column, Kind, Table
from warmside.core.values.units import Unit
from warmside.page.pieces.narrow import narrow

WHO, SPECIES, MASS = (
    Column("who", "who"),
    Column("of", "of", Kind.LATIN),
    Column("m", "m", Unit.MASS),
)
WHY, MORE = Column("why", "why"), Column("more", "more", text=False)


def below(table: Table) -> list[str]:
    return [c.key for c in narrow(table).columns if c.below]


def row(why: str) -> tuple[str | float, ...]:
    return ("Tuppence (TUP)", "Eryx colubrinus", 431.0, 12.5, why, "all that a program reads of it")


def test_the_last_prose_goes_below_first_and_nothing_that_fits() -> None:
    wide = (WHO, SPECIES, MASS, Column("n", "n", Unit.MASS), WHY, MORE)
    assert below(Table("t", wide, (row("as it was said by a vet"),))) == ["why"]
    assert below(Table("t", wide[:3], (row("")[:3],))) == []


def test_numbers_and_whom_it_is_about_stay_beside_each_other() -> None:
    many = (WHO, *(Column(f"n{n}", f"n{n}", Unit.MASS) for n in range(8)))
    assert below(Table("t", many, (("Tuppence (TUP)", *[1.0] * 8),))) == []
    prose = (WHO, WHY, *many[1:])
    assert below(Table("t", prose, (("Tuppence (TUP)", "a long reason", *[1.0] * 8),))) == ["why"]


def test_nothing_is_lost_of_a_table() -> None:
    table = Table("t", (WHO, WHY), ())
    assert narrow(table) is table
    full = Table(
        "t", (WHO, *[Column(f"w{n}", "w") for n in range(9)]), (("x", *["long words here"] * 9),)
    )
    assert narrow(full).rows == full.rows and len(narrow(full).columns) == 10
