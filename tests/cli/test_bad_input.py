"""Bad input gives one line on stderr that says what to do, the right exit code, and no write."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.values.errors import WarmsideError
from warmside.testing import Keeper


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


BAD_INPUT = [
    # 3: no such animal, enclosure, event, species, kind, plugin, step
    ("record weighed NOA=400g", 3, "there is no animal 'NOA'; list them with"),
    ("record weighed EMV=1.2kg", 3, "there is no animal 'EMV' (did you mean 'EMB'?)"),
    ("record weighed Ember=1.2kg", 3, "2 animals are called 'Ember'; use a code: EM9, EMB"),
    ("record cleaned NOWHERE", 3, "there is no enclosure 'NOWHERE'"),
    ("record weighed --room Atic --mass 400g", 3, "no enclosure is in room 'Atic' (did you"),
    ("animal show NOA", 3, "there is no animal 'NOA'"),
    ("animal parents EMB --dam NOA", 3, "there is no animal 'NOA'"),
    ("enclosure show X9", 3, "there is no enclosure 'X9'"),
    ("move EMB --to Lowshelf", 3, "no enclosure 'Lowshelf' (did you mean 'Low shelf'?)"),
    ("history NOA", 3, "there is no animal or enclosure 'NOA'"),
    ("history EMV", 3, "no animal or enclosure 'EMV' (did you mean 'EMB'?)"),
    ("history --kind wieghed", 3, "(did you mean 'weighed'?)"),
    ("correct 999 mass=1kg", 3, "there is no event 999"),
    ("undo 999", 3, "there is no step 999"),
    ("redo", 3, "there is nothing to redo"),
    ("done 1", 3, "the round has no task '1'"),
    ("animal add Bo --species snek", 3, "there is no species 'snek'"),
    ("animal add Bo --species gecko", 3, "fits several species"),
    ("plugin enable rythm", 3, "there is no plugin 'rythm' (did you mean 'rhythm'?)"),
    ("plugin set rhythm colour red", 3, "rhythm has no setting 'colour'"),
    ("report NOA", 3, "there is no animal or enclosure 'NOA'"),
    # 2: bad usage or bad values
    ("record weighed EMB=400s", 2, "which is no unit for mass"),
    ("record weighed EMB=400foo", 2, "'foo'"),
    ("record weighed EMB=-3g", 2, "mass"),
    ("record weighed EMB=0g", 2, "mass is at least"),
    ("record weighed EMB", 2, "weighed needs --mass"),
    ("record weighed", 2, "name an animal by code or name, or use --all or --room ROOM"),
    ("record weighed EMB=1.2kg --at 2026-02-30", 2, "2026-02-30 is no day of the calendar"),
    ("record weighed EMB=1.2kg --at 25:00", 2, "25:00 is no time of day"),
    ("record weighed EMB=1.2kg --at sometime", 2, "time sometime cannot be read; write it as"),
    ("record weighed EMB=1.2kg --mass", 2, "--mass"),
    ("record weighd EMB=1.2kg", 2, "weighd"),
    ("record climate L1 --warm 86", 4, "86 °F would be 30 °C"),
    ("record climate L1 --humidity 140", 2, "humidity is at most 100"),
    ("record climate L1", 2, "climate needs one of: --warm, --cool, --humidity"),
    ("record fed EMB --item mouse --outcome eaten", 2, "outcome cannot be 'eaten'"),
    ("record fed EMB --item mouse --count 1.5", 2, "count is a whole number, not '1.5'"),
    ("record watered L1=3", 2, "watered takes no value"),
    ("record moved EMB", 2, "moved needs an enclosure to move to"),
    ("record cleaned ASH", 2, "Ash (ASH) is in no enclosure on"),
    ("correct 4 mass", 2, "type what is right as field=value"),
    ("correct 4 mas=1kg", 2, "weighed has no field 'mas' (did you mean 'mass'?)"),
    ("correct 4 mass=1.2kg", 2, "event 4 is so already"),
    ("correct five mass=1kg", 2, "five"),
    ("animal add Bo", 2, "--species"),
    ("animal add Bo --species Python.regius", 3, "did you mean 'Python regius'?"),
    ("animal add Bo --species regius --hatched 2031", 2, "hatch date 2031 is in the future"),
    ("animal add Bo --species regius --hatched 2023-13", 2, "2023-13"),
    ("animal add Bo --species regius --sex femal", 2, "did you mean 'female'"),
    ("animal add Bo --species regius --code a/b", 2, "'a/b' is no code"),
    ("animal add Bo --species regius --since 2027-02-29", 2, "2027-02-29 is no day"),
    ("animal parents EMB", 2, "name a parent: --dam CODE, --sire CODE or both"),
    ("animal parents EMB --dam MOS", 2, "Moss (MOS) is male and cannot be a dam"),
    ("animal parents EMB --dam EMB", 2, "cannot be its own dam"),
    ("animal parents ASH --dam EMB", 2, "hatched 2022-06, not before Ash"),
    ("animal parents EMB --dam ASH --certainty sure", 2, "certainty cannot be 'sure'"),
    ("animal change EMB", 2, "nothing to change"),
    ("enclosure change L1", 2, "nothing to change"),
    ("enclosure add Tub --width 120s", 2, "width"),
    ("enclosure add Tub --width -3cm", 2, "width"),
    ("enclosure add Tub --width 0cm", 2, "width 0cm is no inner size"),
    ("enclosure add Tub --width 4000m", 2, "width 4000m is no inner size"),
    ("--json today", 2, "--json stands behind the command: warmside today --json"),
    ("--without rhythm rhythm list", 4, "it is left out: start without --no-plugins and --without"),
    ("arrive Nobody", 2, "'Nobody' is not known yet; add --species to enter it"),
    ("arrive Bo --species regius --how stolen", 2, "how cannot be 'stolen'"),
    ("depart EMB --how flew", 2, "how cannot be 'flew'"),
    ("lend EMB", 2, "--to"),
    ("lend EMB --to Ann --until soon", 2, "soon"),
    ("lend EMB --to Ann --until 2025", 2, "--until 2025 is before the loan begins, 2026-03-05"),
    ("today --on someday", 2, "day someday cannot be read"),
    ("history --last 0", 2, "--last is at least 1"),
    ("history --since 2026-02-30", 2, "2026-02-30 is no day"),
    ("frobnicate", 2, "frobnicate"),
    ("animal frob", 2, "frob"),
    ("today --onn today", 2, "--onn"),
    ("rhythm set weighed --every 0", 2, "1 to 3650 whole days"),
    # 4: refused, or not confirmed
    ("animal add Bo --species regius --code EMB", 4, "code EMB is taken by Ember; EMB2 is free"),
    ("enclosure add Tub --code L1", 4, "code L1 is taken by Low shelf"),
    ("animal change MOS --code emb", 4, "code EMB is taken by Ember"),
    ("move EMB --to O1", 4, "enclosure O1 is retired; use it again"),
    ("animal add Bo --species regius --enclosure O1", 4, "enclosure O1 is retired"),
    ("arrive Bo --species regius --enclosure O1", 4, "enclosure O1 is retired"),
    ("enclosure change L1 --retired", 4, "Ember (EMB) lives in L1; move it first"),
    (
        "record weighed EMB=120g",
        4,
        "only 10 % of the last weight (1.2 kg); if it is right, add --c",
    ),
    ("animal add Bo --species regius --since tomorrow", 4, "here already: 2026-03-06 is in the"),
    ("record weighed EMB=1.2kg --at tomorrow", 4, "2026-03-06 is in the future"),
    ("record weighed EMB=1.2kg --at 23:59", 4, "that time of today is still to come"),
    ("record observed EMB --what x --at 2022-05-31", 4, "before Ember hatched (2022-06)"),
    ("arrive EMB", 4, "Ember (EMB) is here already"),
    ("species add", 2, "scientific"),
    ("new --name X --zone Europe/Vienna --units metric", 4, "is there already"),
    ("undo 2", 4, "rests on it; undo that first"),
    ("file restore --yes no-such-backup", 3, "there is no backup no-such-backup"),
    ("plugin forget rhythm", 4, "this removes all data of rhythm"),
    ("plugin enable rhythm", 4, "rhythm is enabled already"),
]


@pytest.mark.parametrize(("line", "code", "says"), BAD_INPUT, ids=[b[0] for b in BAD_INPUT])
def test_bad_input_gives_one_line_the_right_code_and_writes_nothing(
    house: Keeper, line: str, code: int, says: str
) -> None:
    before = dump(house.path)
    result = house.run(*line.split(), ok=False)
    assert (result.code, result.stdout) == (code, ""), result.stderr
    assert result.stderr.startswith("warmside: ")
    assert result.stderr.count("\n") == 1, "one line"
    assert says.lower() in result.stderr.lower()
    assert "fault in warmside" not in result.stderr
    assert dump(house.path) == before, "nothing written"


def test_every_kind_of_error_has_its_own_exit_code() -> None:
    kinds = WarmsideError.__subclasses__()
    codes = {
        e.__name__: e.exit_code for e in kinds if e.__module__ == "warmside.core.values.errors"
    }
    assert codes == {"BadInput": 2, "NotFound": 3, "Refused": 4, "FileProblem": 5, "Busy": 75}
    assert WarmsideError.exit_code == 1


def test_of_many_subjects_one_wrong_one_stops_them_all(mine: Keeper) -> None:
    before = dump(mine.path)
    assert mine.run("record", "weighed", "EMB=1.2kg", "MOS=6g", ok=False).code == 4
    assert mine.run("record", "weighed", "EMB=1.2kg", "NOA=6g", ok=False).code == 3
    assert dump(mine.path) == before


@pytest.mark.parametrize(
    "line",
    [
        *("today", "animal list", "history", "undo", "record weighed EMB=1g", "file backup"),
        *("file export x.zip", "move EMB --to L1", "report EMB", "plugin enable rhythm"),
    ],
)
def test_with_no_collection_yet_the_next_command_is_said(tmp_path: Path, line: str) -> None:
    result = Keeper(tmp_path / "none.warmside").run(*line.split(), ok=False)
    assert (result.code, result.stderr.count("\n")) == (3, 1)
    assert "warmside new" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_text_with_escapes_is_shown_harmless(mine: Keeper) -> None:
    refused = mine.run("record", "weighed", "\x1b[31mEMB=3g", ok=False)
    assert "\x1b" not in refused.stderr
    escapes = mine.run("record", "observed", "EMB", "--what", "red \x1b[31mflag", ok=False)
    assert escapes.code == 2 and "control characters" in escapes.stderr
    mine.run("record", "observed", "EMB", "--what", "red \u202eflag")
    shown = mine.run("history", "EMB").stdout
    assert "\x1b" not in shown
    assert "\u202e" not in shown


@pytest.mark.parametrize(
    "command",
    [
        ("enclosure", "add", "half \udced"),
        ("arrive", "half \udced", "--species", "leopard gecko"),
        ("plugin", "set", "rhythm", "half \udced", "1"),
    ],
)
def test_half_a_character_is_refused_in_one_line(mine: Keeper, command: tuple[str, ...]) -> None:
    before = dump(mine.path)
    refused = mine.run(*command, ok=False)
    assert refused.code in (2, 3) and refused.stderr.count("\n") == 1
    assert "fault in warmside" not in refused.stderr
    assert dump(mine.path) == before
