"""What a command says of the command line, in the words of the page."""

from __future__ import annotations

import re

OPTION = re.compile(r"(?<!\w)--([a-z][a-z-]*)")
COMMAND = re.compile(r"\bwarmside (?=[a-z])")


def in_page_words(text: str) -> str:
    """`--own-prior` is the field “Own prior”; a command is named by its words.

    A command to be typed at the desk with its options stays as it is.
    """
    before, *typed = COMMAND.split(text, maxsplit=1)
    named = OPTION.sub(lambda found: f"“{label_of(found[1])}”", before)
    if not typed:
        return named
    return f"{named}warmside {typed[0]}" if OPTION.search(typed[0]) else named + typed[0]


def label_of(name: str) -> str:
    """The name of an option or an argument as a field is labelled."""
    return re.sub(r"[_-]", " ", name).capitalize()


def told(text: str) -> str:
    """What went wrong, as a sentence of the page."""
    return sentence(in_page_words(text))


def sentence(text: str) -> str:
    """With a capital and one full stop."""
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."
