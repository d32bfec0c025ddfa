"""A list that was filled in by hand: rows without a mark hold no event, however it was saved."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper

ROWS = "{0}{1}watered{1}LOW{1}{2}\n{0}{1}watered{1}HIG{1}{3}\n"


@pytest.fixture
def two(keeper: Keeper) -> Keeper:
    keeper.run("enclosure", "add", "Low")
    keeper.run("enclosure", "add", "High")
    return keeper


def written(folder: Path, day: str, separator: str, *marks: str) -> Path:
    path = folder / "list.csv"
    head = separator.join(("date", "kind", "enclosure", "done"))
    path.write_text(f"{head}\n{ROWS.format(day, separator, *marks)}")
    return path


@pytest.mark.parametrize(("day", "separator"), [("2026-03-01", ","), ("25.02.2026", ";")])
@pytest.mark.parametrize("mark", ["x", "Yes", "✓", "1"])
def test_only_marked_rows_are_events(
    two: Keeper, tmp_path: Path, day: str, separator: str, mark: str
) -> None:
    path = written(tmp_path, day, separator, mark, "")
    two.run("import", path, "--yes")
    with two.book() as book:
        assert [e.enclosure_id for e in book.events("watered")] == [1]


@pytest.mark.parametrize(("day", "separator"), [("2026-03-01", ","), ("25.02.2026", ";")])
def test_a_word_that_is_neither_yes_nor_no_is_told(
    two: Keeper, tmp_path: Path, day: str, separator: str
) -> None:
    told = two.run("import", written(tmp_path, day, separator, "maybe", "x"), ok=False)
    assert "done is yes, no or blank, not maybe" in told.complaint(2)


def test_a_list_without_a_mark_says_so_or_holds_nothing(two: Keeper, tmp_path: Path) -> None:
    told = two.run("import", written(tmp_path, "25.02.2026", ";", "", "no"), ok=False)
    assert "no row is marked in the column 'done'" in told.complaint(2)
    said = two.run("import", written(tmp_path, "2026-03-01", ",", "", "no")).stdout
    assert "left out: 2 rows" in said
