"""`warmside health`: the cases of illness, and the courses that a vet ordered."""

from warmside.plugins.health.commands import ordering
from warmside.plugins.health.commands.listing import app

app.command("order")(ordering.order_course)
app.command("stop")(ordering.stop_course)

__all__ = ["app"]
