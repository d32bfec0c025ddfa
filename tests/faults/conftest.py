"""A collection with something to lose, and a version of the program that is one revision ahead."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

import warmside.migrations.versions as versions
from warmside.migrations import CORE, Lineage
from warmside.testing import Keeper, new_keeper


@pytest.fixture(scope="session")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """The stocked collection, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("shelf"))
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    for days in (3, 2, 1):
        keeper.run("record", "weighed", f"EMB={400 + days}g", "--at", f"{days} days ago")
    keeper.run("file", "backup")
    return keeper


@pytest.fixture
def stocked(shelf: Keeper, tmp_path: Path) -> Keeper:
    """A keeper with an enclosure, an animal weighed on three days, and a backup of all that."""
    folder = tmp_path / "shelf"
    shutil.copytree(shelf.path.parent, folder)
    return Keeper(folder / shelf.path.name, shelf.now)


NEXT_REVISION = '''"""The animals get a size; their table is rebuilt, as older SQLite needs it."""

import sqlalchemy as sa
from alembic import op

revision = "c9999"
down_revision = "HEAD"


def upgrade():
    """A new table, a rebuilt one, an index, a trigger, and rows that are changed."""
    op.create_table("sized", sa.Column("id", sa.Integer(), primary_key=True))
    with op.batch_alter_table("animal", recreate="always") as batch:
        batch.add_column(sa.Column("size", sa.String(9), nullable=False, server_default="small"))
    op.create_index("ix_animal_size", "animal", ["size"])
    op.execute("UPDATE animal SET size = 'large' WHERE id % 2")
    op.execute("INSERT INTO sized SELECT id FROM animal WHERE size = 'large'")
    op.execute("CREATE TRIGGER sizes BEFORE UPDATE OF size ON animal BEGIN "
        "SELECT RAISE(ABORT, 'sizes are for ever'); END")
'''


@pytest.fixture
def later_core(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Lineage:
    """The core's lineage in a later version; a package that child processes can import too."""
    package = f"later_core_{abs(hash(tmp_path))}"
    folder = tmp_path / "site" / package
    ignored = shutil.ignore_patterns("__pycache__")
    shutil.copytree(Path(str(versions.__file__)).parent, folder, ignore=ignored)
    text = NEXT_REVISION.replace("HEAD", CORE.head)
    (folder / "c9999_size.py").write_text(text, encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path / "site")
    return Lineage("core", package, "c9999")
