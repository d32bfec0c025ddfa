"""Each check of `check_plugin` bites: a scaffolded plugin, with one thing broken in it."""

from __future__ import annotations

import importlib
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.doing.scaffolding import Scaffolding, scaffold
from warmside.core.plugins.manifest import Manifest
from warmside.testing import check_plugin, new_keeper


def made(name: str, folder: Path, monkeypatch: pytest.MonkeyPatch, *changed: str) -> Manifest:
    """A scaffolded plugin, with a part of one of its files changed: file, old, new."""
    scaffold(Scaffolding(name, folder / "made"))
    if changed:
        place, old, new = (part.replace("NAME", name) for part in changed)
        file = folder / "made" / "src" / f"warmside_{name}" / place
        text = file.read_text("utf-8")
        assert old in text
        file.write_text(text.replace(old, new), "utf-8")
    monkeypatch.syspath_prepend(str(folder / "made" / "src"))
    found = importlib.import_module(f"warmside_{name}").MANIFEST
    assert isinstance(found, Manifest)
    return found


def check(manifest: Manifest, folder: Path) -> None:
    """Check with the command that writes."""
    (folder / "tried").mkdir()
    check_plugin(manifest, folder / "tried", typed=[(manifest.name, "plan", "SHE", "--every", "3")])


@pytest.mark.parametrize(
    ("name", "file", "old", "new", "told"),
    [
        (
            "alder1",
            "__init__.py",
            " [common practice, no source]",
            "",
            "manifest: the source of late_days says none of",
        ),
        (
            "alder2",
            "__init__.py",
            '(("NAME.forgotten"',
            '(("forgotten"',
            "manifest: the finding 'forgotten' is named alder2.<word>",
        ),
        (
            "alder3",
            "__init__.py",
            'head="NAME0001"',
            'head="NAME0002"',
            "revisions: the manifest's head is alder30002, the revisions end in ['alder30001']",
        ),
        (
            "alder4",
            "migrations/NAME0001_plan.py",
            "days >= 1",
            "days >= 0",
            "revisions: alder4_plan is not as declared: checks",
        ),
        (
            "alder5",
            "reading.py",
            "from warmside.api import Book",
            "from warmside.core.record.book import Book",
            "imports: reading.py imports warmside.core.record.book.Book; all is in warmside.api",
        ),
        (
            "alder6",
            "hooks.py",
            "from datetime import date",
            "from datetime import date\n\nimport sqlalchemy as slow",
            "imports: warmside_alder6.hooks imports sqlalchemy; import it late",
        ),
        (
            "alder7",
            "hooks.py",
            '"""What is due by the keeper\'s plans."""',
            "assert book.animals[1]",
            "hooks: on an empty collection: plugin alder7 failed in warmside_tasks: KeyError: 1",
        ),
        (
            "alder8",
            "commands/plans.py",
            "        key =",
            """        book.rows("UPDATE enclosure SET note = 'x' RETURNING id")\n        key =""",
            "undo: after 'alder8 plan SHE --every 3' and undo, these differ: enclosure",
        ),
        (
            "alder9",
            "commands/plans.py",
            "writer.insert(plan, **key, days=days, since=book.today.isoformat())",
            "pass",
            "undo: 'alder9 plan SHE --every 3' writes nothing",
        ),
        (
            "alder10",
            "migrations/NAME0001_plan.py",
            "        sa.PrimaryKeyConstraint",
            """        sa.Column("secret", sa.LargeBinary(), server_default=sa.text("x'00'")),\n"""
            "        sa.PrimaryKeyConstraint",
            "revisions: tables and revisions differ",
        ),
        (
            "alder11",
            "kinds.py",
            "from __future__",
            "import nothing_there\nfrom __future__",
            "import",
        ),
        (
            "alder12",
            "hooks.py",
            "from datetime import date",
            "from datetime import date\n\ndef warmside_answer():\n    return ()\n",
            "manifest: warmside_answer is never asked, as answers names no quantity",
        ),
        (
            "alder13",
            "__init__.py",
            'reads=("list",)',
            'reads=("list", "plan", "show")',
            "manifest: alder13 reads 'show', which is none of its commands",
        ),
        (
            "alder14",
            "__init__.py",
            'reads=("list",)',
            'reads=("plan",)',
            "manifest: alder14 plan writes and stands in its reads",
        ),
        (
            "alder15",
            "kinds.py",
            "how: str = fields.words(",
            'took_min: float | None = fields.measure(__import__("warmside.api").api.Unit.MINUTES, '
            '"how long", optional=True)\n    how: str = fields.words(',
            "kinds: alder15.done took_min ends in its unit: took_minutes",
        ),
    ],
)
def test_what_is_wrong_is_named(
    name: str,
    file: str,
    old: str,
    new: str,
    told: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    manifest = made(name, tmp_path, monkeypatch, file, old, new)
    with pytest.raises(AssertionError) as problems:
        check(manifest, tmp_path)
    assert told in str(problems.value)


def test_a_plugin_that_takes_the_rest_along_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    manifest = made("alder20", tmp_path, monkeypatch)
    monkeypatch.setattr("warmside.core.plugins.host.FAULTS", ())  # as if nothing were guarded
    with pytest.raises(AssertionError, match="where warmside_tasks raises, the rest does not go"):
        check(manifest, tmp_path)


def test_an_archive_that_loses_rows_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from warmside.core.file.archives import writing as archive

    manifest, lines = made("alder21", tmp_path, monkeypatch), archive._lines
    losing = lambda c, table: [] if table == "alder21_plan" else lines(c, table)  # noqa: E731
    monkeypatch.setattr(archive, "_lines", losing)
    with pytest.raises(AssertionError, match="after export and import, these differ: alder21_plan"):
        check(manifest, tmp_path)


def test_what_forgetting_leaves_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    manifest = made("alder22", tmp_path, monkeypatch)
    monkeypatch.setattr("warmside.core.doing.forgetting._tables", lambda _: [])
    with pytest.raises(AssertionError, match="forgetting: the table alder22_plan is left"):
        check(manifest, tmp_path)


def test_a_series_without_guards_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Dropped from the file that the check has migrated, as if the revision had made none."""
    from warmside.testing import by_reading
    from warmside.testing.throw_away import offered
    from warmside.testing.tried import Tried

    folder = Path(__file__).parents[2] / "examples" / "warmside-climatelog" / "src"
    monkeypatch.syspath_prepend(str(folder))
    manifest = importlib.import_module("warmside_climatelog").MANIFEST
    with offered(manifest):
        tried = Tried(manifest, tmp_path, (), ())
        assert list(by_reading.tables(tried)) == []
        with closing(sqlite3.connect(tried.empty.path)) as file, file:
            file.execute("DROP TRIGGER climatelog_reading_is_append_only")
        (tmp_path / "declared.warmside").unlink()
        (told,) = by_reading.tables(tried)
    assert "climatelog_reading is a series without guards" in told


def test_a_plugin_of_an_older_level_is_told_what_to_change(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    manifest = made("alder23", tmp_path, monkeypatch)._replace(hook_level=(1, 0))
    with pytest.raises(AssertionError, match=r"needs hook level 1\.0"):
        check(manifest, tmp_path)


def test_no_test_of_this_file_leaves_a_plugin_behind(tmp_path: Path) -> None:
    refused = new_keeper(tmp_path).run("plugin", "enable", "alder20", ok=False)
    assert refused.code == 3
