"""`warmside feeding order`: what to buy for the next weeks."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Unit, parse_quantity, session_of
from warmside.plugins.feeding.planning.forecast import Forecast, forecast
from warmside.plugins.feeding.planning.whole import subjects_by_part
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.noted import packs
from warmside.plugins.feeding.reading.stock import stock
from warmside.plugins.feeding.stock.order import Pack, check_pack
from warmside.plugins.feeding.stock.order import order as ordered
from warmside.plugins.feeding.telling.order import told
from warmside.plugins.feeding.telling.plan import no_row

MOST_WEEKS = 52


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
    with session_of(context).ask() as ask:
        reading = Reading(ask, ask.book.today)
        ids = tuple(ask.book.animals_here())
        reading.load(ids)
        known = [p for p in packs(ask.book) if p.prey not in {t.prey for t in typed}]
        planned = [meals for i in ids for meals in planned_meals(reading, i, weeks)]
        found = ordered(planned, stock(ask, ask.book.today), [*known, *typed])
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


def planned_meals(reading: Reading, animal_id: int, weeks: int) -> Iterator[Forecast]:
    """The meals of one animal to come, part by part; where nothing can be said, why."""
    animal = reading.book.animals[animal_id]
    subject = reading.subject(animal_id)
    if subject is None:
        yield Forecast(animal.label, (), no_row(animal.species.scientific).partition(":")[0])
        return
    told = (lambda day: reading.mass_on(animal_id, day)) if subject.expected else None
    for part in subjects_by_part(subject):
        yield forecast(animal.label, part, reading.on, weeks, reading.rules, told)
