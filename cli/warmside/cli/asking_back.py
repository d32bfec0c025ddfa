"""Questions of a request, prompted on a terminal; every one of them has an option too."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import typer
from msgspec.structs import replace

from warmside.core.session.session import Session, session_of
from warmside.core.values.errors import Refused, WarmsideError
from warmside.core.values.questions import Question, Unanswered
from warmside.faces.terminal.visible import visible_line

Request = TypeVar("Request")
Given = TypeVar("Given")


def with_questions(
    session: Session, function: Callable[[Session, Request], Given], request: Request
) -> Given:
    """What the function gives, once all that it asks is answered; elsewhere Unanswered."""
    while True:
        try:
            return function(session, request)
        except Unanswered as missing:
            if not session.asks:
                raise
            question = missing.question
        request = replace(request, **{question.key: prompted(question)})  # type: ignore[type-var]


def asking_again(command: Any) -> Any:
    """A command of a plugin that is run again with each answer, where a terminal can be asked.

    What it asks for is told by raising a Question's Unanswered; the key is its parameter's name.
    """
    for part in getattr(command, "commands", {}).values():
        asking_again(part)
    if getattr(command, "callback", None) is not None and not hasattr(command, "commands"):
        command.invoke = _run_again(command.invoke)
    return command


def _run_again(invoke: Callable[[Any], Any]) -> Callable[[Any], Any]:
    def run(context: Any) -> Any:
        while True:
            try:
                return invoke(context)
            except Unanswered as missing:
                question = missing.question
                if question.key not in context.params or not session_of(context).asks:
                    raise
            context.params[question.key] = prompted(question)

    return run


def prompted(question: Question) -> Any:
    """What the keeper typed; Refused where a yes was wanted and not given."""
    if question.exact:
        typed = str(typer.prompt(f"{question.words}; type its name to go on", err=True))
        return question.answered(typed)
    if not question.yes_or_no:
        return _checked(question)
    if not typer.confirm(question.words, err=True):
        raise Refused("nothing was changed")
    return True


def _checked(question: Question) -> str:
    """The text that was typed, asked again until it can be used."""
    while True:
        typed = str(typer.prompt(question.words, default=question.default or None, err=True))
        try:
            if question.check:
                question.check(typed)
        except WarmsideError as wrong:
            typer.echo(visible_line(str(wrong)), err=True)
        else:
            return typed
