"""The shell completes commands, codes of animals and codes of enclosures."""

from __future__ import annotations

import contextlib
import io
import os
import subprocess
import sys
from unittest import mock

import pytest

from warmside.cli.entry import main
from warmside.testing import Keeper


def asked(keeper: Keeper, words: str) -> dict[str, str]:
    """What bash says of the words typed so far, in the environment."""
    return keeper.environment | {
        "_WARMSIDE_COMPLETE": "complete_bash",
        "COMP_WORDS": words,
        "COMP_CWORD": str(len(words.split(" ")) - 1),
    }


def complete(keeper: Keeper, words: str) -> list[str]:
    """What bash would be offered after these words."""
    out = io.StringIO()
    with (
        mock.patch.dict(os.environ, asked(keeper, words)),
        contextlib.redirect_stdout(out),
        pytest.raises(SystemExit, match="0"),  # as Typer ends a completion
    ):
        main([])
    return out.getvalue().split()


@pytest.fixture
def room(keeper: Keeper) -> Keeper:
    """An animal and an enclosure."""
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko", "--enclosure", "LOW")
    keeper.run("clutch", "add", "--dam", "EMB", "--laid", "2026-03-01")
    return keeper


@pytest.mark.parametrize(
    ("words", "offered"),
    [
        ("warmside encl", ["enclosure"]),
        ("warmside animal sh", ["show"]),
        ("warmside animal show E", ["EMB"]),
        ("warmside move EMB --to L", ["LOW"]),
        ("warmside record weig", ["weighed"]),
        ("warmside record weighed E", ["EMB"]),
        ("warmside record mated E --partner E", ["EMB"]),
        ("warmside record laid E --clutch C", ["C1"]),
        ("warmside clutch show ", ["C1"]),
        ("warmside quar", []),
    ],
)
def test_completion(room: Keeper, words: str, offered: list[str]) -> None:
    assert complete(room, words) == offered


def test_a_shell_gets_the_same_from_a_program_of_its_own(room: Keeper) -> None:
    words = "warmside animal show E"
    done = subprocess.run(
        [sys.executable, "-c", "from warmside.cli.entry import main; main()"],
        env=os.environ | asked(room, words),
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert done.stdout.split() == complete(room, words) == ["EMB"]


def test_an_enabled_plugin_is_completed(room: Keeper) -> None:
    room.run("plugin", "enable", "rhythm")
    assert complete(room, "warmside rhy") == ["rhythm"]
    assert complete(room, "warmside rhythm s") == ["set"]


def test_a_sign_is_completed_by_any_word_for_it(room: Keeper) -> None:
    """From a part within it, or by another word that is understood."""
    assert "breathing" in complete(room, "warmside record sign EMB --sign breath")
    assert "wheezing" in complete(room, "warmside record sign EMB --sign whee")
