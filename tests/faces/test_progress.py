"""A progress line is seen on a terminal after half a second, leaves no trace, and not elsewhere."""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator

import pytest

from warmside.faces import progress as module
from warmside.faces.progress import progress


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def seconds(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[float]]:
    """The clock that the line reads, to set by hand."""
    now = [0.0]
    monkeypatch.setattr(module.time, "monotonic", lambda: now[0])
    yield now


def shown(monkeypatch: pytest.MonkeyPatch, seconds: list[float], *times: float) -> str:
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setenv("TERM", "xterm")
    with progress("reading [rows]", len(times)) as step:
        for at in times:
            seconds[0] = at
            step()
    return screen.getvalue()


def test_a_short_command_shows_nothing(
    monkeypatch: pytest.MonkeyPatch, seconds: list[float]
) -> None:
    assert shown(monkeypatch, seconds, 0.1, 0.2, 0.4) == ""


def test_a_long_one_shows_how_far_it_is_and_wipes_it(
    monkeypatch: pytest.MonkeyPatch, seconds: list[float]
) -> None:
    written = shown(monkeypatch, seconds, 0.1, 0.6, 0.65, 0.8)
    assert "reading [rows]" in written
    assert "50%" in written
    assert "100%" in written
    assert "75%" not in written  # drawn ten times a second at most
    assert written.rstrip().endswith("\x1b[2K")


def test_nothing_is_written_where_stderr_is_no_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    with progress("reading", 2) as step:
        step()
    assert capsys.readouterr().err == ""
