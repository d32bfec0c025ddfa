"""The rooms of the house: who may import whom, and what a start must not import."""

from __future__ import annotations

import ast
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from sources import imports, read, sources
from warmside.core.plugins.discovery import BUILT_IN
from warmside.testing import Keeper, new_keeper

ROOT = Path(__file__).parents[1]
CORE_ROOMS = (  # each may import those before it, and nothing else of ours
    "values",
    "answers",
    "kinds",
    "figures",
    "pictures",
    "record",
    "file",
    "plugins",
    "asking",
    "session",
    "csv",
    "doing",
)
PAGE_ROOMS = ("phones", "visits", "pieces", "screens", "files", "posts")  # as those of the core
ROOMS = {
    "core/warmside/faces": ("warmside.faces", "warmside.core"),
    "migrations/warmside/migrations": ("warmside.migrations", "warmside.core"),
    "cli/warmside/page": ("warmside.page", "warmside.core", "warmside.faces"),
    "cli/warmside/cli": (
        "warmside.cli",
        "warmside.page",
        "warmside.core",
        "warmside.faces",
        "warmside.migrations",
    ),
}
PARTS = {  # of a plugin's folder; besides these, folders of pure computation
    "__init__",
    "commands",
    "data",
    "findings",
    "hooks",
    "kinds",
    "migrations",
    "reading",
    "settings",
    "tables",
    "tasks",
    "telling",
}
PLUGINS = (  # the folders of those that ship, and of the example
    *(ROOT / f"plugins/warmside/plugins/{name}" for name in sorted(BUILT_IN)),
    ROOT / "examples/warmside-climatelog/src/warmside_climatelog",
)
HEAVY = {
    "sqlalchemy",
    "alembic",
    "reportlab",
    "numpy",
    "scipy",
    "icalendar",
    "rich",
    "werkzeug",
    "waitress",
    "PIL",
    "pillow_heif",
}


def ours(path: Path) -> set[str]:
    """What a file imports of ours when it runs."""
    return {n for n, typing in imports(path) if n.split(".")[0] == "warmside" and not typing}


def within(name: str, rooms: tuple[str, ...]) -> bool:
    return any(name == room or name.startswith(f"{room}.") for room in rooms)


@pytest.mark.parametrize("room", ROOMS)
def test_a_room_imports_only_what_it_may(room: str) -> None:
    files = sources(room)
    assert files
    for path in files:
        wrong = {n for n in ours(path) if not within(n, ROOMS[room])}
        assert not wrong, f"{path.relative_to(ROOT)} imports {sorted(wrong)}"


@pytest.mark.parametrize("room", CORE_ROOMS)
def test_a_room_of_the_core_imports_only_the_rooms_before_it(room: str) -> None:
    before = CORE_ROOMS[: CORE_ROOMS.index(room) + 1]
    allowed = (*(f"warmside.core.{r}" for r in before), "warmside.core.__version__")
    files = sources(f"core/warmside/core/{room}")
    assert files
    for path in files:
        wrong = {n for n in ours(path) if not within(n, allowed)}
        assert not wrong, f"{path.relative_to(ROOT)} imports {sorted(wrong)}"


@pytest.mark.parametrize("room", PAGE_ROOMS)
def test_a_room_of_the_page_imports_only_the_rooms_before_it(room: str) -> None:
    before = PAGE_ROOMS[: PAGE_ROOMS.index(room) + 1]
    allowed = (*(f"warmside.page.{r}" for r in before), "warmside.core", "warmside.faces")
    files = sources(f"cli/warmside/page/{room}")
    assert files
    for path in files:
        wrong = {n for n in ours(path) if not within(n, allowed)}
        assert not wrong, f"{path.relative_to(ROOT)} imports {sorted(wrong)}"


def test_every_room_of_the_page_is_in_the_list() -> None:
    rooms = {p.parent.name for p in (ROOT / "cli/warmside/page").glob("*/__init__.py")}
    assert rooms == set(PAGE_ROOMS)


def test_no_value_of_ours_is_a_dataclass_which_each_start_would_build_anew() -> None:
    for path in (p for part in ("core", "plugins", "cli", "migrations") for p in sources(part)):
        wrong = any(name.startswith("dataclasses.dataclass") for name, _ in imports(path))
        assert not wrong, f"{path.relative_to(ROOT)}: declare a msgspec.Struct"


def test_every_room_of_the_core_is_in_the_list_and_says_what_lives_there() -> None:
    rooms = {p.parent.name for p in (ROOT / "core/warmside/core").glob("*/__init__.py")}
    assert rooms == set(CORE_ROOMS)
    for room in CORE_ROOMS:
        text = (ROOT / f"core/warmside/core/{room}/__init__.py").read_text(encoding="utf-8")
        assert len((ast.get_docstring(ast.parse(text)) or "").splitlines()) >= 3, room


@pytest.mark.parametrize("name", sorted(BUILT_IN))
def test_plugins_import_the_api_and_themselves_and_nothing_else_of_ours(name: str) -> None:
    files = sources(f"plugins/warmside/plugins/{name}")
    assert files
    for path in files:
        allowed = ("warmside.api", f"warmside.plugins.{name}")
        names = {n for n, _ in imports(path) if n.split(".")[0] == "warmside"}
        wrong = {n for n in names if not within(n, allowed)}
        assert not wrong, f"{path.relative_to(ROOT)} imports {sorted(wrong)}"


@pytest.mark.parametrize("folder", PLUGINS, ids=lambda p: str(p.name))
def test_plugins_are_of_one_shape(folder: Path) -> None:
    """The same parts under the same names; what else there is computes and knows no book."""
    name = folder.name
    entries = {p.stem for p in folder.iterdir() if not p.name.startswith(("__pycache__", "py."))}
    assert {"__init__", "hooks", "commands"} <= entries
    assert (folder / "commands").is_dir()
    for subject in sorted(entries - PARTS):
        assert (folder / subject).is_dir(), f"{name}/{subject}.py is no part that plugins have"
        for path in sources(str((folder / subject).relative_to(ROOT))):
            book = {"warmside.api.Book", "warmside.api.Ask", "warmside.api.StepWriter"}
            reads = {n for n, _ in imports(path)} & book
            assert not reads, f"{path.relative_to(ROOT)} computes and reads the book"


@pytest.mark.parametrize("folder", PLUGINS, ids=lambda p: str(p.name))
def test_hooks_are_thin(folder: Path) -> None:
    tree = ast.parse((folder / "hooks.py").read_text("utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            body = [n for n in node.body if not isinstance(n, ast.Expr | ast.ImportFrom)]
            assert len(body) <= 6, f"{folder.name}: {node.name} computes"


def test_no_function_is_longer_than_a_screen() -> None:
    for folder in ("core", "cli", "plugins", "migrations"):
        for path in (p for p in sources(folder) if "versions" not in p.parts):
            if "commands" not in path.parts:
                for name, length in read(path).functions:
                    assert length <= 40, f"{path.relative_to(ROOT)}: {name} has {length} lines"


def test_only_the_runner_and_revisions_import_alembic() -> None:
    for folder in ("core", "cli", "plugins", "migrations"):
        for path in sources(folder):
            if any(n.split(".")[0] == "alembic" for n, _ in imports(path)):
                assert (
                    path.name in ("runner.py", "env.py")
                    or "0001" in path.name
                    or (path.parent.name in ("migrations", "versions"))
                ), path


def test_core_and_plugins_neither_print_nor_read_the_clock() -> None:
    for folder in ("core", "plugins", "migrations"):
        for path in sources(folder):
            for said, line in read(path).calls:
                assert said != "print", f"{path}:{line} prints"
                clock = ("datetime.now", "date.today", "time.time", "datetime.utcnow")
                assert not said.endswith(clock), f"{path}:{line} reads the clock"


def test_faces_are_imported_by_cli_only_and_print_nothing() -> None:
    for path in sources("core/warmside/faces"):
        assert "print" not in {said for said, _ in read(path).calls}, path


def test_there_is_no_package_file_that_would_close_the_namespace() -> None:
    for room in ("core", "cli", "plugins", "migrations"):
        assert not (ROOT / room / "warmside" / "__init__.py").exists()


def test_examples_use_only_the_public_part() -> None:
    for path in sources("examples"):
        names = {n for n, _ in imports(path) if n.split(".")[0] == "warmside"}
        wrong = {n for n in names if not within(n, ("warmside.api", "warmside.testing"))}
        assert not wrong, f"{path.relative_to(ROOT)} imports {sorted(wrong)}"


@pytest.mark.parametrize("name", sorted(BUILT_IN))
def test_a_manifest_is_cheap_to_import(name: str) -> None:
    loaded = modules_after(f"import warmside.plugins.{name}")
    allowed = ("warmside.core.plugins.manifest", "warmside.core.values.units")
    allowed += ("warmside.core.values.errors", "warmside.core.values.measures")
    settings = f"warmside.plugins.{name}.settings"
    more = {m for m in loaded if m.startswith("warmside.core.") and not within(m, allowed)}
    assert more <= {"warmside.core.plugins", "warmside.core.values"}
    assert {m for m in loaded if m.startswith(f"warmside.plugins.{name}.")} <= {settings}
    assert not {m.split(".")[0] for m in loaded} & {*HEAVY, "pluggy", "typer", "sqlite3"}


@pytest.mark.parametrize("name", sorted(BUILT_IN))
def test_hooks_import_nothing_that_would_slow_the_round(name: str) -> None:
    """Whatever the hooks import at their top, all the way down."""
    loaded = modules_after(f"import warmside.plugins.{name}.hooks")
    slow = HEAVY | {"typer"}
    assert not {m.split(".")[0] for m in loaded} & slow


# what a start imports


def modules_after(code: str, *, keeper: Keeper | None = None) -> set[str]:
    """The modules that a fresh process has imported after running the code."""
    report = "import json, sys; print(json.dumps(sorted(sys.modules)), file=sys.stderr)"
    rooms = [str(ROOT / r) for r in ("core", "cli", "plugins", "migrations")]
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(rooms)}
    if keeper is not None:
        environment |= keeper.environment
    done = subprocess.run(
        [sys.executable, "-c", f"{code}\n{report}"],
        capture_output=True,
        text=True,
        env=environment,
        check=True,
    )
    return set(json.loads(done.stderr.splitlines()[-1]))


@pytest.fixture(scope="module")
def everything(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """A collection with every built-in plugin enabled, so that stubs of all are made."""
    return new_keeper(tmp_path_factory.mktemp("all"), plugins=sorted(BUILT_IN))


def run(*arguments: str) -> str:
    return f"from warmside.cli.entry import main\nmain({list(arguments)!r})"


def test_version_imports_next_to_nothing(everything: Keeper) -> None:
    loaded = modules_after(run("--version"), keeper=everything)
    mine = {m for m in loaded if m.startswith("warmside")}
    assert mine == {"warmside", "warmside.cli", "warmside.cli.entry", "warmside.core"}
    assert "typer" not in loaded


@pytest.mark.parametrize("arguments", [("--help",), ("plugin", "--help"), ("animal", "--help")])
def test_help_imports_nothing_heavy_and_no_plugins_body(
    everything: Keeper, arguments: tuple[str, ...]
) -> None:
    loaded = modules_after(run(*arguments), keeper=everything)
    allowed = set() if arguments == ("--help",) else {"sqlalchemy"}  # the command's own body
    assert not {m.split(".")[0] for m in loaded} & HEAVY - allowed
    bodies = {m for m in loaded if m.startswith("warmside.plugins.") and m.count(".") > 2}
    assert {m.rpartition(".")[2] for m in bodies} <= {"settings"}  # a part of the manifest


def test_reading_commands_import_neither_migrations_runner_nor_faces_of_paper(
    everything: Keeper,
) -> None:
    loaded = modules_after(run("today"), keeper=everything)
    assert {m.split(".")[0] for m in loaded} & HEAVY == set()
    assert "warmside.migrations.runner" not in loaded
    figures = {f"warmside.core.answers.{m}" for m in ("charts", "drawings", "timelines")}
    assert not loaded & figures, "the round shows none"
