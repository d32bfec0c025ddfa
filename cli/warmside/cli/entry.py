"""Entry point of the `warmside` command; whatever is heavy is imported later."""

from __future__ import annotations

import gc
import io
import os
import sys


def main(arguments: list[str] | None = None) -> int:
    """Run one command line and return its exit code."""
    if arguments is not None:
        return _guarded(arguments)
    # a command is over before collecting pays; it takes a fifth of the daily round (what runs
    # for long turns it on again)
    gc.disable()
    try:
        return _guarded(sys.argv[1:])
    finally:
        gc.freeze()  # nor need Python search through everything once more when it ends


def _guarded(arguments: list[str]) -> int:
    try:
        return _flushed(_run(arguments))
    except KeyboardInterrupt:  # while modules are imported
        print("warmside: interrupted; nothing more was written", file=sys.stderr)
        return 130
    except BrokenPipeError:
        return 0
    except OSError as error:  # the answer cannot be written
        from warmside.cli.running import other

        return other(error)


def _run(arguments: list[str]) -> int:
    if arguments in (["--version"], ["-V"]):  # before Typer is imported
        from warmside.core import __version__

        sys.stdout.write(f"warmside {__version__}\n")
        return 0
    from warmside.cli.running import run

    _speak_utf8()
    return run(arguments)


def _speak_utf8() -> None:
    """Say ♀ and – also where the system would have an older code page; ours only, not a test's."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")


def _flushed(code: int) -> int:
    """The exit code; a reader that closed the pipe early is no fault of ours."""
    try:
        sys.stdout.flush()
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if code == 0 and not isinstance(error, BrokenPipeError):
            raise
    return code
