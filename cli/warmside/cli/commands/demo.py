"""`warmside demo`: the main job in an invented collection, each command with its output."""

from __future__ import annotations

import contextlib
import csv
import io
import shlex
import sys
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Annotated, Any

import typer

from warmside.cli.demo_events import COLUMNS, characters, demo_rows
from warmside.cli.demo_readings import demo_readings
from warmside.cli.whereis import VARIABLE
from warmside.core.answers.parts import Answer, Column, Fact, Kind, Table, Tone, Words
from warmside.core.session.session import session_of
from warmside.core.values.errors import FileProblem, Refused, WarmsideError
from warmside.core.values.units import Unit

app = typer.Typer()
Step = tuple[str, tuple[str, ...]]  # what is done, and the command


@app.command("")
def demo(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(help="A new folder for the demo.")] = Path(
        "warmside-demo"
    ),
) -> Answer:
    """Build an invented collection and walk through the main job, showing every command."""
    session = session_of(context)
    silent = bool(context.meta.get("warmside.as_json"))
    made = new_folder(folder)
    today = session.now.date()
    write_events(made / "events.csv", today)
    write_readings(made / "logger.csv", session.now)
    collection = made / "demo.warmside"
    done = [walk_step(what, command, collection, silent) for what, command in steps(made, today)]
    return told(made, collection, done)


def new_folder(folder: Path) -> Path:
    """The folder, made now; raises Refused where something is in it already."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise Refused(f"{folder} is there already; name another: warmside demo FOLDER")
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileProblem(f"cannot make the folder {folder}: {error.strerror}") from error
    return folder.resolve()


def write_events(path: Path, today: date) -> None:
    """The invented years as a spreadsheet would save them."""
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, COLUMNS)
        writer.writeheader()
        writer.writerows(demo_rows(today))


def write_readings(path: Path, now: datetime) -> None:
    """An invented week of an enclosure, as a logger would save it."""
    rows = [",".join(str(value) for value in row) for row in demo_readings(now)]
    path.write_text("\n".join(["time,warm,cool,humidity", *rows, ""]), encoding="utf-8")


def steps(folder: Path, today: date) -> Iterator[Step]:
    """The main job, command by command."""
    yield from set_up(folder, today)
    yield from daily_round()
    yield from newcomer()
    yield from enclosure(folder)
    yield from season(folder, today)
    yield from papers(folder)


def set_up(folder: Path, today: date) -> Iterator[Step]:
    """A collection with its enclosures, animals and invented past."""
    hatched = {c.code: c.hatched.isoformat() for c in characters(today)}
    new = ("new", "--name", "The demo room (invented)", "--zone", "Europe/Vienna")
    yield "make a collection", (*new, "--units", "metric")
    yield "enter the enclosures", place("Low shelf", "study", "90cm", "45cm", "45cm")
    yield "", place("Window bench", "study", "90cm", "45cm", "50cm")
    yield "", place("Tall cabinet", "sitting room", "120cm", "60cm", "120cm")
    yield "", place("Hall box", "hall", "80cm", "50cm", "40cm")
    for what, name, species, sex, code, home in (
        ("enter three animals", "Tuppence", "Kenyan sand boa", "female", "TUP", "LOW"),
        ("", "Moth", "leopard gecko", "male", "MOT", "WIN"),
        ("", "Barnaby", "carpet python", "male", "BAR", "TAL"),
    ):
        born = hatched[code][:4] if name == "Barnaby" else hatched[code]
        entered = ("animal", "add", name, "--species", species, "--sex", sex, "--hatched", born)
        yield what, (*entered, "--enclosure", home, *since(today))
    yield "import three invented years", ("import", str(folder / "events.csv"))


def daily_round() -> Iterator[Step]:
    """What is due, and recording what was done."""
    for name in ("rhythm", "feeding", "weight", "shed", "labels"):
        yield ("enable the plugins" if name == "rhythm" else ""), ("plugin", "enable", name)
    yield "set a rhythm of one's own", ("rhythm", "set", "watered", "--every", "7")
    yield "what is due today?", ("today",)
    yield "record what was done", ("record", "watered", "--all")
    yield "", ("record", "weighed", "TUP=431g")


def newcomer() -> Iterator[Step]:
    """A fourth animal, kept apart."""
    yield "a fourth animal comes: switch quarantine on first", ("plugin", "enable", "quarantine")
    arrive = ("arrive", "Saffron", "--species", "rainbow boa", "--how", "bought")
    yield "", (*arrive, "--from", "an invented keeper", "--enclosure", "HAL")
    yield "the timer", ("quarantine", "show")
    yield "the round now: the newcomer last", ("today",)


def enclosure(folder: Path) -> Iterator[Step]:
    """One enclosure described, thing by thing, its logger read, its set-up sheet written."""
    add = ("habitat", "add")
    yield "how an enclosure is set up, and why", ("plugin", "enable", "habitat")
    zones = "warm side 40cm, middle 20cm, cool side 30cm"
    box = ("--wall", "wood", "--wall-thickness", "15mm", "--zones", zones)
    yield "", ("habitat", "describe", "LOW", *box)
    for kind, zone, size, why in (
        ("hide", "warm side", "25cm 20cm 7cm", "to be warm without being seen"),
        ("humid-hide", "middle", "16cm 16cm 9cm", "damp moss for the days before a shed"),
        ("hide", "cool side", "25cm 20cm 7cm", "to be cool without being seen"),
    ):
        yield "", (*add, kind, "LOW", "--zone", zone, *sized(size), "--front", "22cm", "--why", why)
    bowl = ("--left", "72cm", "--why", "away from the heat and from mains")
    yield "", (*add, "water-bowl", "LOW", "--zone", "cool side", *sized("14cm 14cm 5cm"), *bowl)
    safe = ("--thermostat", "yes", "--reach", "no", "--guard", "yes", "--bottom", "42cm")
    panel = (*sized("35cm 35cm 3cm"), "--watts", "60", *safe, "--why", "warm from above")
    yield "", (*add, "panel", "LOW", "--zone", "warm side", *panel)
    probes = ("warm=warm side", "cool=cool side", "humidity=cool side:humidity")
    given = [part for probe in probes for part in ("--probe", probe)]
    yield "a logger hangs in it, and its file is read", ("habitat", "logger", "LOW", "grey", *given)
    yield "", ("habitat", "read", "grey", str(folder / "logger.csv"))
    yield "its zones, against what the species needs", ("habitat", "zones", "LOW")
    sheet = ("habitat", "show", "LOW", "--save", str(folder / "set-up.pdf"))
    yield "the set-up sheet, for whoever asks how and why", sheet


def season(folder: Path, today: date) -> Iterator[Step]:
    """A pair, what it can give, its eggs and young, and the drawn family."""

    def ago(days: int) -> tuple[str, str]:
        return "--at", (today - timedelta(days=days)).isoformat()

    yield "a pair: switch families and genes on", ("plugin", "enable", "lineage", "genes")
    for shelf in ("Fern's shelf", "Rust's shelf"):
        yield "", place(shelf, "study", "120cm", "60cm", "50cm")
    for name, sex, home in (("Fern", "female", "FER"), ("Rust", "male", "RUS")):
        born = ("--hatched", str(today.year - 5), "--enclosure", home, *since(today))
        yield "", ("animal", "add", name, "--species", "corn snake", "--sex", sex, *born)
    yield "", ("record", "weighed", "FER=655g", "RUS=528g")
    yield "", ("record", "fed", "FER", "RUS", "--item", "adult mouse", "--count", "1")
    yield "what they carry", ("genes", "known", "FER", "visual amelanistic", *ago(200))
    yield "", ("genes", "known", "RUS", "het amelanistic", *ago(200))
    yield "what the pair can give", ("genes", "plan", "FER", "RUS", "--young", "12")
    yield "its mating, and its eggs", ("record", "mated", "FER", "--partner", "RUS", *ago(110))
    eggs = ("--eggs", "6", "--misfit", "1", "--kept", "28C")
    yield "", ("lineage", "laid", "FER", *eggs, *ago(60))
    yield "", ("lineage", "eggs", "check", "C1", "--good", "5", *ago(5))
    young = ("7g f normal", "7.2g visual amelanistic", "6.8g normal", "7g visual amelanistic")
    yield "all young in one step", ("lineage", "hatch", "C1", *young)
    drawing = ("--trait", "amelanistic", "--save", str(folder / "family.svg"))
    yield "their family as a drawing", ("lineage", "draw", "FER", *drawing)


def since(today: date) -> tuple[str, str]:
    """That an animal has been here for three years."""
    return "--since", (today - timedelta(days=1100)).isoformat()


def sized(text: str) -> tuple[str, ...]:
    """Width, depth and height as options."""
    pairs = zip(("--width", "--depth", "--height"), text.split(), strict=True)
    return tuple(part for pair in pairs for part in pair)


def papers(folder: Path) -> Iterator[Step]:
    """What is printed and written, and whether all is well."""
    yield "ID labels for all enclosures", ("labels", "print", str(folder / "labels.pdf"))
    report = ("report", "TUP", "--last", "10", "--save", str(folder / "tuppence.pdf"))
    yield "the story of one animal, for a vet or sitter", report
    yield "the coming weeks as a calendar", ("calendar", str(folder / "round.ics"))
    yield "is the file sound?", ("file", "check")


def place(name: str, room: str, width: str, depth: str, height: str) -> tuple[str, ...]:
    """The command that enters an enclosure."""
    return (
        *("enclosure", "add", name, "--room", room),
        *("--width", width, "--depth", depth, "--height", height),
    )


def walk_step(
    what: str, command: tuple[str, ...], collection: Path, silent: bool
) -> tuple[str, str, int]:
    """Run one command, showing it and its output; returns both and the exit code."""
    from warmside.cli.running import run

    typed = shlex.join(("warmside", *command))
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        code = run(["--collection", str(collection), *command])
    if not silent:
        heading = f"\n# {what}\n" if what else ""
        sys.stdout.write(f"{heading}$ {typed}\n{without_hints(out.getvalue())}\n")
        sys.stdout.flush()
    if code:
        raise WarmsideError(f"the demo stopped at: {typed}")
    return typed, out.getvalue(), code


def without_hints(output: str) -> str:
    """The output without what to type next, since the demo types it itself."""
    lines = [x for x in output.splitlines() if not x.startswith("next: ")]
    return "\n".join(lines).rstrip() + "\n"


def told(folder: Path, collection: Path, done: list[tuple[str, str, int]]) -> Answer:
    """Where everything lies, and what to type next."""
    columns = (Column("command", "command"), Column("output", "output"))
    commands: Any = tuple((typed, output) for typed, output, _ in done)
    facts = (
        Words("Everything in this demo is invented."),
        Fact("folder", "folder", str(folder)),
        Fact("collection", "collection", str(collection), Kind.TEXT),
        Fact("labels", "labels", str(folder / "labels.pdf")),
        Fact("steps", "commands", len(done), Unit.COUNT),
        Words(f"set {VARIABLE}={collection} and type: warmside today", Tone.HINT),
    )
    hidden = tuple(Column(c.key, c.title, text=False) for c in columns)
    return Answer("", (*facts, Table("commands", hidden, commands, empty="")))
