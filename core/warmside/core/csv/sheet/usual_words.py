"""Words and signs that keepers write into cells, whatever the column."""

from __future__ import annotations

YES = frozenset(["y", "yes", "ja", "oui", "si", "x", "✓", "✔", "√", "true", "ok", "done", "1"])
NO = frozenset(["n", "no", "nein", "non", "false", "nope", "✗", "✘", "0"])
NOTHING = frozenset(
    ("", "-", "--", "---", "–", "—", "n/a", "na", "n.a.", "none", "nil", "null", "/", "#n/a", ".")
)
DITTO = frozenset(
    ('"', "''", "〃", "do.", "ditto", "dito", ",,", "”", "“", "same", "as above", "↓")
)
TOTALS = ("total", "totals", "sum", "average", "avg", "mean", "count", "grand total", "subtotal")
"""How the first cell of a row below the table begins that is no record."""

TAKEN, REFUSED, PART, BACK = "taken", "refused", "part taken", "regurgitated"
OUTCOMES = {
    **dict.fromkeys((*YES, "ate", "eaten", "taken", "took", "accepted", "all", "fed", "a"), TAKEN),
    **dict.fromkeys((*NO, "refused", "refuse", "ref", "not eaten", "rejected", "r"), REFUSED),
    **dict.fromkeys(("part taken", "part", "partial", "partly", "half", "some", "p"), PART),
    **dict.fromkeys(("regurgitated", "regurg", "regurge", "regurgitation", "threw up"), BACK),
}
"""What came of a meal; `r` beside `n` in one column has two meanings and is asked about."""

CHOICES: dict[str, dict[str, str]] = {
    "fed.outcome": OUTCOMES,
    "shed.outcome": {
        **dict.fromkeys(
            ("complete", "whole", "full", "one", "good", "clean", "perfect"), "one piece"
        ),
        **dict.fromkeys(
            ("partial", "incomplete", "bits", "in bits", "bad", "stuck", "patchy", "in pieces"),
            "pieces",
        ),
    },
    "shedding.stage": {**dict.fromkeys(("blue", "in blue", "cloudy", "milky"), "opaque")},
    "cleaned.extent": {
        **dict.fromkeys(("deep", "complete", "whole"), "full"),
        "spot clean": "spot",
    },
    "defecated.looks": {**dict.fromkeys(("ok", "good", "fine"), "normal"), "runny": "loose"},
}
"""Other words for the choices of a field."""

FORMS = {
    **dict.fromkeys(("f/t", "ft", "frozen/thawed", "thawed", "frozen"), "thawed"),
    **dict.fromkeys(("f/k", "fk", "p/k", "pk", "prekilled", "pre-killed"), "fresh killed"),
    "live": "live",
}
PREY = (
    *("mouse", "mice", "rat", "rats", "pinky", "pinkie", "pinkies", "fuzzy", "fuzzies", "hopper"),
    *("weaner", "weanling", "cricket", "crickets", "roach", "roaches", "locust", "locusts"),
    *("mealworm", "mealworms", "worm", "worms", "chick", "quail", "rabbit", "gerbil", "egg"),
    *("greens", "salad", "powder", "superworm", "superworms", "hornworm", "hornworms"),
)
"""Words by which cells are known to name food; what they are exactly is not judged here."""

KINDS = {
    **dict.fromkeys(("fed", "feed", "feeding", "food", "meal", "ate", "offered"), "fed"),
    **dict.fromkeys(("weight", "weighed", "weigh", "weigh in", "weigh-in", "weighing"), "weighed"),
    **dict.fromkeys(("shed", "sheds", "slough", "shed skin"), "shed"),
    **dict.fromkeys(("blue", "in blue", "shedding", "opaque", "pre-shed"), "shedding"),
    **dict.fromkeys(
        ("poop", "pooped", "poo", "defecated", "feces", "faeces", "stool"), "defecated"
    ),
    **dict.fromkeys(("clean", "cleaned", "cleaning"), "cleaned"),
    **dict.fromkeys(("water", "watered", "water change", "fresh water"), "watered"),
    **dict.fromkeys(("mist", "misted", "misting"), "misted"),
    **dict.fromkeys(("length", "measured", "measurement"), "measured"),
    **dict.fromkeys(("note", "notes", "observed", "observation", "other", "misc"), "observed"),
    **dict.fromkeys(("vet", "vet visit", "examined"), "examined"),
    **dict.fromkeys(("treated", "treatment"), "treated"),
}
"""What keepers call the kinds of events."""


def folded(text: str) -> str:
    """The text for comparing: without case, outer blanks and a closing point or question mark."""
    return " ".join(text.casefold().split()).rstrip(" ?!:*") if text else ""


def is_nothing(text: str) -> bool:
    """Whether a cell says that there is nothing."""
    return not text or text.casefold().strip() in NOTHING


def is_ditto(text: str) -> bool:
    """Whether a cell repeats the one above."""
    return text.casefold().strip() in DITTO
