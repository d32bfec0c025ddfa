"""`warmside health`: cases, courses, visits, samples, deaths, and the vets to call."""

from warmside.plugins.health.commands import appointing, following, mourning, ordering, vets
from warmside.plugins.health.commands.listing import app

app.command("order")(ordering.order_course)
app.command("stop")(ordering.stop_course)
app.command("food")(following.food)
app.command("visit")(following.visit)
app.command("case")(following.show_case)
app.command("appointment")(appointing.appointment)
app.command("sample")(appointing.sample)
app.command("result")(appointing.result)
app.command("vaccinated")(appointing.vaccinated)
app.command("awaited")(appointing.show_awaited)
app.command("death")(mourning.death)
app.command("vets")(vets.show_vets)
app.command("vet")(vets.keep_vet)
app.command("drop-vet")(vets.drop_vet)

__all__ = ["app"]
