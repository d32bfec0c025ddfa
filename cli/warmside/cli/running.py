"""Running a command line: the answer goes to a face, an error to one line on stderr."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from warmside.core.values.errors import Doubtful, FileProblem, WarmsideError

TRACE = "WARMSIDE_TRACE"
INTERRUPTED = 130
STOPPED = "interrupted; nothing more was written"
_CHOICES = re.compile(r"\. Choose from:\s*(.*)\Z", re.DOTALL)
_NO_COMMAND = re.compile(r"No such command '(.*?)'")


def run(arguments: list[str]) -> int:
    """Run the command line; returns the exit code."""
    from warmside.cli.order_of_days import with_order

    try:
        result = with_order(_result, arguments)
    except Doubtful as doubt:
        return complain(f"{doubt}; if it is right, add --confirm", doubt.exit_code)
    except WarmsideError as error:
        return complain(str(error), error.exit_code)
    except (KeyboardInterrupt, EOFError):
        return complain(STOPPED, INTERRUPTED)
    except BrokenPipeError:
        return 0
    except Exception as error:
        return other(error, arguments)
    if result == INTERRUPTED:  # Typer has caught it already
        return complain(STOPPED, INTERRUPTED)
    return result if isinstance(result, int) else 0


def _result(arguments: Sequence[str]) -> object:
    from warmside.cli.app import app
    from warmside.cli.lazy import root_of

    return root_of(app).main(list(arguments), prog_name="warmside", standalone_mode=False)


def complain(text: str, code: int) -> int:
    """Say in one line on stderr what went wrong."""
    from warmside.faces.terminal.visible import visible

    print(f"warmside: {visible(' '.join(text.split()))}", file=sys.stderr)
    return code


def other(error: Exception, arguments: Sequence[str] = ()) -> int:
    """Typer's own errors, and faults that nobody foresaw: of the file, if it is not sound."""
    if isinstance(error, OSError) and error.filename is None:  # stdout is full, or gone
        text = f"cannot write the answer ({error.strerror}); what was recorded stands"
        return complain(text, 1)
    if type(error).__name__ == "NoArgsIsHelpError":
        print(error, file=sys.stderr)
        return 2
    message = getattr(error, "format_message", None)
    code: Any = getattr(error, "exit_code", 1)
    if message is not None:
        return complain(_usage(message(), error), code)
    if type(error).__name__ == "Abort":
        return complain(STOPPED, INTERRUPTED)
    if type(error).__name__ == "Exit":
        return int(code)
    if os.environ.get(TRACE):
        raise error
    if told := _wrong_in_file(arguments):
        return complain(told, FileProblem.exit_code)
    return complain(
        f"a fault in warmside itself ({type(error).__name__}: {error}); nothing was written; "
        f"set {TRACE}=1 to see where, and report it",
        1,
    )


def _wrong_in_file(arguments: Sequence[str]) -> str:
    """What is wrong in the collection that a command worked on; nothing where it is sound."""
    from warmside.cli.app import moment
    from warmside.cli.looking import problems
    from warmside.cli.whereis import collection_place
    from warmside.core.file import attention
    from warmside.core.kinds.known import Kinds

    try:
        named = dict(pairwise(arguments)).get("--collection")
        path, now = collection_place(named).path, moment()
        found = problems(path, Kinds(), now) if path.exists() else []
        attention.keep(path, found, now.date())
    except Exception:  # the fault that led here is told instead
        return ""
    return attention.told(path, found) if found else ""


def _usage(message: str, error: Any) -> str:
    """What is wrong with a command line; a command that there is not is told with its near miss."""
    from warmside.core.values.hints import near_miss, quoted

    context = getattr(error, "ctx", None)
    path = context.command_path if context is not None else "warmside"
    if path == "warmside" and getattr(error, "option_name", "") in ("--json", "--save"):
        return f"{error.option_name} stands behind the command: warmside today {error.option_name}"
    unknown = _NO_COMMAND.match(message)
    if unknown and context is not None:
        near = near_miss(unknown[1], context.command.list_commands(context))
        return f"there is no command {quoted(unknown[1])!r}{near}; see: {path} --help"
    one_line = _CHOICES.sub(lambda m: f"; one of: {' '.join(m[1].split())}", message.rstrip("."))
    text = one_line.replace("\n", "; ")
    text = text[:1].lower() + text[1:] if text[:2] != text[:2].upper() else text
    return f"{text}; see: {path} --help"
