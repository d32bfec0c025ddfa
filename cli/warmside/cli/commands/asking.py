"""Prompts on a terminal; every one of them has an option too."""

from __future__ import annotations

import typer

from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, Refused


def ask(session: Session, value: str | None, question: str, option: str, default: str = "") -> str:
    """The value, or the answer typed on a terminal; elsewhere BadInput naming the option."""
    if value is not None:
        return value
    if not session.asks:
        raise BadInput(f"{question.lower()} is needed: add {option}")
    return str(typer.prompt(question, default=default or None, err=True))


def confirm(session: Session, yes: bool, question: str, option: str = "--yes") -> None:
    """Go on only if confirmed; raises Refused otherwise."""
    if yes:
        return
    if not session.asks:
        raise Refused(f"{question} add {option} to do it")
    if not typer.confirm(question, err=True):
        raise Refused("nothing was changed")


def confirm_by_name(session: Session, typed: str | None, name: str, what: str) -> None:
    """Go on only if the name was typed; raises Refused otherwise."""
    if typed is None and session.asks:
        typed = str(typer.prompt(f"{what}; type its name to go on", err=True))
    if typed != name:
        raise Refused(f"{what}; to do it, add --name {name}")
