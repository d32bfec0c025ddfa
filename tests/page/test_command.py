"""`warmside page` as a program of its own, asked over the loopback."""

from __future__ import annotations

import socket
import sys
from collections.abc import Iterator

import pytest

from page.served_apart import Served
from warmside.testing import Keeper


@pytest.fixture
def served(keeper: Keeper) -> Iterator[Served]:
    process = keeper.start("page", "--port", "0")
    yield Served(process)
    if process.poll() is None:
        process.kill()
        process.communicate()


@pytest.mark.skipif(sys.platform == "win32", reason="a program cannot be interrupted alone there")
def test_it_is_started_paired_used_and_stopped(served: Served, keeper: Keeper) -> None:
    assert "Only this machine can open it" in served.printed
    assert served.ask("/").status == 401
    served.pair(served.code)
    assert "The round of 2026-03-05" in served.text("/")
    made = keeper.json("page", "pair", "Ben")  # the desk makes codes for the running page
    assert f"127.0.0.1:{served.port}/pair?c=" in made["qr"]["says"]
    served.pair(made["qr"]["says"].partition("c=")[2])
    assert [p["name"] for p in keeper.json("page", "people")["phones"]] == ["Ben", "keeper"]
    keeper.run("page", "forget", "ben")
    assert served.ask("/").status == 401
    code, out, err = served.stop()
    assert (code, err) == (0, "") and "what was recorded stands" in out


def test_a_taken_port_is_told_and_slow_requests_do_not_stop_others(
    served: Served, keeper: Keeper
) -> None:
    said = keeper.run("page", "--port", str(served.port), ok=False).complaint(4)
    assert "another page may be running" in said
    held = []
    for _ in range(40):
        one = socket.create_connection(("127.0.0.1", served.port))
        one.sendall(b"POST /record HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 500\r\n\r\nkind=")
        held.append(one)
    assert served.ask("/").status == 401
    for one in held:
        one.close()


def test_there_is_no_page_without_a_collection_or_for_the_whole_world(keeper: Keeper) -> None:
    assert "needs --lan" in keeper.run("page", "--address", "10.0.0.5", ok=False).complaint(2)
    asked = ("page", "--lan", "--address", "8.8.8.8")
    assert "no address of a home network" in keeper.run(*asked, ok=False).complaint(2)
    assert "no address" in keeper.run("page", "--lan", "--address", "x", ok=False).complaint(2)
    asked = ("page", "--lan", "--address", "198.18.0.1")  # for measuring networks, RFC 2544
    assert "is no address of this machine" in keeper.run(*asked, ok=False).complaint(4)
    keeper.path.unlink()
    keeper.run("page", ok=False).complaint(3)


def test_who_is_not_on_the_list_cannot_be_forgotten(keeper: Keeper) -> None:
    assert "none is paired" in keeper.run("page", "forget", "Ann", ok=False).complaint(3)


def test_a_sitter_with_a_wrong_kind_or_enclosure_is_refused(keeper: Keeper) -> None:
    said = ("page", "sitter", "Ada", "--until", "tomorrow")
    keeper.run(*said, "--may", "weighd", ok=False).complaint(3)
    keeper.run(*said, "--only", "XYZ", ok=False).complaint(3)
    keeper.run("page", "sitter", "Ada", "--until", "someday", ok=False).complaint(2)
