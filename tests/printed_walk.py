"""Reading and replaying the printed commands of a document."""

from __future__ import annotations

import contextlib
import io
import os
import re
import shlex
from pathlib import Path
from unittest import mock

from msgspec import Struct

BLOCK = re.compile(r"```console\n(.*?)```", re.DOTALL)


class Printed(Struct, frozen=True, dict=True):
    """A command of a document and the output printed below it."""

    command: str
    output: str


def printed_commands(text: str) -> list[list[Printed]]:
    """The commands of each console block with their outputs."""
    blocks = []
    for body in BLOCK.findall(text):
        parts = re.split(r"^\$ ", body, flags=re.MULTILINE)[1:]
        blocks.append([Printed(*_halves(p)) for p in parts])
    return blocks


def _halves(part: str) -> tuple[str, str]:
    command, _, output = part.partition("\n")
    return command, output.strip("\n")


def replay(text: str, folder: Path) -> list[list[Printed]]:
    """The same commands with the output that they give now, in order, in the folder."""
    environment = os.environ | {"COLUMNS": "80", "NO_COLOR": "1", "XDG_CACHE_HOME": str(folder)}
    replayed = []
    for block in printed_commands(text):
        done = []
        for printed in block:
            words = shlex.split(printed.command)
            if words[0] == "export":
                environment |= dict(w.split("=", 1) for w in words[1:])
                done.append(Printed(printed.command, ""))
            else:
                done.append(Printed(printed.command, _run(words, folder, environment)))
        replayed.append(done)
    return replayed


def _run(words: list[str], folder: Path, environment: dict[str, str]) -> str:
    """What a command prints, to either stream; in this process, which spares a start for each."""
    from warmside.cli.entry import main

    assert words[0] == "warmside", words
    said = io.StringIO()
    with (
        mock.patch.dict(os.environ, environment),
        contextlib.chdir(folder),
        contextlib.redirect_stdout(said),
        contextlib.redirect_stderr(said),
    ):
        main(words[1:])
    return said.getvalue().strip("\n")


def rewritten(text: str, folder: Path) -> str:
    """The document with the outputs of now."""
    blocks = iter(replay(text, folder))

    def block(_: re.Match[str]) -> str:
        lines = []
        for printed in next(blocks):
            lines.append(f"$ {printed.command}")
            lines += [printed.output, ""] if printed.output else []
        return "```console\n" + "\n".join(lines).strip("\n") + "\n```"

    return BLOCK.sub(block, text)
