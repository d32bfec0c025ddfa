"""What the shell may complete: codes of animals and enclosures."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from typing import Any

from typer.core import _typer_param_setup_autocompletion_compat

from warmside.cli.whereis import collection_place
from warmside.core.file.state import reader

# Which tables hold the codes of a parameter, by the parameter's name.
TABLES = {
    "animal": ("animal",),
    "animals": ("animal",),
    "child": ("animal",),
    "dam": ("animal",),
    "sire": ("animal",),
    "clutch": ("clutch",),
    "enclosure": ("enclosure",),
    "enclosures": ("enclosure",),
    "subject": ("animal", "enclosure"),
    "subjects": ("animal", "enclosure"),
}


def complete_codes(parameter: Any) -> None:
    """Let the shell complete the codes that a parameter takes, if its name says that it does."""
    tables = TABLES.get(parameter.name) or _referred(parameter.name or "")
    if tables and parameter._custom_shell_complete is None:
        # the way Typer itself attaches the `autocompletion` of a declared parameter
        _typer_param_setup_autocompletion_compat(
            parameter, autocompletion=lambda ctx, _, incomplete: _codes(ctx, tables, incomplete)
        )


def complete_words(parameter: Any, words: Sequence[str], also: Sequence[str] = ()) -> None:
    """Let the shell complete one of a few words, also from a part within it.

    Where none has that part, one of the other words that are understood: `also`.
    """

    def matching(part: str) -> list[tuple[str, str] | str]:
        return [w for w in words if part in w] or [w for w in also if part in w]

    _typer_param_setup_autocompletion_compat(
        parameter, autocompletion=lambda ctx, _, incomplete: matching(incomplete.casefold())
    )


def _referred(name: str) -> tuple[str, ...]:
    """The table of an option that is made from a reference field of a kind."""
    if not name.endswith("_id"):
        return ()
    from warmside.core.kinds.fields import reference_named

    found = reference_named(name)
    return (found.target.value,) if found else ()


def _codes(ctx: Any, tables: tuple[str, ...], incomplete: str) -> list[tuple[str, str] | str]:
    path = collection_place(ctx.find_root().params.get("collection")).path
    if not path.exists():
        return []
    found: list[tuple[str, str]] = []
    try:
        with closing(reader(path)) as connection:
            for table in tables:
                said = "coalesce(laid, '')" if table == "clutch" else "name"
                found += connection.execute(f"SELECT code, {said} FROM {table} ORDER BY code")
    except sqlite3.DatabaseError:  # no candidates; the command itself says what is wrong
        return []
    return [(c, n) for c, n in found if c.startswith(incomplete.upper())]
