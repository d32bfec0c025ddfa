"""A program that begins as a fork of the tests, which have imported all that it needs."""

from __future__ import annotations

import os
import signal
import sys
import traceback
import warnings
from typing import NoReturn

from warmside.testing import Keeper


class Forked:
    """A running piece of Python with the keeper's environment; what it writes comes by a pipe."""

    def __init__(self, keeper: Keeper, program: str, *arguments: str) -> None:
        end, begin = os.pipe()
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", DeprecationWarning)  # of threads, which no test has
            self.pid = os.fork()
        if self.pid == 0:
            for stream in (1, 2):
                os.dup2(begin, stream)
            os.environ.update(keeper.environment)
            _be(program, arguments)
        os.close(begin)
        self.stdout = os.fdopen(end, encoding="utf-8")
        self.returncode: int | None = None

    def poll(self) -> int | None:
        """Its exit code, where it has ended."""
        return self._ended(os.WNOHANG)

    def kill(self) -> None:
        """kill -9, unless it has ended."""
        if self.poll() is None:
            os.kill(self.pid, signal.SIGKILL)

    def communicate(self) -> str:
        """What else it wrote to its end."""
        with self.stdout:
            said = self.stdout.read()
        self._ended(0)
        return said

    def _ended(self, how: int) -> int | None:
        if self.returncode is None:
            pid, status = os.waitpid(self.pid, how)
            self.returncode = os.waitstatus_to_exitcode(status) if pid else None
        return self.returncode


def _be(program: str, arguments: tuple[str, ...]) -> NoReturn:
    """Run the program in this process, which ends with it as a process of its own would."""
    code = 1
    try:
        sys.argv = ["-c", *arguments]
        sys.stdout, sys.stderr = (os.fdopen(n, "w", encoding="utf-8") for n in (1, 2))
        exec(compile(program, "-c", "exec"), {"__name__": "__main__"})
        code = 0
    except SystemExit as end:
        code = end.code if isinstance(end.code, int) else end.code is not None
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)
