"""Genes: what animals carry by all that is known of their family, and what pairs can produce."""

from warmside.api import Answers, Command, Manifest, Unit
from warmside.plugins.genes.settings import SETTINGS

MANIFEST = Manifest(
    name="genes",
    summary="Exact chances from the whole family, pairings, traits known to harm",
    hook_level=(2, 0),
    hooks="warmside.plugins.genes.hooks",
    commands=(
        Command(
            "genes",
            "Genes: what an animal carries, what a pair can produce.",
            "warmside.plugins.genes.commands:app",
            reads=("show", "pair", "plan", "traits", "clutch", "ratio", "prove"),
        ),
    ),
    settings=SETTINGS,
    findings=(
        ("genes.clash", "what is recorded of a family's genes cannot all be true"),
        ("genes.disproved", "a stated genotype that what was seen contradicts"),
        ("genes.doubtful", "a stated het that the young leave unlikely"),
        ("genes.harmful", "a pair that can give its young a trait known to harm"),
    ),
    tables="warmside.plugins.genes.tables",
    migrations="warmside.plugins.genes.migrations",
    head="genes0001",
    answers=(
        Answers("clutch odds", Unit.PROBABILITY),
        Answers("copies of traits", Unit.COUNT),
    ),
)
