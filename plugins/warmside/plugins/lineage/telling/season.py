"""A female's season in words, a table of gates and a timeline."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import (
    About,
    Animal,
    Answer,
    Ask,
    Basis,
    Cell,
    Column,
    Fact,
    Finding,
    Kind,
    Part,
    Section,
    Table,
    Tone,
    paragraphs,
)
from warmside.plugins.lineage.findings import UNFIT
from warmside.plugins.lineage.reading.eggs import Incubation, incubations, parent_of
from warmside.plugins.lineage.reading.season import Season, fitness, limits_of, season_of
from warmside.plugins.lineage.season.gates import gates
from warmside.plugins.lineage.season.windows import next_clutch, next_shed
from warmside.plugins.lineage.telling.eggs import eggs_table
from warmside.plugins.lineage.telling.season_line import season_line

GATES = (
    Column("animal", "animal"),
    Column("gate", "gate"),
    Column("held", "held"),
    Column("words", "what is known"),
    Column("source", "from"),
)
SEASONS = (
    Column("animal", "animal"),
    Column("stage", "how far"),
    Column("earliest", "lays from", Kind.DATE),
    Column("latest", "to", Kind.DATE),
    Column("late", "late"),
)
OPEN = (Column("animal", "animal"), Column("level", "how soon"), Column("words", "what is found"))
HELD = {True: "yes", False: "no", None: "not known"}
CAUTION = (
    "Pair only animals that are well, in good condition and out of quarantine. No rule here "
    "replaces a vet: straining, prolapse, weakness, a discharge, or a laying that pauses is for a "
    "vet at once, not for waiting."
)
NO_FIGURES = (
    "No figures of a season ship for this species, so no day of laying is reckoned: a vet can tell "
    "how far she is."
)


def planned_shown(ask: Ask, dam: Animal, sires: Sequence[Animal], on: date) -> Answer:
    """What was planned, whether each is fit, and what is found of each of them."""
    season = season_of(ask, dam, on)
    everyone = (dam, *sires)
    names = " and ".join(s.label for s in sires)
    parts: tuple[Part, ...] = (
        Fact("dam", "dam", dam.label),
        Fact("sires", "sires", tuple(s.label for s in sires), Kind.LIST),
        *cooling_facts(season),
        gates_table(ask, everyone, on),
        *open_findings(ask, everyone, on),
        *paragraphs(CAUTION, tone=Tone.CAUTION),
        *paragraphs("warmside undo (take it back)", tone=Tone.HINT),
    )
    return Answer(f"Planned: {dam.label} and {names}", parts)


def cooling_facts(season: Season) -> Iterator[Fact]:
    """What is usual of a cooling before pairing; the rest itself is planned with its meals."""
    figures = season.figures
    if figures is None:
        return
    weeks, warmth = figures.cooling_weeks, figures.cooling_c
    told = [f"{weeks.low:g} to {weeks.high:g} weeks"] if weeks else []
    told += [f"at {warmth.low:g} to {warmth.high:g} °C"] if warmth else []
    told += [figures.cooling_note] if figures.cooling_note else []
    if told:
        source = weeks or warmth or figures.shed_to_laying or figures.mating_to_laying
        basis = Basis("usual before pairing", source.source) if source else None
        yield Fact("cooling", "cooling, where it is done", ", ".join(told), basis=basis)


def gates_table(ask: Ask, animals: Sequence[Animal], on: date) -> Table:
    """A row a gate of each animal."""
    rows = tuple(row for animal in animals for row in _gate_rows(ask, animal, on))
    return Table("gates", GATES, rows, "Fit to be paired")


def _gate_rows(ask: Ask, animal: Animal, on: date) -> Iterator[tuple[Cell, ...]]:
    who, limits = fitness(ask, animal, on), limits_of(ask, animal)
    for gate in gates(who, limits, ask.book.home.display, on):
        source = str(gate.basis.source.mark)
        yield animal.label, gate.what, HELD[gate.held], gate.words, source


def open_findings(ask: Ask, animals: Sequence[Animal], on: date) -> Iterator[Table]:
    """What any plugin found of them, notes too: an ill animal is not paired."""
    found = [(a, f) for a in animals for f in ask.findings(on, About(a.id)) if _of(f, a)]
    if found:
        rows = tuple((a.label, f.level.value, f.words) for a, f in found)
        yield Table("findings", OPEN, rows, "What is found of them now")


def _of(finding: Finding, animal: Animal) -> bool:
    return finding.about.animal_id == animal.id and finding.code != UNFIT


def season_shown(ask: Ask, season: Season, on: date) -> Answer:
    """One female's season."""
    dam = season.animal
    eggs = [i for i in incubations(ask, on) if parent_of(i.clutch) == dam.id]
    parts: list[Part] = [*season_facts(season)]
    parts += season_line(ask, season, eggs, on)
    parts += [eggs_table(ask.book, eggs, on)] if eggs else []
    if not season.course.carries:
        parts += [*cooling_facts(season), gates_table(ask, [dam], on)]
    parts += paragraphs(*_cautions(season), tone=Tone.CAUTION)
    return Answer(f"Season of {dam.label} on {on}", tuple(parts))


def season_facts(season: Season) -> Iterator[Fact]:
    """How far she is, what comes next, and when, as ranges with their sources."""
    course, window, figures = season.course, season.window, season.figures
    yield Fact("stage", "how far", course.stage)
    shed = next_shed(course, figures)
    for coming in filter(None, (shed, next_clutch(course, figures) if not window else None)):
        basis = Basis(coming.rule, coming.source, coming.events)
        text = f"{coming.earliest} to {coming.latest}"
        yield Fact("next", coming.what, text, basis=basis)
    if window is not None:
        basis = Basis(window.rule, window.source, window.events)
        what = "gives birth" if figures and figures.bears_live else "lays"
        yield Fact("earliest", f"{what} from", window.earliest, Kind.DATE, basis)
        yield Fact("latest", "to", window.latest, Kind.DATE, basis)
        yield Fact("sure", "carrying is sure", "yes" if window.sure else "no")


def _cautions(season: Season) -> Iterator[str]:
    if season.late is not None:
        yield season.late.words[0].upper() + season.late.words[1:] + "."
    if season.figures is None:
        yield NO_FIGURES
    yield CAUTION


def seasons_told(ask: Ask, found: Sequence[Season], eggs: Sequence[Incubation], on: date) -> Answer:
    """All females of the season and all eggs."""
    hint = "nothing was seen this season; plan a pair: warmside lineage season plan DAM SIRE"
    table = Table("females", SEASONS, tuple(map(_season_row, found)), "Females", hint)
    parts: tuple[Part, ...] = (table, eggs_table(ask.book, eggs, on))
    return Answer(f"Season on {on}", parts)


def _season_row(season: Season) -> tuple[Cell, ...]:
    window, late = season.window, season.late
    return (
        season.animal.label,
        season.course.stage,
        window.earliest if window else None,
        window.latest if window else None,
        late.words if late else None,
    )


def season_section(ask: Ask, season: Season, on: date) -> Iterator[Section]:
    """The season for a report; nothing where nothing was seen."""
    eggs = [i for i in incubations(ask, on) if parent_of(i.clutch) == season.animal.id]
    if season.course.signs or eggs:
        parts: list[Part] = [*season_facts(season), *season_line(ask, season, eggs, on)]
        parts += [eggs_table(ask.book, eggs, on)] if eggs else []
        yield Section("Season", tuple(parts), 425)
