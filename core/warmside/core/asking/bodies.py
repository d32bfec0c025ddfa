"""What is known of an animal's body: its life stage."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.core.answers.parts import Fact
from warmside.core.asking.ask import Ask
from warmside.core.record.entities import Animal


def body_facts(ask: Ask, animal: Animal, on: date) -> Iterator[Fact]:
    """The life stage on a day, with its reason."""
    staged = ask.stage(animal.id, on)
    yield Fact("life_stage", "life stage", staged.stage and staged.stage.value, basis=staged.basis)
