"""Labels printed from a request value alone, as a page would, without a command line."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from warmside.api import BadInput, Session
from warmside.plugins.labels.commands.printing import NEXT, Printing, plan, printed
from warmside.plugins.labels.reading.choosing import Choice
from warmside.testing import Keeper


@pytest.fixture
def session(labelled: Keeper) -> Session:
    """A session on the keeper's collection."""
    return Session(labelled.path, labelled.now, lambda path: labelled.open())


def test_a_plan_writes_nothing_and_a_print_does(session: Session, tmp_path: Path) -> None:
    wanted = Printing(tmp_path / "out.pdf", "enclosure", Choice())
    planned = plan(session, wanted)
    assert [r.who for r in planned.ready] == ["Ember", "Moss, Tamsin", "Spare tub"]
    assert not wanted.target.exists() and planned.offer == ""
    answer = printed(session, planned)
    assert wanted.target.read_bytes().startswith(b"%PDF-")
    assert answer.extra["labels_printed"] == 3


def test_a_begun_sheet_is_offered_until_the_request_says_where_to_start(
    session: Session, tmp_path: Path
) -> None:
    wanted = Printing(tmp_path / "out.pdf", "enclosure", Choice(), copies=2)
    printed(session, plan(session, wanted))
    assert plan(session, wanted).offer == "used on the last sheet of a4-3x8: 1-6"
    for settled in (replace(wanted, start=NEXT), replace(wanted, used="1")):
        assert plan(session, settled).offer == ""
    assert plan(session, replace(wanted, changed=True)).offer == ""  # nothing to go on with
    assert plan(session, replace(wanted, stock="a4-2x7")).offer == ""


def test_words_of_a_request_are_those_of_the_command_line(session: Session, tmp_path: Path) -> None:
    target = tmp_path / "out.pdf"
    answer = printed(session, plan(session, Printing(target, " Door ", Choice(("V-03",)))))
    assert answer.title == "Door labels"
    with pytest.raises(BadInput, match="no sort 'age'"):
        plan(session, Printing(target, "door", Choice(sort="age")))
    by_room = Choice(sort="ROOM")
    assert [r.who for r in plan(session, Printing(target, "sitter", by_room)).ready] == [
        "Moss, Tamsin",
        "Ember",
    ]
