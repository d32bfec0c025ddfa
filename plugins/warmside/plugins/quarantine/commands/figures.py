"""`warmside quarantine figures`: test methods and surveys on file, with their sources."""

from __future__ import annotations

import typer

from warmside.api import (
    Answer,
    Cell,
    Column,
    Kind,
    Source,
    Table,
    Tone,
    Unit,
    paragraphs,
    session_of,
)
from warmside.plugins.quarantine.odds.methods import Method, Performance, methods, performance
from warmside.plugins.quarantine.odds.prevalence import surveys
from warmside.plugins.quarantine.reading.stored import laboratory_figures
from warmside.plugins.quarantine.telling.wording import DEFER

METHOD_COLUMNS = (
    Column("method", "method", Kind.CODE),
    Column("looks_for", "agent"),
    Column("agent", "agent", text=False),
    Column("sample", "sample", text=False),
    Column("sensitivity_low", "sensitivity from", Unit.PROBABILITY),
    Column("sensitivity_high", "to", Unit.PROBABILITY),
    Column("specificity", "specificity", Unit.PROBABILITY),
    Column("sources", "sources", Kind.LIST, below=True),
    Column("mark", "mark", text=False),
)
SURVEY_COLUMNS = (
    Column("survey", "survey", Kind.CODE),
    Column("animals", "animals"),
    Column("prevalence", "infected", Unit.PROBABILITY),
    Column("low", "from", Unit.PROBABILITY),
    Column("high", "to", Unit.PROBABILITY),
    Column("source", "source", below=True),
    Column("mark", "mark", text=False),
    Column("agent", "agent", text=False),
)


def figures(context: typer.Context) -> Answer:
    """Test methods and surveys on file: sensitivities, specificities, prevalences, sources."""
    with session_of(context).read() as book:
        own = laboratory_figures(book)
    rows = tuple(_method(m, own.get(m.key) or performance(m.key)) for m in methods())
    surveyed = tuple(
        (s.key, s.animals, s.value, s.low, s.high, _said(s.source), s.source.mark.value, s.agent)
        for s in surveys()
    )
    note = "no figure means that no study on file prints one; ask your laboratory"
    return Answer(
        "Figures on file",
        (
            Table("methods", METHOD_COLUMNS, rows, "Test methods"),
            Table("surveys", SURVEY_COLUMNS, surveyed, "Surveys"),
            *paragraphs(note),
            *paragraphs(DEFER, tone=Tone.CAUTION),
        ),
    )


def _method(m: Method, p: Performance | None) -> tuple[Cell, ...]:
    if p is None:
        none = (None, None, None)
        return (
            m.key,
            m.looks_for,
            m.agent,
            m.sample,
            *none,
            (_said(m.source),),
            m.source.mark.value,
        )
    return (
        m.key,
        m.looks_for,
        m.agent,
        m.sample,
        p.sensitivity_low,
        p.sensitivity_high,
        None if p.specificity_assumed else p.specificity,
        tuple(_said(s) for s in p.sources),
        p.sources[0].mark.value,
    )


def _said(source: Source) -> str:
    """Who says so, with the mark, as everywhere."""
    return f"{source.text} [{source.mark.value}]"
