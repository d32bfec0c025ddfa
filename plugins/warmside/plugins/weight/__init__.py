"""Percentiles against a reference or an animal's own channel, growth, loss, slips."""

from warmside.api import Answers, Command, Manifest, Unit
from warmside.plugins.weight.settings import SETTINGS

MANIFEST = Manifest(
    name="weight",
    summary="Weights: percentiles, own growth curve, loss and gain, condition, typing errors",
    hook_level=(2, 0),
    hooks="warmside.plugins.weight.hooks",
    commands=(
        Command(
            "weight",
            "Weights: percentiles, growth, loss, references.",
            "warmside.plugins.weight.commands:app",
            reads=("show", "chart", "growth", "condition", "reference list", "reference show"),
        ),
    ),
    settings=SETTINGS,
    answers=(
        Answers("mass", Unit.MASS),
        Answers("adult mass", Unit.MASS),
        Answers("weight_loss", Unit.PERCENT),
    ),
    findings=(
        ("weight.loss", "a tenth of its mass lost, or more than a known reason costs"),
        ("weight.wasting", "slowly losing mass without a known reason"),
        ("weight.centile-lines", "two or more major centile lines of a reference crossed"),
        ("weight.off-channel", "left its own channel between the centile lines"),
        ("weight.stalled", "a juvenile that hardly grows"),
        ("weight.fast-gain", "an adult that gains fast"),
        ("weight.years-gain", "an adult that gained much in a year"),
        ("weight.after-laying", "lighter after a clutch or litter"),
        ("weight.cooling", "lighter in winter cooling, within what is expected"),
        ("weight.doubt", "a weighing that looks mistyped or like another animal's"),
        ("weight.before-hatching", "a weighing dated before the animal hatched"),
    ),
    tables="warmside.plugins.weight.tables",
    migrations="warmside.plugins.weight.migrations",
    head="weight0001",
)
