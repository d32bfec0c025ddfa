"""A fact is said once in a round: what a task says is not found beside it, a loan told once."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.put_off import PutOff, apart
from warmside.core.asking.rounds.round import Stop
from warmside.core.plugins.hook_values import Finding, Level, Task
from warmside.core.values.about import About

Said = tuple[str, int, str]
"""Whom it is about, and the kind of event or the key of a task."""


def findings_of_round(ask: Ask, on: date) -> tuple[list[Finding], list[tuple[Finding, PutOff]]]:
    """The findings to be shown in a round, and those that wait with what put them off.

    What a task of the round says already is left to it, unless it is to act now.
    """
    found, waiting = apart(ask.book, ask.findings(on), on)
    said = said_by_tasks(ask.round(on))
    return [f for f in found if f.level is Level.ACT_NOW or not _by_task(f) & said], waiting


def said_by_tasks(stops: Iterable[Stop]) -> frozenset[Said]:
    """What the tasks of a round say, by subject."""
    tasks = (task for stop in stops for task in (stop.task, *(t for _, t in stop.also)))
    return frozenset(said for task in tasks for said in _names(task))


def back_asked_for(stops: Iterable[Stop], findings: Iterable[Finding]) -> frozenset[int]:
    """The animals whose return the round asks for already, as a task or as a finding."""
    said = said_by_tasks(stops).union(*(_by_task(f) for f in findings))
    return frozenset(id for whom, id, name in said if (whom, name) == ("animal", "returned"))


def _names(task: Task) -> Iterable[Said]:
    return {(*_whom(task.about), name) for name in (task.settles, task.key) if name}


def _by_task(finding: Finding) -> frozenset[Said]:
    return frozenset([(*_whom(finding.about), finding.task)] if finding.task else ())


def _whom(about: About) -> tuple[str, int]:
    if about.animal_id is not None:
        return "animal", about.animal_id
    return "enclosure", about.enclosure_id or 0
