"""Pooled weighings read from CSV."""

from __future__ import annotations

import pytest

from warmside.api import BadInput
from warmside.plugins.weight.lms.pooled_file import PooledWeighing, parse_pooled


def test_rows_in_any_column_order() -> None:
    """Comment lines are left out."""
    text = "\ufeffmass_g,animal,sex,age_days\n# from a club\n31.5,A 1,Male,4\n\n40,B,unknown,20.5\n"
    assert parse_pooled(text) == (
        PooledWeighing("A 1", "male", 4.0, 31.5),
        PooledWeighing("B", "unknown", 20.5, 40.0),
    )


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "line 1: columns are missing"),
        ("animal,sex,age,mass_g\n", "line 1: columns are animal, sex, age, mass_g; give animal"),
        ("animal,sex,age_days,mass_g\nA,male,4\n", "line 2: 3 cells"),
        ("animal,sex,age_days,mass_g\n,male,4,30\n", "line 2: no animal"),
        ("animal,sex,age_days,mass_g\nA,hen,4,30\n", "line 2: sex 'hen'"),
        ("animal,sex,age_days,mass_g\nA,male,-4,30\n", "line 2: age of -4 days is before"),
        ("animal,sex,age_days,mass_g\nA,male,4,0\n", "line 2: mass of 0 g"),
        ("animal,sex,age_days,mass_g\nA,male,4,nan\n", "line 2: mass_g 'nan' is not a number"),
        ('animal,sex,age_days,mass_g\nA,male,4,"3,5"\n', "line 2: mass_g '3,5' is not a number"),
    ],
)
def test_what_is_wrong_is_named_by_its_line(text: str, told: str) -> None:
    """For the keeper who has to mend the file."""
    with pytest.raises(BadInput, match=told):
        parse_pooled(text)
