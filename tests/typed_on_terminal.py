"""The program on a pseudo-terminal, where it prompts."""

from __future__ import annotations

import os
import select
import signal
import sys
import time
from pathlib import Path
from typing import NoReturn

import pytest

pty = pytest.importorskip("pty", reason="needs a POSIX terminal")


CTRL_C = "\x03"
PATIENCE_S = 30


def _go_on_as(arguments: list[str]) -> NoReturn:
    """Be the program in this process, on the terminal that it was given, and end."""
    code = 1
    try:
        from warmside.cli.entry import main

        sys.stdin, sys.stdout, sys.stderr = (
            os.fdopen(number, mode, buffering=1, encoding="utf-8")
            for number, mode in ((0, "r"), (1, "w"), (2, "w"))
        )
        code = main(arguments)
        sys.stdout.flush()
    finally:
        os._exit(code)


def type_on_terminal(
    arguments: list[str], typed: str, path: Path, *, once: str = "", terminal_type: str = "dumb"
) -> tuple[int, str]:
    """Run the program on a pseudo-terminal and type; returns exit code and screen.

    What is typed is typed `once` that is seen on the screen, where it is given; then the program
    is started as from a shell. Else it is a fork of this one, which has imported all already.
    """
    answer = typed.encode()
    process, terminal = pty.fork()
    if process == 0:
        signal.signal(signal.SIGINT, signal.SIG_DFL)  # a shell's background jobs ignore it
        os.environ.update(WARMSIDE_COLLECTION=str(path), TERM=terminal_type, COLUMNS="80")
        if once:
            os.execv(sys.executable, [sys.executable, "-m", "warmside", *arguments])
        _go_on_as(arguments)
    screen = b""
    latest = time.monotonic() + PATIENCE_S
    while once.encode() not in screen:
        assert time.monotonic() < latest, screen.decode()
        assert select.select([terminal], [], [], PATIENCE_S)[0], screen.decode()
        screen += os.read(terminal, 4096)
    os.write(terminal, answer)
    while True:
        try:
            piece = os.read(terminal, 4096)
        except OSError:
            break
        if not piece:
            break
        screen += piece
    _, status = os.waitpid(process, 0)
    os.close(terminal)
    return os.waitstatus_to_exitcode(status), screen.decode()
