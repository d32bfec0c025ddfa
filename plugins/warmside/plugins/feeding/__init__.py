"""The feeding calculator: what, how much, when and why, whether it is enough, and what to buy."""

from warmside.api import Answers, Command, Manifest
from warmside.plugins.feeding.settings import SETTINGS

MANIFEST = Manifest(
    name="feeding",
    summary="Meals by weight and species, energy balance, refusals, prey in stock, orders",
    hook_level=(2, 2),
    hooks="warmside.plugins.feeding.hooks",
    commands=(
        Command(
            "feeding",
            "Meals: what, how much, when, and what to buy.",
            "warmside.plugins.feeding.commands:app",
            reads=(
                "plan",
                "balance",
                "energy",
                "foods",
                "species",
                "order",
                "diet list",
                "word list",
                "stock list",
                "pack list",
            ),
        ),
    ),
    settings=SETTINGS,
    findings=(
        ("feeding.refusing", "meals were refused; judged by weight loss and its own history"),
        ("feeding.regurgitated", "it regurgitated repeatedly: a vet before the next meal"),
        ("feeding.rest_loss", "a loss in winter rest near its limit, or at it"),
        ("feeding.underfed", "it eats less than it burns"),
        ("feeding.surplus", "an adult that has long eaten more than it needs"),
        ("feeding.no-diet", "what an animal eats is not known: the keeper says so once"),
        ("feeding.unknown-food", "meals of a word that is no known food: to be mapped once"),
        ("feeding.unweighed", "no weight on record, so no meal can be sized"),
        ("feeding.short", "planned meals need more prey than is in stock"),
        ("feeding.old", "prey that has been frozen for too long"),
    ),
    tables="warmside.plugins.feeding.tables",
    migrations="warmside.plugins.feeding.migrations",
    head="feeding0003",
    answers=(Answers("next meal"), Answers("winter rest")),
)
