"""An enclosure held against published rules for who lives in it, and when each is outgrown."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from warmside.api import (
    Basis,
    Cell,
    Column,
    Display,
    Fact,
    Kind,
    Part,
    Table,
    Tone,
    Unit,
    format_quantity,
    paragraphs,
)
from warmside.plugins.habitat.space.growing import FAMILIES, Body
from warmside.plugins.habitat.space.outgrowing import Outgrown
from warmside.plugins.habitat.space.rules import Held
from warmside.plugins.habitat.telling.space import LAW

MONTH_DAYS = 30.4375
ESTIMATE = (
    "An estimate: from its growth of late, to the size that its kind gets, masses turned into "
    "lengths by powers from 2.30 to 3.26. Measure it now and then; a rule is a least, not a wish."
)
COLUMNS = (
    Column("rule", "rule"),
    Column("ok", "met now", Kind.YESNO),
    Column("margin", "margin", Unit.PERCENT),
    Column("outgrown", "outgrown"),
    Column("from", "from", Unit.DAYS, text=False),
    Column("to", "to", Unit.DAYS, text=False),
    Column("source", "source", below=True),
)


class Ruled(Struct, frozen=True):
    """A rule held against an enclosure for one animal; None where its growth is not known."""

    held: Held
    outgrown: Outgrown | None


class Resident(Struct, frozen=True):
    """An animal with its size and the rules; no size where it was never measured."""

    code: str
    body: Body | None
    rules: tuple[Ruled, ...] = ()
    unsaid: tuple[str, ...] = ()


def outgrown_parts(residents: Sequence[Resident], display: Display) -> tuple[Part, ...]:
    """Each animal with its length and growth, and the rules as a table."""
    parts = [part for one in residents for part in _resident(one, display)]
    return (*parts, *paragraphs(ESTIMATE, LAW, tone=Tone.CAUTION))


def _resident(one: Resident, display: Display) -> Iterator[Part]:
    if one.body is None:
        yield from paragraphs(
            f"{one.code}: no length on record, and none is guessed; "
            f"warmside record measured {one.code} --total 95cm"
        )
        return
    key = one.code.casefold()
    low, high = (_rounded(mm) for mm in one.body.length)
    basis = Basis("as measured, and grown since as its mass says", FAMILIES)
    yield Fact(f"{key}_length_low", f"{one.code}, length at least", low, Unit.LENGTH)
    yield Fact(f"{key}_length_high", f"{one.code}, length at most", high, Unit.LENGTH, basis)
    yield from paragraphs(_growth(one, display))
    empty = "no rule that ships speaks of this species"
    yield Table(f"{key}_rules", COLUMNS, tuple(map(_row, one.rules)), empty=empty)
    if one.unsaid:
        yield from paragraphs(
            f"Not said, for want of its length to the vent: {'; '.join(one.unsaid)}."
        )


def _growth(one: Resident, display: Display) -> str:
    assert one.body is not None
    if one.body.per_day is None:
        return f"How fast {one.code} grows is not known: weigh or measure it two months apart."
    low, high = (format_quantity(MONTH_DAYS * mm, Unit.LENGTH, display) for mm in one.body.per_day)
    if one.body.grown is None:
        return f"It grows by {low} to {high} a month; how long it gets is not known."
    least, most = (format_quantity(_rounded(mm), Unit.LENGTH, display) for mm in one.body.grown)
    return f"It grows by {low} to {high} a month, and may get {least} to {most} long."


def _row(one: Ruled) -> tuple[Cell, ...]:
    when, held = one.outgrown, one.held
    days = (when.earliest, when.latest) if when else (None, None)
    source = f"{held.rule.source.text} ({held.rule.source.mark.value})"
    return (held.rule.name, held.ok, round(100 * held.margin), when_words(one), *days, source)


def _rounded(mm: float) -> float:
    """To a centimetre, for no tape tells more of a live animal."""
    return 10.0 * round(mm / 10)


def when_words(one: Ruled) -> str:
    """When a rule is no longer met: `in 5 to 14 months`, `not as far as is known`."""
    when = one.outgrown
    if not one.held.ok:
        return "it is now"
    if when is None:
        return "growth unknown"
    if when.earliest is None:
        return "not by what is known"
    if when.latest is None:
        return "perhaps now" if when.earliest == 0 else f"in {_months(when.earliest)} or never"
    early, late = _months(when.earliest), _months(when.latest)
    if early == late:
        return f"in about {early}"
    return f"in {early.partition(' ')[0]} to {late}"


def _months(days: float) -> str:
    months = round(days / MONTH_DAYS)
    return "1 month" if months == 1 else f"{months} months"
