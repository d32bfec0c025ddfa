"""The answering commands of plugins, for the page: forms from Typer, run where nothing writes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from warmside.cli.lazy import Stub
from warmside.cli.writing_commands import writes
from warmside.core.answers.parts import Answer
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, Refused, WarmsideError
from warmside.page.asked import Asked, Blank

NO_BLANKS = ("as_json", "save", "help", "confirm", "yes", "overwrite", "replace", "replace_saved")
WRITES = "this writes, and the page only shows; at the desk it is: warmside"


class PageCommands:
    """The commands of the plugins of one collection."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def all(self, session: Session) -> Sequence[Asked]:
        """Those of enabled plugins that a page can offer, in the order of their help."""
        root, context = self._root()
        found: list[Asked] = []
        with context:
            for name in root.list_commands(context):
                stub = root.get_command(context, name)
                if isinstance(stub, Stub) and stub.rich_help_panel == "Plugins":
                    found += _leaves(name, stub.load())
        return found

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
            options.append(f"{parameter.opts[0]}={value}")
    return [*options, "--", *arguments]


def _leaves(words: str, command: Any) -> Iterator[Asked]:
    """The commands below one, each with its blanks: those that only answer, and those that write
    one PDF.
    """
    if hasattr(command, "commands"):
        for name, part in command.commands.items():
            yield from _leaves(f"{words} {name}", part)
        return
    parameters = [p for p in command.params if p.name not in NO_BLANKS]
    targets = [p.name for p in parameters if p.required and _is_file(p)]
    on_paper = len(targets) == 1 and any(p.metavar == "FILE.pdf" for p in parameters)
    files = [p for p in parameters if _is_file(p)]
    if command.hidden or (not on_paper and (files or writes(command.callback))):
        return
    blanks = tuple(_blank(p) for p in parameters if p not in files)
    help = command.short_help or (command.help or "").split("\n")[0]
    yield Asked(words, help, blanks, targets[0] if on_paper else "")


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
    )
