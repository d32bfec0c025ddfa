"""What to know of signs and readings: what was seen, how soon, and that a vet is to see it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from warmside.api import (
    About,
    Basis,
    Display,
    Event,
    Finding,
    Level,
    Mark,
    Source,
    Unit,
    format_quantity,
)
from warmside.plugins.signs.climate.judging import Judged
from warmside.plugins.signs.seen.known_signs import KnownSign
from warmside.plugins.signs.seen.standing import Said, Written

CUSTOM = Source("keepers' custom, in line with vets' leaflets", Mark.COMMON_PRACTICE)
SOON = {
    Level.ACT_NOW: "see a vet today",
    Level.LOOK_SOON: "see a vet within days",
    Level.NOTE: "watch it, and see a vet if it stays",
}
HEAT = "turn the heat down or off, give a cooler place, offer water; limp or gaping: a vet today"
COLD = "warm the enclosure slowly and look for the failed heater; stiff or limp: a vet today"


def seen(animal: int, code: str, known: KnownSign, run: Sequence[Said]) -> Finding:
    """A sign that stands since its first sighting."""
    first, last = run[0].day, run[-1].day
    days = f"since {first}" if first == last else f"since {first}, last {last}"
    where = f" ({run[-1].where})" if run[-1].where else ""
    words = (
        f"{known.word}{where}, {days}: {SOON[known.level]}; meanwhile: {known.care}. It stays here "
        f'until a vet visit or: warmside record sign {code}="{known.word}" --state gone'
    )
    basis = Basis("a sign that the keeper saw", known.source, tuple(s.event for s in run))
    return Finding("signs.seen", known.level, words, basis, About(animal))


def written(animal: int, code: str, known: KnownSign, note: Written) -> Finding:
    """A note that names a sign: was it one?"""
    text = note.text if len(note.text) <= 60 else f"{note.text[:57]}..."
    words = (
        f'is that a sign ({known.word})? "{text}" of {note.day}. If so: {SOON[known.level]}, and: '
        f'warmside record sign {code}="{known.word}"; if not, add: --state "not so"'
    )
    basis = Basis("words of a sign in a note", known.source, (note.event,))
    return Finding("signs.written", note.level, words, basis, About(animal))


def condition(animal: int, score: int, step: str, day: date, event: int) -> Finding | None:
    """A body that is wasted or obese; nothing between."""
    told = {
        1: (Level.LOOK_SOON, "wasted", "see a vet within days"),
        5: (Level.NOTE, "obese", "speak with a vet about food and movement; no fasting cure"),
    }
    if score not in told:
        return None
    level, word, what = told[score]
    basis = Basis(f"score {score} of 5 by eye{': ' if step else ''}{step}", CUSTOM, (event,))
    return Finding("signs.condition", level, f"{word} on {day}: {what}", basis, About(animal))


def climate(
    enclosure: int,
    who: str,
    wrong: Judged,
    stands: bool,
    event: Event,
    source: Source,
    show: Display,
) -> Finding:
    """A reading that is wrong for those who live there; `stands` where it is surely no chance."""
    unit = Unit.PERCENT if wrong.is_damp else Unit.TEMPERATURE
    value, limit = (format_quantity(x, unit, show) for x in (wrong.value, wrong.limit))
    act = f": {'an emergency; ' if wrong.emergency else ''}{HEAT if 'hot' in wrong.what else COLD}"
    words = f"{wrong.what} for {who}: {value} on {event.day}, limit {limit}"
    if wrong.unsafe:
        words += f"{act}; read again"
    elif stands:
        words += "; look at heater, water and thermometer, read again"
    else:
        words += "; one reading so far, read again"
    level = Level.LOOK_SOON if stands else Level.NOTE
    code = "signs.unsafe" if wrong.unsafe else "signs.unusual"
    basis = Basis("the last readings against what lives there", source, (event.id,))
    about = About(enclosure_id=enclosure)
    return Finding(code, Level.ACT_NOW if wrong.unsafe else level, words, basis, about)
