"""Entry point of the `warmside` command; whatever is heavy is imported later."""

from __future__ import annotations

import os
import sys


def main(arguments: list[str] | None = None) -> int:
    """Run one command line and return its exit code."""
    arguments = sys.argv[1:] if arguments is None else arguments
    if arguments in (["--version"], ["-V"]):  # before Typer is imported
        from warmside.core import __version__

        print(f"warmside {__version__}")
        return 0
    from warmside.cli.running import run

    code = run(arguments)
    return _flushed(code)


def _flushed(code: int) -> int:
    """The exit code; a reader that closed the pipe early is no fault of ours."""
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return code
