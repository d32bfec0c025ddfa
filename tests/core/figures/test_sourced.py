"""Reference rows of a plugin: read whole, each with where it comes from."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from warmside.core.figures.sourced import sourced_rows
from warmside.core.values.basis import Mark, Source

GOOD = """
[[row]]
code = "a"
span = [1, 2.5]
source = "Author 2001, table 3"
mark = "published"
size_source = "usual sizes"
size_mark = "common practice, no source"

[[row]]
code = "b"
source = "usual"
mark = "common practice, no source"

[[other]]
source = "s"
mark = "secondary"
"""


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """A package that ships no data yet."""
    name = f"shipping_{tmp_path.name.replace('-', '_')}"
    (tmp_path / name / "data").mkdir(parents=True)
    (tmp_path / name / "__init__.py").touch()
    monkeypatch.syspath_prepend(str(tmp_path))
    yield name
    sys.modules.pop(name, None)


def ship(tmp_path: Path, package: str, text: str) -> None:
    (tmp_path / package / "data" / "things.toml").write_text(text, encoding="utf-8")


def test_rows_come_in_the_files_order_with_their_source(tmp_path: Path, package: str) -> None:
    ship(tmp_path, package, GOOD)
    first, second = sourced_rows(package, "things")
    assert (first["code"], second["code"]) == ("a", "b")
    assert first.source == Source("Author 2001, table 3", Mark.PUBLISHED)
    assert first.span("span") == (1.0, 2.5)
    (other,) = sourced_rows(package, "things", "other")
    assert other.source.mark is Mark.SECONDARY


def test_a_part_may_come_from_elsewhere(tmp_path: Path, package: str) -> None:
    ship(tmp_path, package, GOOD)
    first, second = sourced_rows(package, "things")
    assert first.source_of("size") == Source("usual sizes", Mark.COMMON_PRACTICE)
    assert second.source_of("size") == second.source


@pytest.mark.parametrize(
    ("old", "new"),
    [('mark = "published"', 'mark = "hearsay"'), ('size_mark = "common', 'size_mark = "uncommon')],
)
def test_a_mark_that_is_none_fails(tmp_path: Path, package: str, old: str, new: str) -> None:
    ship(tmp_path, package, GOOD.replace(old, new, 1))
    with pytest.raises(ValueError, match="is not a valid Mark"):
        sourced_rows(package, "things")


def test_a_row_without_a_source_fails(tmp_path: Path, package: str) -> None:
    ship(tmp_path, package, GOOD.replace('source = "usual"\n', ""))
    with pytest.raises(KeyError, match="source"):
        sourced_rows(package, "things")
