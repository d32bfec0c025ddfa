"""Whether a command may write, told from its code before it runs: so that no page offers it.

A hint for lists, not a guard: what is missed here is refused when it runs.
"""

from __future__ import annotations

import dis
from collections.abc import Callable, Iterator
from importlib import import_module
from types import CodeType, FunctionType
from typing import Any

WRITING = frozenset({"step", "undo", "redo", "with_questions"})
DEEPEST = 5


def writes(callback: Callable[..., Any] | None) -> bool:
    """Whether a function, or one of its package that it calls, begins a step."""
    function = _plain(callback)
    return function is not None and _writes(function, set(), DEEPEST)


def _plain(found: Any) -> FunctionType | None:
    while hasattr(found, "__wrapped__"):
        found = found.__wrapped__
    return found if isinstance(found, FunctionType) else None


def _writes(function: FunctionType, seen: set[CodeType], depth: int) -> bool:
    code = function.__code__
    if depth == 0 or code in seen:
        return False
    seen.add(code)
    names = {name for part in _parts(code) for name in part.co_names}
    if names & WRITING:
        return True
    package = function.__module__.rpartition(".")[0].split(".commands")[0]
    called = [function.__globals__.get(name) for name in names]
    called += [found for part in _parts(code) for found in _imported(part)]
    mine = (f for f in map(_plain, called) if f is not None and f.__module__.startswith(package))
    return any(_writes(f, seen, depth - 1) for f in mine)


def _parts(code: CodeType) -> Iterator[CodeType]:
    """The code and that of functions within it."""
    yield code
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            yield from _parts(constant)


def _imported(code: CodeType) -> Iterator[Any]:
    """What a function imports of ours when it runs."""
    module: Any = None
    for instruction in dis.get_instructions(code):
        if instruction.opname == "IMPORT_NAME":
            name = str(instruction.argval)
            module = import_module(name) if name.startswith("warmside.") else None
        elif instruction.opname == "IMPORT_FROM" and module is not None:
            yield getattr(module, str(instruction.argval), None)
