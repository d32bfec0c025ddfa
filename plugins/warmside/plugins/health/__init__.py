"""Cases of illness: what was seen, what the vet said, what is awaited, and when to look again."""

from warmside.api import Command, Manifest

MANIFEST = Manifest(
    name="health",
    summary="Cases of illness: what was seen and said, what is awaited, the recheck",
    hook_level=(2, 0),
    hooks="warmside.plugins.health.hooks",
    commands=(Command("health", "Cases of illness.", "warmside.plugins.health.commands:app"),),
    findings=(("health.case", "a case that is not closed"),),
)
