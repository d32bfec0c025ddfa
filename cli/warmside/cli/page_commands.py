"""The answering commands, for the page: forms from Typer, run where nothing writes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from warmside.cli.completing import TABLES
from warmside.cli.lazy import Stub, leaves
from warmside.core.answers.parts import Answer
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, Refused, WarmsideError
from warmside.page.visits.asked import Asked, Blank

NO_BLANKS = ("as_json", "save", "help", "confirm", "yes", "overwrite", "replace", "replace_saved")
WRITES = "this writes, and the page only shows; at the desk it is: warmside"
AT_THE_DESK = re.compile(
    r"[;:,]? *(?:save it with )?--save (?:[^.]|\.\w)*"
)  # a phone has a button for it
OF_THE_CORE = {
    "sheet": ("vet", "sitter", "owner", "emergency"),
    "animal": ("list", "show"),
    "enclosure": ("list",),
    "clutch": ("list", "show"),
    "species": ("list",),
    "picture": ("list", "strip"),
}
"""What only answers, as plugins declare it of theirs, and has no screen of its own."""


class PageCommands:
    """The commands of one collection, those of the plugins at work among them."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def all(self, session: Session) -> Sequence[Asked]:
        """Those that a page can offer: of the core, then those of the plugins at work."""
        root, context = self._root()
        with context:
            stubs = [root.get_command(context, n) for n in root.list_commands(context)]
            found = {s.name: s for s in stubs if isinstance(s, Stub)}
            core = [found[name] for name in OF_THE_CORE]
            plugins = [s for s in found.values() if s.rich_help_panel == "Plugins"]
            return [asked for stub in (*core, *plugins) for asked in _asked(stub)]

    def answer(self, command: Asked, given: dict[str, str], session: Session) -> Answer:
        """What the command answers; Refused for one that would write."""
        root, context = self._root()
        words = command.words.split()
        with context:
            context.obj = OnlyReading(session, command.words)
            return _run(root, context, words, given)

    def paper(self, command: Asked, given: dict[str, str], session: Session) -> bytes:
        """The PDF that a command writes; it may note in the session that it was printed."""
        root, context = self._root()
        with context, TemporaryDirectory() as folder:
            context.obj = session
            target = Path(folder) / "paper.pdf"
            _run(root, context, command.words.split(), given | {command.target: str(target)})
            return target.read_bytes()

    def _root(self) -> tuple[Any, Any]:

        from warmside.cli.app import app
        from warmside.cli.lazy import root_of

        root: Any = root_of(app)
        context = root.make_context("warmside", ["--collection", str(self._path), "today"])
        return root, context


class OnlyReading(Session):
    """A session in which no step can begin."""

    def __init__(self, of: Session, words: str) -> None:
        super().__init__(of.path, of.now, lambda _: of.open())
        self._words = words

    def step(self, words: str, *, confirmed: bool = False) -> Any:
        """Refuse to write."""
        raise Refused(f"{WRITES} {self._words}")


def _run(root: Any, context: Any, words: list[str], given: dict[str, str]) -> Answer:
    command, parent = root.get_command(context, words[0]).load(), context
    for word in words[1:]:
        parent = parent.__class__(command, parent=parent, info_name=word)
        command = command.get_command(parent, word)
    try:
        with command.make_context(words[-1], _typed(command, given), parent=parent) as leaf:
            answer = command.invoke(leaf)
    except WarmsideError:
        raise
    except Exception as error:  # Typer's own, of a value that it cannot read
        message = getattr(error, "format_message", None)
        if message is None:
            raise
        raise BadInput(message().rstrip(".").lower()) from error
    if not isinstance(answer, Answer):
        raise Refused(f"it answers nothing that a page can show; at the desk: {' '.join(words)}")
    return answer


def _typed(command: Any, given: dict[str, str]) -> list[str]:
    """The command line that was filled in: options, then `--`, then arguments."""
    options: list[str] = []
    arguments: list[str] = []
    for parameter in command.params:
        value = given.get(parameter.name or "", "")
        if not value:
            continue
        if parameter.param_type_name == "argument":
            arguments += value.split() if parameter.nargs != 1 else [value]
        elif getattr(parameter, "is_flag", False):
            options.append(parameter.opts[0])
        else:
            lines = value.splitlines() if parameter.multiple else [value]
            options += [f"{parameter.opts[0]}={x.strip()}" for x in lines if x.strip()]
    return [*options, "--", *arguments]


def _asked(stub: Stub) -> Iterator[Asked]:
    """The commands below a stub, each with its blanks: that only answer, or that write one PDF."""
    reads = OF_THE_CORE.get(stub.name or "", stub.reads)
    for words, command in leaves(stub.load()):
        parameters = [p for p in command.params if p.name not in NO_BLANKS]
        files = [p for p in parameters if _is_file(p)]
        target = _target(files)
        if command.hidden or not (target or words in reads):
            continue
        blanks = tuple(_blank(p) for p in parameters if p not in files)
        help = command.short_help or (command.help or "").split("\n")[0]
        said = AT_THE_DESK.sub("", help)
        yield Asked(f"{stub.name} {words}".strip(), said, blanks, target)


def _target(files: Sequence[Any]) -> str:
    """The argument for the one PDF that a command writes; nothing where it writes none."""
    needed = [p.name for p in files if p.required]
    return str(needed[0]) if len(needed) == 1 and files[0].metavar == "FILE.pdf" else ""


def _is_file(parameter: Any) -> bool:
    named = f"{parameter.metavar or ''} {parameter.name}".casefold()
    return "Path" in type(parameter.type).__name__ or "file" in named


def _blank(parameter: Any) -> Blank:
    choices = tuple(getattr(parameter.type, "choices", ()) or ())
    return Blank(
        parameter.name,
        getattr(parameter, "help", None) or "",
        bool(parameter.required),
        bool(getattr(parameter, "is_flag", False)),
        tuple(map(str, choices)),
        bool(getattr(parameter, "multiple", False)),
        TABLES.get(parameter.name or "", ()),
        parameter.opts[0].lstrip("-") if parameter.param_type_name == "option" else "",
    )
