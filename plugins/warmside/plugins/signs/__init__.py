"""Signs of illness that a keeper saw or wrote, and readings outside safe limits."""

from warmside.api import Answers, Command, Manifest, Unit
from warmside.plugins.signs.settings import SETTINGS

MANIFEST = Manifest(
    name="signs",
    summary="Signs of illness as seen or written, and readings outside safe limits",
    hook_level=(2, 0),
    hooks="warmside.plugins.signs.hooks",
    commands=(
        Command(
            "signs",
            "Signs of illness, condition steps.",
            "warmside.plugins.signs.commands:app",
            reads=("list", "steps"),
        ),
    ),
    settings=SETTINGS,
    findings=(
        ("signs.seen", "a sign of illness that is not gone and no vet has seen"),
        ("signs.written", "words of a sign in a note: was it one?"),
        ("signs.unsafe", "a reading beyond the safe limits of who lives there"),
        ("signs.unusual", "a reading outside the usual range of who lives there"),
        ("signs.condition", "a body condition far from good"),
    ),
    answers=(Answers("standing signs", Unit.COUNT),),
)
