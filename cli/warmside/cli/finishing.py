"""Rendering a command's answer: the face that was asked for, messages to stderr, the exit code."""

from __future__ import annotations

import contextlib
import os
import shutil
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from warmside.cli.saved_files import written
from warmside.core.answers.parts import Answer
from warmside.core.file.pictures.places import places
from warmside.core.session.session import Session
from warmside.core.values.errors import FileProblem
from warmside.core.values.quantities import Display
from warmside.faces.look import Look
from warmside.faces.terminal.visible import visible

FAILED = 1


def finish(context: Any, answer: object) -> int:
    """Show the answer and what plugins had to say; returns the exit code."""
    session: Session = context.obj
    if not isinstance(answer, Answer):
        return messages(session, (), context)
    look = look_of(session)
    if context.meta.get("warmside.save"):
        save(answer, look, Path(context.meta["warmside.save"]), session)
    if context.meta.get("warmside.as_json"):
        from warmside.faces.data.json_face import render_json

        write(render_json(answer, look.zone))
    else:
        from warmside.faces.terminal.text import render_text

        write(render_text(answer, look))
    return messages(session, answer.warnings, context) or answer.exit_code


def write(text: str) -> None:
    """Put text on stdout, with a last line feed."""
    sys.stdout.write(text if text.endswith("\n") or not text else f"{text}\n")


def messages(session: Session, warnings: Iterable[str], context: Any) -> int:
    """Say notices, warnings and plugin failures on stderr, each once; fail where strict."""
    opened = session.opened
    failures = opened.host.failures if opened else []
    notices = opened.notices if opened else []
    for text in dict.fromkeys([*notices, *warnings]):
        print(f"note: {visible(' '.join(text.split()))}", file=sys.stderr)
    for failure in failures:
        hint = f"the rest went on; more: warmside plugin show {failure.plugin}"
        print(f"warning: {visible(str(failure))}; {hint}", file=sys.stderr)
    return FAILED if failures and context.meta.get("warmside.strict") else 0


def look_of(session: Session) -> Look:
    """How answers look on this terminal, for this collection."""
    display, zone = Display.METRIC, ZoneInfo("UTC")
    if session.opened is not None:
        # a file whose own row is lost is told of by the answer; it is shown all the same
        with contextlib.suppress(FileProblem), session.read() as book:
            display, zone = book.home.display, book.home.zone
    width = max(20, shutil.get_terminal_size((80, 24)).columns)
    return Look(width, display, zone, colours(), places(session.path))


def colours() -> bool:
    """Whether ANSI styles are welcome."""
    plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    return sys.stdout.isatty() and not plain


def save(answer: Answer, look: Look, path: Path, session: Session) -> None:
    """Save the answer; the file's ending says in which face."""
    with written(path) as part:
        _save(answer, look, part, path.suffix, session)
    print(f"saved {path}", file=sys.stderr)


def _save(answer: Answer, look: Look, path: Path, suffix: str, session: Session) -> None:
    ending = suffix.lower()
    if ending == ".pdf":
        from warmside.faces.paper.pdf import render_pdf

        day = session.now.astimezone(look.zone).date()
        written = "" if str(day) in answer.title else f"written {day}"
        for warning in render_pdf(answer, look, path, date_line=written):
            print(f"note: {visible(warning)}", file=sys.stderr)
    elif ending == ".svg":
        from warmside.faces.drawn.svg import render_svg

        path.write_text(render_svg(answer, look), encoding="utf-8")
    elif ending == ".json":
        from warmside.faces.data.json_face import render_json

        path.write_text(render_json(answer, look.zone) + "\n", encoding="utf-8")
    else:
        from warmside.faces.terminal.text import render_text

        plain = Look(look.width, look.display, look.zone)
        path.write_text(render_text(answer, plain) + "\n", encoding="utf-8")
