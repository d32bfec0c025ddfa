"""Reading and replaying the printed commands of a document."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

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
    assert words[0] == "warmside", words
    done = subprocess.run(
        [sys.executable, "-m", "warmside", *words[1:]],
        cwd=folder,
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        timeout=120,
    )
    return done.stdout.strip("\n")


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
