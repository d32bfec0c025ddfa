"""Which line of any plugin goes where on a label, by the last word of its key.

Plugins never know each other: whoever gives a label line called `<plugin>.since` fills the day on a
quarantine sign, `<plugin>.next-meal` the meal on a sitter's strip; SLOTS has all such words. The
keeper's own notes are lines of this plugin with the same last words; they come before others.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from warmside.api import LabelLine
from warmside.plugins.labels.content.label import LabelKind, LabelText, Style

OWN = "labels"
DONOT = "donot"  # what not to do adds up, from whomever it comes
SLOTS: Mapping[str, tuple[str, ...]] = {
    "genes": ("genes", "known"),
    "feeding": ("diet",),
    "meal": ("next-meal",),
    "misting": ("misting",),
    "donot": ("do-not",),
    "since": ("since",),
    "end": ("end", "earliest-end"),
    "tools": ("tools",),
    "hazard": ("hazard",),
}
NOTED: Mapping[str, str] = {
    "genes": "the animal's genes as text, on its card and its enclosure's label",
    "feeding": "how it is fed, on its card",
    "meal": "the next meal, on a sitter's strip",
    "misting": "when to mist, on a sitter's strip",
    "donot": "what not to do, on a sitter's strip; several parted by semicolons",
    "tools": "the tools of its own, on a quarantine sign",
    "hazard": "the kind of danger, for a hazard sign",
}
USED_ON: Mapping[str, tuple[LabelKind, ...]] = {
    "genes": (LabelKind.ANIMAL, LabelKind.ENCLOSURE),
    "feeding": (LabelKind.ANIMAL,),
    "meal": (LabelKind.SITTER,),
    "misting": (LabelKind.SITTER,),
    "donot": (LabelKind.SITTER,),
    "since": (LabelKind.DOOR,),
    "end": (LabelKind.DOOR,),
    "tools": (LabelKind.DOOR,),
    "hazard": (LabelKind.HAZARD,),
}
_LEADS = {"since": ("since ",), "end": ("release not before ", "not before ", "earliest end ")}


def note_key(slot: str) -> str:
    """The key of the label line that a note of the keeper for a slot becomes."""
    return f"{OWN}.{SLOTS[slot][0]}"


def is_own(line: LabelLine) -> bool:
    """Whether the line is a note of the keeper."""
    return line.key.partition(".")[0] == OWN


def slot_of(key: str) -> str | None:
    """The slot that a line of that key fills, if it fills one."""
    ending = key.rpartition(".")[2]
    return next((slot for slot, words in SLOTS.items() if ending in words), None)


def texts_for(slot: str, lines: Iterable[LabelLine]) -> list[str]:
    """What goes into a slot: the keeper's notes, else what the plugins say; each text once."""
    fitting = [line for line in lines if slot_of(line.key) == slot]
    own = [line for line in fitting if line.key == note_key(slot)]
    chosen = fitting if slot == DONOT else own or fitting
    texts = [_bare(slot, line.text) for line in chosen]
    if slot == DONOT:
        texts = [part for text in texts for part in text.split(";")]
    return list(dict.fromkeys(text.strip() for text in texts if text.strip()))


def _bare(slot: str, text: str) -> str:
    """The text without the words that the label itself puts before it."""
    for lead in _LEADS.get(slot, ()):
        text = text.rpartition(lead)[2]
    return text


def told(texts: Mapping[str, Sequence[str]]) -> str:
    """Texts by animal in one line; names stand before them where animals differ."""
    said = {name: ", ".join(t) for name, t in texts.items() if t}
    if len(texts) == 1 or (len(said) == len(texts) and len(set(said.values())) == 1):
        return next(iter(said.values()), "")
    return "; ".join(f"{name}: {text}" for name, text in said.items())


def extra_lines(
    lines: Mapping[str, Sequence[LabelLine]], place_lines: Sequence[LabelLine] = ()
) -> list[LabelText]:
    """The lines of plugins by key, ready to be picked.

    Those about the enclosure of a label only where there are none of that key about its animals.
    """
    animals = [line for mine in lines.values() for line in mine]
    known = {line.key for line in animals}
    ordered = sorted((line.order, line.key) for line in (*animals, *place_lines))
    found = []
    for key in dict.fromkeys(key for _, key in ordered):
        texts = {name: [x.text for x in mine if x.key == key] for name, mine in lines.items()}
        text = (
            told(texts) if key in known else ", ".join(x.text for x in place_lines if x.key == key)
        )
        found.append(LabelText(text, Style.PLAIN, key))
    return found
