"""A table of one row as a sentence: headings over a single row tell nothing that words do not."""

from __future__ import annotations

from warmside.core.answers.parts import Table
from warmside.faces.cells import NOTHING, cell_text
from warmside.faces.look import Look


def row_words(table: Table, look: Look) -> str:
    """`Tuppence: weighed 2026-03-05, mass 431 g`; empty where the table is to stay one.

    The first value leads; what is empty is left out.
    """
    if not table.prose or len(table.rows) != 1:
        return ""
    shown = [(c, v) for c, v in zip(table.columns, table.rows[0], strict=True) if c.text]
    texts = [(c.title, cell_text(v, c.kind, look)) for c, v in shown]
    (_, first), *rest = texts or [("", "")]
    said = [f"{title} {text}".strip() for title, text in rest if text not in ("", NOTHING)]
    return f"{first}: {', '.join(said)}" if said else first
