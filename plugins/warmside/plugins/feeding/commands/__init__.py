"""`warmside feeding`: its commands, a file each."""

from __future__ import annotations

import typer

from warmside.plugins.feeding.commands import (
    balance,
    diet,
    energy,
    fed,
    foods,
    order,
    own,
    pack,
    plan,
    rest,
    species,
    stock,
    thaw,
    word,
)

app = typer.Typer(help="Meals: what, how much, when, and what to buy.", no_args_is_help=True)
app.command("plan")(plan.plan)
app.command("fed")(fed.fed)
app.command("thaw")(thaw.thaw)
app.command("balance")(balance.balance)
app.command("energy")(energy.energy)
app.command("foods")(foods.foods)
app.command("species")(species.species)
app.command("set")(own.set_own)
app.command("drop")(own.drop)
app.command("rest")(rest.rest)
app.command("order")(order.order)
app.add_typer(diet.app, name="diet")
app.add_typer(word.app, name="word")
app.add_typer(stock.app, name="stock")
app.add_typer(pack.app, name="pack")
