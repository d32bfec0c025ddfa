"""What keepers write for food, brought to one form: `2 lg mice f/t`, `Fuzzies`, `adult cricket`."""

from __future__ import annotations

import re
from functools import lru_cache

SHORT = {
    "lg": "large",
    "lrg": "large",
    "l": "large",
    "med": "medium",
    "md": "medium",
    "m": "medium",
    "sm": "small",
    "sml": "small",
    "s": "small",
    "xl": "very large",
    "xlarge": "very large",
    "jumbo": "very large",
    "ad": "adult",
    "juv": "young",
    "wean": "weaned",
    "weanling": "weaned",
    "weaner": "weaned",
    "pink": "pinky",
    "pinkie": "pinky",
    "pinkies": "pinky",
    "fuzz": "fuzzy",
    "fuzzie": "fuzzy",
    "hpr": "hopper",
    "mice": "mouse",
    "ms": "mouse",
    "rt": "rat",
    "crix": "cricket",
    "dubia": "roach",
    "larvae": "larva",
    "woodlice": "woodlouse",
    "leaves": "leaf",
    "newborn": "day old",
    "locusts": "locust",
}
# Words that say how it was offered, not what.
THAWED = ("f", "t", "ft", "frozen", "thawed", "thaw", "live", "dead", "fresh", "killed")
SILENT = frozenset((*THAWED, "prekilled", "pre", "of", "a", "the"))
_SPLIT = re.compile(r"[^a-z0-9]+")
_ENDS = (("ies", "y"), ("ses", "s"), ("ches", "ch"), ("s", ""))
_KEPT = ("ss", "us", "greens", "weeds")


@lru_cache(maxsize=4096)
def tokens(text: str) -> frozenset[str]:
    """The words of a name in the singular, short forms written out, silent ones left out."""
    found = list[str]()
    for word in _SPLIT.split(text.lower()):
        spelled = SHORT.get(word) or SHORT.get(_singular(word)) or _singular(word)
        found += spelled.split()
    said = [w for w in found if w]
    return frozenset(w for w in said if w not in SILENT) or frozenset(said)


def plain(text: str) -> str:
    """A word as it is kept and compared: lower case, single spaces."""
    return " ".join(text.lower().split())


def _singular(word: str) -> str:
    if word.endswith(_KEPT) or len(word) < 4:
        return word
    for end, stem in _ENDS:
        if word.endswith(end):
            return word.removesuffix(end) + stem
    return word
