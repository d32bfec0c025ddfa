"""Asking once whether the day or the month comes first in `4/1/2021`, and doing what was typed."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence

from warmside.core.values.numbered_days import OrderUnknown, parse_order
from warmside.core.values.questions import Question

Run = Callable[[Sequence[str]], object]


def with_order(run: Run, arguments: Sequence[str]) -> object:
    """Run the command line; on a terminal its collection may first be told the order of days.

    A command that met such a day has written nothing, so that it is simply run again.
    """
    try:
        return run(arguments)
    except OrderUnknown as unknown:
        if not (sys.stdin.isatty() and sys.stderr.isatty()):
            raise
        order = _asked(unknown)
    run([*_collection(arguments), "file", "change", "--dates", order])
    return run(arguments)


def _asked(unknown: OrderUnknown) -> str:
    from warmside.cli.asking_back import prompted

    words = f"Does the day or the month come first in {unknown.text}? (day, month; kept for all)"
    return parse_order(prompted(Question("dates", words, "--dates", check=parse_order)))


def _collection(arguments: Sequence[str]) -> Sequence[str]:
    """The option that names the collection, where it was typed."""
    for place, word in enumerate(arguments):
        if word == "--collection":
            return arguments[place : place + 2]
        if word.startswith("--collection="):
            return [word]
    return []
