"""`warmside feeding order`: what to buy for the next weeks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Cell,
    Column,
    Fact,
    Kind,
    Table,
    Unit,
    Words,
    parse_quantity,
    session_of,
)
from warmside.plugins.feeding.forecast import Forecast, forecast
from warmside.plugins.feeding.order import Order, OrderLine, Pack, check_pack
from warmside.plugins.feeding.order import order as ordered
from warmside.plugins.feeding.own_rows import packs
from warmside.plugins.feeding.plan_told import no_row
from warmside.plugins.feeding.prey import prey_named
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.stock_rows import stock

MOST_WEEKS = 52
COLUMNS = (
    Column("prey", "prey", Kind.CODE, text=False),
    Column("name", "prey"),
    Column("planned", "planned", Unit.COUNT),
    Column("stock", "in stock", Unit.COUNT),
    Column("short", "short", Unit.COUNT),
    Column("packs", "buy"),
    Column("bought", "items", Unit.COUNT),
    Column("cost", "cost", Unit.MONEY),
)
ANIMAL_COLUMNS = (
    Column("animal", "who"),
    Column("meals", "meals", Unit.COUNT),
    Column("words", "why"),
)


def order(
    context: typer.Context,
    weeks: Annotated[int, typer.Option(help="For so many weeks.")] = 4,
    pack: Annotated[
        list[str] | None,
        typer.Option(
            "--pack", help="A pack beside those set: mouse-adult=25@30.50.", metavar="PACK"
        ),
    ] = None,
) -> Answer:
    """What to buy for the whole collection, less the stock, in packs, with the reasoning."""
    if not 1 <= weeks <= MOST_WEEKS:
        raise BadInput(f"{weeks} weeks to plan; give 1 to {MOST_WEEKS}")
    typed = [parse_pack(p) for p in pack or ()]
    with session_of(context).read() as book:
        reading = Reading(book, book.today)
        ids = tuple(book.animals_here())
        reading.load(ids)
        known = [p for p in packs(book) if p.prey not in {t.prey for t in typed}]
        planned = [planned_meals(reading, i, weeks) for i in ids]
        found = ordered(planned, stock(book, book.today), [*known, *typed])
    return told(found, weeks)


def parse_pack(text: str) -> Pack:
    """A pack as typed: class, `=`, size, and `@` with its price."""
    prey, equals, rest = text.partition("=")
    size, at, price = rest.partition("@")
    if not equals or not size.strip().lstrip("-").isdigit():
        raise BadInput(
            f"pack {text!r} cannot be read; write mouse-adult=25 or mouse-adult=25@30.50"
        )
    cost = parse_quantity(price, Unit.MONEY, what="price") if at else None
    return check_pack(Pack(prey, int(size), cost))


def planned_meals(reading: Reading, animal_id: int, weeks: int) -> Forecast:
    """The meals of one animal to come; none where nothing can be said, and why."""
    animal = reading.book.animals[animal_id]
    subject = reading.subject(animal_id)
    if subject is None:
        return Forecast(animal.label, (), no_row(animal.species.scientific).partition(":")[0])
    told = (lambda day: reading.mass_on(animal_id, day)) if subject.expected else None
    return forecast(animal.label, subject, reading.on, weeks, reading.rules, told)


def told(found: Order, weeks: int) -> Answer:
    """The order as an answer."""
    rows = tuple(_row(line) for line in found.lines)
    animals = tuple((f.name, sum(m.count for m in f.meals), f.words) for f in found.animals)
    open_prices = [prey_named(code).name for code in found.unpriced]
    notes = [Words(f"no price for: {', '.join(open_prices)}")] if open_prices else []
    return Answer(
        f"Order for {weeks} weeks",
        (
            Table("lines", COLUMNS, rows, empty="no meal is planned"),
            Fact("cost", "cost of what has a price", found.cost, Unit.MONEY),
            *notes,
            Table("animals", ANIMAL_COLUMNS, animals, "Planned items by animal"),
            Words("an estimate by usual growth and intervals; look at it before buying"),
        ),
    )


def _row(line: OrderLine) -> tuple[Cell, ...]:
    return (
        line.prey,
        prey_named(line.prey).name,
        line.planned,
        line.stock,
        line.short,
        _packs(line.packs),
        line.bought,
        line.cost,
    )


def _packs(bought: Sequence[tuple[Pack, int]]) -> str:
    return ", ".join(f"{n} × {p.size}" if p.size > 1 else f"{n} single" for p, n in bought) or "–"
