"""Every command's answer in every face: terminal, JSON, PDF, SVG, HTML, in two systems of units.

The keeper of this test has lived-in records and every built-in plugin; each command runs once, on
a copy of the file, and its answer is rendered by every face. Nothing may be left out; that the
check would notice stands in `test_whole`.
"""

from __future__ import annotations

import math
import re
import shlex
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date, timedelta
from importlib.resources import files
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from faces.whole import (
    Reader,
    check_html,
    check_json,
    check_svg,
    check_widths,
    check_words,
    pdf_text,
    squeezed,
)
from invented_pictures import jpeg, paper
from warmside.cli import finishing
from warmside.cli.app import Root
from warmside.cli.lazy import as_command
from warmside.cli.page_commands import OF_THE_CORE
from warmside.core.answers.parts import Answer, Chart, Drawing, Timeline
from warmside.core.kinds.shared import SHARED_KINDS
from warmside.core.plugins.discovery import BUILT_IN, load_object, manifest_of
from warmside.core.record.entities import NewEvent
from warmside.core.values.quantities import Display
from warmside.faces.drawn.svg import render_svg
from warmside.faces.look import Look
from warmside.faces.paper.page_fonts import Type
from warmside.faces.paper.pdf import render_pdf
from warmside.faces.terminal.text import render_text
from warmside.faces.terminal.widths import text_width
from warmside.faces.web.html import render_html
from warmside.testing import Keeper, copy_of, new_keeper

DATE_LINE = "as of 2026-03-05"
VIENNA = ZoneInfo("Europe/Vienna")
LOOKS = [
    Look(w, d, VIENNA, c)
    for w, d, c in (
        (80, Display.METRIC, False),
        (80, Display.IMPERIAL, False),
        (40, Display.METRIC, True),
        (200, Display.IMPERIAL, False),
    )
]

LINES = (Path(__file__).parent / "every_command.txt").read_text(encoding="utf-8")


def events() -> Iterator[NewEvent]:
    """Two and a half years of a ball python and a leopard gecko, invented."""
    start = date(2023, 9, 1)
    for week in range(130):
        day = start + timedelta(days=7 * week)
        yield NewEvent("fed", day, {"item": "mouse-adult", "mass_g": 24.0, "form": "thawed"}, 1)
        yield NewEvent("fed", day, {"item": "half-grown cricket", "count": 6, "form": "insect"}, 2)
        yield NewEvent(
            "climate", day, {"warm_c": 31.5, "cool_c": 25.0, "humidity_percent": 55.0}, None, 1
        )
        yield NewEvent("watered", day, {}, None, 1)
    for month in range(30):
        day = start + timedelta(days=30 * month + 2)
        grown = 1400 * (1 - math.exp(-(month + 4) / 12))
        yield NewEvent("weighed", day, {"mass_g": round(grown + 9 * math.sin(month), 1)}, 1)
        yield NewEvent("weighed", day, {"mass_g": 60.0 + month % 3}, 2)
        if month % 3 == 0:
            yield NewEvent("measured", day, {"snout_vent_mm": 500.0 + 20 * month}, 1)
    for cycle in range(17):
        day = start + timedelta(days=52 * cycle + cycle % 5)
        yield NewEvent("shedding", day, {"stage": "opaque"}, 1)
        yield NewEvent("shed", day + timedelta(days=9), {"outcome": "one piece"}, 1)


PROTOCOL = """
[mine]
title = "my own room"
group = "mine"
tools = "blue box"
warning = ""
days = 45
result_wait_days = 10
[mine.restarts]
newcomer_in_room = true
positive_test = true
mite_sighted = true
return = false
[mine.ends]
checks_up_to_date = true
"""


def write_files(folder: Path) -> None:
    """What commands read: a spreadsheet, a protocol, a growth reference."""
    (folder / "protocol.toml").write_text(PROTOCOL, encoding="utf-8")
    reference = files("warmside.plugins.weight") / "data" / "example_reference.csv"
    pooled = [
        f"A{n},unknown,{age},{(40 + age) * (1 + (n - 12) / 100):.1f}"
        for n in range(24)
        for age in range(0, 400, 40)
    ]
    head = "animal,sex,age_days,mass_g"
    (folder / "pooled.csv").write_text("\n".join([head, *pooled]), encoding="utf-8")
    (folder / "reference.csv").write_text(reference.read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "family.csv").write_text(
        "id,dam,sire,looks\nA,,,normal\nB,,,visual\nC,B,A,normal\nD,B,A,normal\nE,D,C,\n"
    )
    (folder / "wall.csv").write_text("thickness_mm,conductivity_w_per_mk\n18,0.14\n")
    hours = "\n".join(f"2026-03-0{d} {h:02d}:00,{h},50" for d in (2, 3, 4) for h in range(24))
    (folder / "log.csv").write_text(f"time,T1,RH\n{hours}\n")
    (folder / "photo.jpg").write_bytes(jpeg())
    (folder / "pictures").mkdir(exist_ok=True)
    (folder / "pictures" / "EMB-1.jpg").write_bytes(jpeg())
    (folder / "paper.pdf").write_bytes(paper())
    (folder / "set_up.toml").write_text(SET_UP)
    (folder / "events.csv").write_text(
        "date,kind,animal,mass\n2026-03-01,weighed,EMB,1370g\n2026-03-02,weighed,MOS,61g\n"
    )


@pytest.fixture(scope="module")
def lived_in(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """The house with its records."""
    keeper = new_keeper(tmp_path_factory.mktemp("lived_in"), plugins=sorted(BUILT_IN))
    for line in (
        'enclosure add "Low shelf" --code L1 --room Attic --width 120cm --depth 60cm',
        'enclosure add "High shelf" --code H1 --room Attic',
        'enclosure add "Far box" --code F1 --room Hall',
        'animal add Ember --species "ball python" --sex female --hatched 2023-05-02 '
        "--enclosure L1 --since 2023-06-01",
        'animal add Moss --species "leopard gecko" --sex male --enclosure H1 --since 2023-06-01',
        'animal add Sky --species "ball python" --sex male --ancestor',
        "rhythm set weighed --every 30",
        "rhythm set watered --every 2",
    ):
        keeper.run(*shlex.split(line))
    with keeper.open().step("imported", keeper.now) as writer:
        writer.record_checked(events())
    arrive = 'arrive Fern --species "crested gecko" --enclosure F1 --at 2026-02-13'
    keeper.run(*shlex.split(arrive))
    keeper.run("today")
    return keeper


def lines_of(text: str) -> list[str]:
    return [line for line in text.splitlines() if line and not line.startswith("#")]


SET_UP = """width = "90cm"
depth = "45cm"
height = "40cm"
wall = "wood"
wall_thickness = "15mm"
[[zone]]
name = "warm"
width = "45cm"
air = ["30C", "32C"]
[[zone]]
name = "cool"
left = "45cm"
width = "45cm"
[[fitting]]
kind = "water bowl"
zone = "cool"
left = "60cm"
width = "20cm"
depth = "20cm"
height = "6cm"
[[heat]]
kind = "mat"
zone = "warm"
watts = 40
width = "30cm"
depth = "30cm"
thermostat = true
guard = true
reach = false
[[light]]
kind = "day light"
leave = true
"""

KINDS = {  # the first field of each kind where it must be typed
    "arrived": "--how gift",
    "returned": "--after show",
    "departed": "--how sold",
    "lent": "--to Ann",
    "moved": "--enclosure H1",
    "weighed": "--mass 1.4kg",
    "measured": "--total 120cm --girth 5in",
    "fed": "--item mouse --mass 24g --count 2",
    "shedding": "--stage dull",
    "shed": "--outcome pieces --retained 'tail tip' --retained toes",
    "defecated": "--looks normal",
    "misted": "--amount 250ml",
    "climate": "--warm 88F --cool 24C --humidity 55",
    "observed": "--what calm",
    "examined": "--told 'come again in a month'",
    "treated": "--what 'as ordered'",
    "mated": "--partner SKY",
    "pairing": "--partner SKY",
    "looks": "--says 'visual albino'",
    "gravid": "--state suspected",
    "cooling": "--state begun",
    "sign": "--sign wheezing",
    "condition": "--score 3",
}
RECORDS = [f"record {k.name} EMB {KINDS.get(k.name, '')} --confirm" for k in SHARED_KINDS]
ALL = [*lines_of(LINES), *RECORDS]


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> list[Answer]:
    """The answers of the commands that this test runs, as the face would get them."""
    seen: list[Answer] = []
    show = finishing.finish

    def watch(context: Any, answer: object) -> int:
        if isinstance(answer, Answer):
            seen.append(answer)
        return show(context, answer)

    monkeypatch.setattr(finishing, "finish", watch)
    return seen


@pytest.mark.parametrize("line", ALL)
def test_the_answer_in_every_face(
    line: str, lived_in: Keeper, tmp_path: Path, answers: list[Answer]
) -> None:
    keeper = copy_of(lived_in, tmp_path, alone=line.startswith("new"))
    write_files(tmp_path)
    if line.startswith("new"):
        keeper.path.unlink()
    line = line.replace("{weigh}", number_of(keeper, line))
    *before, last = line.replace("{dir}", str(tmp_path)).split(" && ")
    for command in before:
        keeper.run(*shlex.split(command))
    steps = steps_of(keeper)
    result = keeper.run(*shlex.split(last), "--json")
    wrote = steps_of(keeper) != steps
    assert not (wrote and only_answers(last)), "it writes, and stands in `reads` of its plugin"
    assert wrote or only_answers(last) or not is_plugins(last), (
        "say in `reads` that it only answers"
    )
    answer = answers[-1]
    assert not re.search(r"<[\w.]+ object at|\bnan\b", result.stdout)
    check_json(result.stdout, answer, LOOKS[0])
    for display in (Display.METRIC, Display.IMPERIAL):
        check_widths(answer, [look for look in LOOKS if look.display == display])
    for look in LOOKS:
        check_text(render_text(answer, look), look)
    check_pdf(answer, tmp_path / "answer.pdf")
    check_html(render_html(answer, LOOKS[0]), answer, LOOKS[0])
    if any(isinstance(p, Chart | Timeline | Drawing) for p in answer.all_parts()):
        check_svg(render_svg(answer, LOOKS[0]), answer, LOOKS[0])


NEEDS_FILES = {  # which a page cannot give to a command, nor take from it, but for one PDF
    "genes chances",
    "habitat export",
    "habitat preset",
    "habitat wall",
    "labels calibrate page",
    "labels print",
    "lineage export",
    "lineage import",
    "lineage kinship",
    "weight score",
}
FOUND_NOTHING = {  # these write where there is something to write; here there was not
    "feeding thaw",
    "weight doubts",
}


def is_plugins(line: str) -> bool:
    """Whether a page should know of it: of a plugin, and it needs no file."""
    core = {name for name, _, _ in Root.core}
    apart = any(f"{line} ".startswith(f"{words} ") for words in NEEDS_FILES | FOUND_NOTHING)
    return line.split()[0] not in core and not apart


def only_answers(line: str) -> bool:
    """Whether the manifest of its plugin, or the page for the core, says that it only answers."""
    reads = OF_THE_CORE | {c.name: c.reads for p in BUILT_IN for c in manifest_of(p).commands}
    name = line.split()[0]
    return any(f"{line} ".startswith(f"{name} {w}".strip() + " ") for w in reads.get(name, ()))


def steps_of(keeper: Keeper) -> int | None:
    """The newest step of the file; None where there is no file yet."""
    if not keeper.path.exists():
        return None
    with closing(sqlite3.connect(keeper.path)) as connection:
        return int(connection.execute("SELECT coalesce(max(id), 0) FROM step").fetchone()[0])


def number_of(keeper: Keeper, line: str) -> str:
    """The number that the round gave to weighing Ember."""
    if "{weigh}" not in line:
        return ""
    tasks = keeper.json("today")["tasks"]
    return next(str(t["number"]) for t in tasks if (t["what"], t["animal"]) == ("weigh", "EMB"))


REPRS = re.compile(r"<[\w.]+ object at|\b(?:Estimate|Basis|Source|Fact|datetime|date)\(|\bNone\b")


ANSI = re.compile(r"\x1b\[[0-9;]*m")


def check_text(text: str, look: Look) -> None:
    """Fits the width, shows no internals; colour only where it is welcome."""
    assert text.strip()
    assert look.colour or "\x1b" not in text
    plain = ANSI.sub("", text)
    assert not REPRS.search(plain), REPRS.search(plain)
    for row in plain.splitlines():
        assert text_width(row) <= look.width or " " not in row.strip(), f"too wide: {row!r}"
        assert row == row.rstrip(), f"blanks at the end: {row!r}"


def check_pdf(answer: Answer, path: Path) -> None:
    """Pages that say what the answer says; nothing that the fonts lack."""
    assert render_pdf(answer, LOOKS[0], path, date_line=DATE_LINE) == ()
    drawn = any(isinstance(part, Drawing) for part in answer.all_parts())
    text = pdf_text(path, f"{answer.title} {DATE_LINE}", drawn=drawn)
    assert squeezed(DATE_LINE) in text
    assert not REPRS.search(text)
    check_words(Reader(text, Type().set), answer, LOOKS[0])


# that none is left out


def leaves(name: str, target: str) -> Iterator[str]:
    """The commands below an app, as they are typed."""
    command = as_command(load_object(target), name)
    yield from below(name, command)


def below(name: str, command: Any) -> Iterator[str]:
    inner = getattr(command, "commands", None)
    if inner:
        for part, under in inner.items():
            yield from below(f"{name} {part}", under)
    else:
        yield name


def tried(command: str) -> bool:
    return any(
        last == command or last.startswith(f"{command} ")
        for line in ALL
        for last in [line.split(" && ")[-1]]
    )


ELSEWHERE = {
    "demo",  # its own test walks through all its screens
    "page forget",  # needs a phone, which only a browser pairs
    "file import",  # makes a new file; its answer is a sentence
}


@pytest.mark.parametrize(("name", "target"), [(n, t) for n, _, t in Root.core])
def test_every_command_of_the_core_is_tried(name: str, target: str) -> None:
    assert [c for c in leaves(name, target) if c not in ELSEWHERE and not tried(c)] == []


@pytest.mark.parametrize("plugin", sorted(BUILT_IN))
def test_every_command_of_a_plugin_is_tried(plugin: str) -> None:
    for command in manifest_of(plugin).commands:
        missing = [c for c in leaves(command.name, command.app) if not tried(c)]
        assert missing == []


def test_every_kind_is_recorded() -> None:
    assert {line.split()[1] for line in RECORDS} == {k.name for k in SHARED_KINDS}
