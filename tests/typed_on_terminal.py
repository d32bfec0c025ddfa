"""The program on a pseudo-terminal, where it prompts."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

pty = pytest.importorskip("pty", reason="needs a POSIX terminal")


def type_on_terminal(arguments: list[str], typed: str, path: Path) -> tuple[int, str]:
    """Run the program on a pseudo-terminal and type; returns exit code and screen."""
    answer = typed.encode()
    process, terminal = pty.fork()
    if process == 0:
        os.environ.update(WARMSIDE_COLLECTION=str(path), TERM="dumb", COLUMNS="80")
        os.execv(sys.executable, [sys.executable, "-m", "warmside", *arguments])
    os.write(terminal, answer)
    screen = b""
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
