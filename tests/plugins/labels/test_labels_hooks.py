"""The hook of labels: the keeper's notes as lines, about an animal or an enclosure."""

from __future__ import annotations

import subprocess
import sys

from warmside.api import About, LabelLine
from warmside.testing import Keeper

HEAVY = ("sqlalchemy", "reportlab", "typer", "numpy", "bidi", "arabic_reshaper", "alembic")


def test_notes_are_lines_of_the_one_they_are_about(labelled: Keeper) -> None:
    labelled.run("labels", "note", "Ember", "genes", "het pale")
    labelled.run("labels", "note", "V-03", "tools", "the red box")  # nobody lives there
    with labelled.ask() as ask:
        day = ask.book.today
        ember, place = ask.book.animal("EMB").id, ask.book.enclosure("V-03").id
        assert ask.label_lines(About(ember), day) == [LabelLine("labels.genes", "het pale")]
        about_place = ask.label_lines(About(enclosure_id=place), day)
        assert about_place == [LabelLine("labels.tools", "the red box")]
        home = ask.book.enclosure("V-01").id
        assert ask.label_lines(About(enclosure_id=home), day) == []  # an animal's note is its own


def test_the_hook_imports_nothing_heavy() -> None:
    found = f"[m for m in {HEAVY} if m in sys.modules]"
    code = f"import sys, warmside.plugins.labels.hooks; print({found})"
    run = [sys.executable, "-c", code]
    assert subprocess.run(run, capture_output=True, text=True, check=True).stdout == "[]\n"
