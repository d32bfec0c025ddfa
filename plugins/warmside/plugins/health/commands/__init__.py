"""`warmside health`: the cases of illness, and the courses that a vet ordered."""

from warmside.plugins.health.commands import following, ordering
from warmside.plugins.health.commands.listing import app

app.command("order")(ordering.order_course)
app.command("stop")(ordering.stop_course)
app.command("food")(following.food)
app.command("visit")(following.visit)
app.command("case")(following.show_case)

__all__ = ["app"]
