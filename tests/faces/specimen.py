"""An invented answer that holds every kind of part, each as full as it can be."""

from __future__ import annotations

import math
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from warmside.core.answers.drawings import (
    Box,
    Diamond,
    Disc,
    Drawing,
    Fill,
    Label,
    Path,
    Stroke,
)
from warmside.core.answers.parts import (
    Answer,
    Axis,
    Band,
    Bars,
    Chart,
    Column,
    Fact,
    Kind,
    Line,
    MarkRow,
    Moment,
    Section,
    Shot,
    Span,
    Strip,
    Table,
    Timeline,
    TimelineRow,
    Tone,
    Words,
)
from warmside.core.values.basis import Basis, Estimate, Mark, Source
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.faces.look import Look

VIENNA = ZoneInfo("Europe/Vienna")
LOOK = Look(80, Display.METRIC, VIENNA)
START = date(2025, 3, 1)
NEED = Estimate(
    8.1, 6.9, 9.4, Unit.ENERGY_RATE, Basis("a made-up rule", Source("a table", Mark.INVENTED), (1,))
)
_FILLS = (Fill.NONE, Fill.HALF, Fill.FULL, Fill.HATCH)
DRAWING = Drawing(
    "kin",
    "Three made-up generations <&>",
    120,
    52,
    "mm",
    (
        Stroke((18, 10), (42, 10)),
        Path(((30, 10), (30, 24), (78, 24))),
        *(Box((4 + 30 * n, 4), 12, 12, fill) for n, fill in enumerate(_FILLS)),
        *(Disc((10 + 30 * n, 30), 6, fill) for n, fill in enumerate(_FILLS)),
        *(Diamond((22 + 30 * n, 40), 7, fill) for n, fill in enumerate(_FILLS)),
        Path(((112, 4), (118, 16), (106, 16)), closed=True, fill=Fill.HATCH),
        Stroke((2, 48), (118, 48), dash=(4, 2)),
        Label((10, 21), "Ash", anchor="middle"),
        Label((100, 51.5), "visual", 7, bold=True),
        Label((118, 27), "at the end", anchor="end"),
    ),
    ("[ ]---( )     Ash   Briar", "    |", "   < >        Cinder"),
    {"animals": ["Ash", "Briar"], "since": START},
)


def _days(count: int, step: int = 1) -> tuple[float, ...]:
    return tuple(float(START.toordinal() + day) for day in range(0, count, step))


def zones(count: int = 6) -> Chart:
    """A day and a half of as many made-up sensors, on an axis of instants."""
    hours = range(0, 37)
    begin = 1_743_202_800.0  # 2025-03-29 00:00 in Vienna, a day before the clocks change
    names = ("basking", "warm side", "middle", "cool side", "hide", "room", "shelf", "attic")
    lines = tuple(
        Line(
            names[n],
            tuple(begin + 3600 * hour for hour in hours),
            tuple(34 - 2.1 * n + (5 - n / 2) * math.sin((hour - 8) / 24 * 6.283) for hour in hours),
        )
        for n in range(count)
    )
    return Chart(
        "zones",
        "Zones of a box",
        "time",
        "temperature",
        Unit.TEMPERATURE,
        lines,
        axis=Axis.INSTANTS,
    )


GROWTH = Chart(
    "growth",
    "Mass of a made-up skink <&>",
    "day",
    "mass",
    Unit.MASS,
    lines=(
        Line("expected", _days(60, 5), tuple(100.0 + 2 * day for day in range(12))),
        Line("weighings", _days(60, 20), (99.0, 112.0, 120.0), points=True),
    ),
    bands=(
        Band("whole range", _days(60, 5), (95.0,) * 12, (125.0,) * 12),
        Band("inner range", _days(60, 5), (98.0,) * 12, (120.0,) * 12),
    ),
    marks=(MarkRow("meals", _days(60, 10), "|"), MarkRow("sheds", _days(60, 50), "s")),
)
HOURS = Chart(
    "pattern",
    "When it was on",
    "hour of the day",
    "share of days",
    Unit.PERCENT,
    bars=(
        Bars("lamp", (7.5, 9.5, 13.5, 18.5), (20.0, 80.0, 60.0, 5.0), 2.0),
        Bars("mat", (7.5, 9.5, 13.5, 18.5), (90.0, None, 10.0, 40.0), 2.0),
    ),
    axis=Axis.HOURS,
)
NUMBERS = Chart(
    "months",
    "Eaten a month",
    "month of life",
    "mass",
    Unit.MASS,
    lines=(Line("need", (1.0, 6.0), (30.0, 75.0)),),
    bars=(Bars("eaten", (1.0, 2.0, 3.0, 4.0, 5.0, 6.0), (20.0, 55.5, 0.0, 61.0, 80.0, 33.0)),),
    axis=Axis.NUMBERS,
)
CARE = Timeline(
    "care",
    "Care of the made-up ones",
    START,
    START + timedelta(60),
    (
        TimelineRow(
            "Ember",
            (Span(START, START + timedelta(20), "opaque"), Span(START, START, "a long label")),
            (Moment(START, "o", "meal"), Moment(START + timedelta(30), "+", "sample possible")),
        ),
        TimelineRow("Sedge", (), (Moment(START, "s", "shed"),)),
    ),
    today=START + timedelta(9),
)
WEIGHTS = Table(
    "weights",
    (
        Column("name", "name"),
        Column("day", "day", Kind.DATE),
        Column("mass", "mass", Unit.MASS),
        Column("need", "daily need", Unit.ENERGY_RATE),
        Column("number", "number", Kind.CODE, text=False),
        Column("note", "note", below=True),
    ),
    (
        ("Ember", START, 612.0, NEED, "x1", "calm, a little shorter than it was thought to be"),
        ("Sedge", START, 48.5, None, "x2", "ate in the evening"),
        ("Moss", START, None, None, "x3", "not weighed"),
    ),
    title="All weights",
    breaks=((2, "wash hands before the next group"),),
)
STRIP = Strip(
    "shown",
    "A wound & how it heals",
    (
        Shot(3, START, "a" * 64, "jpg", 840_000, 1200, 900, ("2026-01-05", "<calm> & red")),
        Shot(4, START, "b" * 64, "png", 2_100_000, 900, 1200, ("2026-01-17", "12 days later")),
        Shot(5, START, "c" * 64, "pdf", 90_000, None, None),
    ),
)
PLAN = "basking    hide\n   |         |\n[ stone ]  [ box ]"
SPECIMEN = Answer(
    "Specimen of the made-up ♀ <1>",
    (
        Words("A first paragraph & <b>more</b> of it."),
        Fact("species", "species", "Tiliqua gigas", Kind.LATIN),
        Fact("need_now", "daily need", NEED, Unit.ENERGY_RATE),
        Fact("code", "code", "EMB", Kind.CODE),
        Words("ask a vet", Tone.CAUTION),
        Words(PLAN, pre=True),
        WEIGHTS,
        Table("nothing", (Column("a", "a"),), (), title="Losses", empty="none so far"),
        DRAWING,
        Words("warmside round", Tone.HINT),
    ),
    (
        Section("Pictures", (STRIP,)),
        Section("Curves", (GROWTH, zones(), HOURS, NUMBERS)),
        Section("Days", (CARE, Words("the last words"), Fact("total", "in total", 3, Unit.COUNT))),
    ),
    warnings=("said beside it",),
    extra={"more": {"due": START, "of": (1, 2)}},
)
