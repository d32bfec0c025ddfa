"""All that a plugin may name: import from here and from nowhere else in warmside.

Names load when they are first used, so that a manifest stays cheap to import.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from warmside.core.answers import charts as _charts
    from warmside.core.answers import drawings as _shapes
    from warmside.core.answers import forms as _forms
    from warmside.core.answers import timelines as _timelines
    from warmside.core.answers.any_part import Part as Part
    from warmside.core.answers.parts import Answer as Answer
    from warmside.core.answers.parts import Cell as Cell
    from warmside.core.answers.parts import Column as Column
    from warmside.core.answers.parts import Fact as Fact
    from warmside.core.answers.parts import Kind as Kind
    from warmside.core.answers.parts import Section as Section
    from warmside.core.answers.parts import Table as Table
    from warmside.core.answers.parts import Tone as Tone
    from warmside.core.answers.parts import Words as Words
    from warmside.core.answers.parts import paragraphs as paragraphs
    from warmside.core.answers.parts import said as said
    from warmside.core.asking.answered import Answered as Answered
    from warmside.core.asking.ask import Ask as Ask
    from warmside.core.asking.pictures import parts as _pictures
    from warmside.core.asking.rounds.glance import at_a_glance as at_a_glance
    from warmside.core.asking.subjects.recorded import recorded as recorded
    from warmside.core.csv import rows as _csv_files
    from warmside.core.figures import fits_and_intervals as _figures
    from warmside.core.figures.sourced import SourcedRow as SourcedRow
    from warmside.core.figures.sourced import sourced_rows as sourced_rows
    from warmside.core.kinds import declaring as _fields
    from warmside.core.kinds.kind import EventKind as EventKind
    from warmside.core.kinds.kind import Subject as Subject
    from warmside.core.kinds.shared import RETAINED as RETAINED
    from warmside.core.plugins import sheets as _sheets
    from warmside.core.plugins.hook_values import CareRank as CareRank
    from warmside.core.plugins.hook_values import Finding as Finding
    from warmside.core.plugins.hook_values import LabelLine as LabelLine
    from warmside.core.plugins.hook_values import Level as Level
    from warmside.core.plugins.hook_values import ShippedValue as ShippedValue
    from warmside.core.plugins.hook_values import Task as Task
    from warmside.core.plugins.hookspecs import hookimpl as hookimpl
    from warmside.core.plugins.manifest import Answers as Answers
    from warmside.core.plugins.manifest import Command as Command
    from warmside.core.plugins.manifest import Manifest as Manifest
    from warmside.core.plugins.manifest import Setting as Setting
    from warmside.core.record.book import Book as Book
    from warmside.core.record.entities import Animal as Animal
    from warmside.core.record.entities import Clutch as Clutch
    from warmside.core.record.entities import Enclosure as Enclosure
    from warmside.core.record.entities import Event as Event
    from warmside.core.record.entities import NewEvent as NewEvent
    from warmside.core.record.entities import Parent as Parent
    from warmside.core.record.entities import RowChange as RowChange
    from warmside.core.record.entities import Species as Species
    from warmside.core.record.kin import entering as _entering
    from warmside.core.record.series import declared as _series
    from warmside.core.record.species.figures import SpeciesFigures as SpeciesFigures
    from warmside.core.record.species.known import shipped_species_named as shipped_species_named
    from warmside.core.record.species.life_stage import LifeStage as LifeStage
    from warmside.core.record.species.staged import Staged as Staged
    from warmside.core.record.steps import StepWriter as StepWriter
    from warmside.core.record.tables import metadata as metadata
    from warmside.core.record.typed_subjects import enclosures_meant as enclosures_meant
    from warmside.core.record.whereabouts import Whereabouts as Whereabouts
    from warmside.core.session import live as _live
    from warmside.core.session.session import Session as Session
    from warmside.core.session.session import session_of as session_of
    from warmside.core.values.about import About as About
    from warmside.core.values.about import Pair as Pair
    from warmside.core.values.basis import OWN_RECORDS as OWN_RECORDS
    from warmside.core.values.basis import Basis as Basis
    from warmside.core.values.basis import Estimate as Estimate
    from warmside.core.values.basis import Mark as Mark
    from warmside.core.values.basis import Source as Source
    from warmside.core.values.counts import counted as counted
    from warmside.core.values.counts import every_days as every_days
    from warmside.core.values.errors import BadInput as BadInput
    from warmside.core.values.errors import Doubtful as Doubtful
    from warmside.core.values.errors import NotFound as NotFound
    from warmside.core.values.errors import Refused as Refused
    from warmside.core.values.errors import UnknownWord as UnknownWord
    from warmside.core.values.errors import WarmsideError as WarmsideError
    from warmside.core.values.estimates import DayRange as DayRange
    from warmside.core.values.estimates import Distribution as Distribution
    from warmside.core.values.estimates import Valued as Valued
    from warmside.core.values.hints import near_miss as near_miss
    from warmside.core.values.hints import quoted as quoted
    from warmside.core.values.measures import declaring as _measures
    from warmside.core.values.moments import When as When
    from warmside.core.values.moments import days_ago_words as days_ago_words
    from warmside.core.values.moments import parse_day as parse_day
    from warmside.core.values.partial_dates import PartialDate as PartialDate
    from warmside.core.values.quantities import Display as Display
    from warmside.core.values.quantities import format_quantity as format_quantity
    from warmside.core.values.quantities import parse_quantity as parse_quantity
    from warmside.core.values.questions import Question as Question
    from warmside.core.values.units import Unit as Unit
    from warmside.faces.fonts import font_path as font_path
    from warmside.faces.progress import progress as progress

    charts = _charts
    csv_files = _csv_files
    entering = _entering
    fields = _fields
    figures = _figures
    forms = _forms
    live = _live
    pictures = _pictures
    measures = _measures
    series = _series
    shapes = _shapes
    sheets = _sheets
    timelines = _timelines

_ROOMS = {
    "plugins.manifest": "Answers Command Manifest Setting",
    "plugins.hookspecs": "hookimpl",
    "plugins.hook_values": "CareRank Finding LabelLine Level ShippedValue Task",
    "record.book": "Book",
    "record.entities": "Animal Clutch Enclosure Event NewEvent Parent RowChange Species",
    "record.species.life_stage": "LifeStage",
    "record.species.known": "shipped_species_named",
    "record.species.figures": "SpeciesFigures",
    "record.species.staged": "Staged",
    "record.steps": "StepWriter",
    "record.tables": "metadata",
    "record.whereabouts": "Whereabouts",
    "asking.ask": "Ask",
    "asking.answered": "Answered",
    "asking.rounds.glance": "at_a_glance",
    "asking.subjects.recorded": "recorded",
    "record.typed_subjects": "enclosures_meant",
    "values.questions": "Question",
    "figures.sourced": "SourcedRow sourced_rows",
    "session.session": "Session session_of",
    "values.about": "About Pair",
    "kinds.kind": "EventKind Subject",
    "kinds.shared": "RETAINED",
    "answers.parts": "Answer Cell Column Fact Kind Section Table Tone Words paragraphs said",
    "answers.any_part": "Part",
    "values.basis": "Basis Estimate Mark OWN_RECORDS Source",
    "values.estimates": "DayRange Distribution Valued",
    "values.units": "Unit",
    "values.quantities": "Display format_quantity parse_quantity",
    "values.counts": "counted every_days",
    "values.moments": "When days_ago_words parse_day",
    "values.partial_dates": "PartialDate",
    "values.hints": "near_miss quoted",
    "values.errors": "BadInput Doubtful NotFound Refused UnknownWord WarmsideError",
}
"""The names of each module below `warmside.core`."""

SPACES = {
    "charts": "warmside.core.answers.charts",
    "csv_files": "warmside.core.csv.rows",
    "entering": "warmside.core.record.kin.entering",
    "fields": "warmside.core.kinds.declaring",
    "figures": "warmside.core.figures.fits_and_intervals",
    "forms": "warmside.core.answers.forms",
    "measures": "warmside.core.values.measures.declaring",
    "live": "warmside.core.session.live",
    "pictures": "warmside.core.asking.pictures.parts",
    "series": "warmside.core.record.series.declared",
    "shapes": "warmside.core.answers.drawings",
    "sheets": "warmside.core.plugins.sheets",
    "timelines": "warmside.core.answers.timelines",
}
"""Modules given whole, each a family of names: `fields.choice(...)`, `charts.Line(...)`."""

_FACES = {"font_path": "warmside.faces.fonts", "progress": "warmside.faces.progress"}
_WHERE = _FACES | {
    name: f"warmside.core.{module}" for module, names in _ROOMS.items() for name in names.split()
}
__all__ = sorted({*_WHERE, *SPACES})


def __getattr__(name: str) -> Any:
    if name not in _WHERE and name not in SPACES:
        raise AttributeError(f"warmside.api has no {name!r}; DEVELOPERS.md lists what it has")
    place = SPACES.get(name)
    found = import_module(place) if place else getattr(import_module(_WHERE[name]), name)
    globals()[name] = found
    return found
