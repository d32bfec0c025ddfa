"""Bad input to the labels' commands: one clear line, or a correct label; never a broken PDF."""

from __future__ import annotations

import json
from pathlib import Path

import pypdf
import pypdfium2
import pytest

from warmside.core.record.tables import plugin_state
from warmside.testing import Keeper

ODD_NAMES = (
    "<b>bold</b>",
    "<img src=http://example.org/x.png>",
    "{{7*7}}",
    "${7*7} %s %d %(x)s",
    "שלום עולם",
    "سلام",
    "🦎🐍",
    "N" * 300,
    "ß Ω Ж ♀♂",
    "&amp; &lt;",
    "\\x1b[31m",
)


def one_line(keeper: Keeper, *arguments: str) -> tuple[int, str]:
    """The exit code and the error of a command that must be refused in one line."""
    before = keeper.path.read_bytes()
    result = keeper.run(*arguments, ok=False)
    assert result.stderr.count("\n") == 1 and result.stdout == ""
    assert "fault in warmside" not in result.stderr and "Traceback" not in result.stderr
    assert keeper.path.read_bytes() == before
    return result.code, result.stderr


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (("--start", "99"), 2, "start 99 is no place of a4-3x8, which has 24; use 1 to 24"),
        (("--start", "0"), 2, "start 0 is no place"),
        (("--start", "soon"), 2, "start 'soon' is no place; write 1 to 24, or next"),
        (("--start", "²"), 2, "is no place"),
        (("--start", "1" * 5000), 2, "is no place"),
        (("--used", "7-1"), 2, "run backwards"),
        (("--used", "1-24"), 2, "take a new sheet"),
        (("--copies", "0"), 2, "0 copies cannot be printed"),
        (("--copies", "-3"), 2, "-3 copies"),
        (("--kind", "enclosures"), 2, "did you mean 'enclosure'"),
        (("--sort", "rom"), 2, "did you mean 'room'"),
        (("--stock", "a4-3x9"), 2, "did you mean"),
        (("--stock", "\x1b[31m"), 2, "no label stock"),
        (("--stocks", "no-such-file.toml"), 2, "cannot be read"),
        (("--room", "atic"), 3, "did you mean 'attic'"),
        (("--enclosure", "V-09"), 3, "did you mean"),
        (("--animal", "Embr"), 3, "did you mean"),
        (("--enclosure", "\udcff"), 3, "no enclosure"),
        (("--enclosure", ""), 3, "no enclosure"),
        (("--state", "sick"), 3, "no enclosure is in state 'sick'; no plugin gives a state now"),
        (("--profile", "desk"), 3, "no printer profile 'desk'"),
        (("--lines", "nam"), 2, "did you mean"),
        (("--lines", "<b>"), 2, "see: warmside labels lines"),
        (("--kind", "hazard", "--hazard", "poison", "--enclosure", "V-01"), 2, "known are"),
        (("--kind", "hazard", "--enclosure", "V-01"), 2, "no danger is noted for V-01"),
    ],
)
def test_a_wrong_option_is_refused_in_one_line(
    labelled: Keeper, tmp_path: Path, options: tuple[str, ...], code: int, said: str
) -> None:
    target = tmp_path / "out.pdf"
    got, error = one_line(labelled, "labels", "print", str(target), *options)
    assert got == code and said in error
    assert not target.exists()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("name = 3", "must hold [[stock]] rows"),
        ("[[stock]]\nname = 'x'\nroll_width_mm = 60\nroll_length_mm = -4", "use 0 to"),
        ("[[stock]]\nname = 'x'\nroll_width = 60", "unknown key 'roll_width' (did you mean"),
        ("[[stock", "is not valid TOML"),
        (
            "[[stock]]\nname='x'\npage='a4'\ncolumns=3\nrows=8\nlabel_width_mm=70\n"
            "label_height_mm=37\npitch_x_mm=70\npitch_y_mm=37\nmargin_left_mm=5\nmargin_top_mm=0",
            "does not fit its page: the labels end at 215.00 mm, the page is 210 mm wide",
        ),
    ],
)
def test_a_stock_that_cannot_be_is_refused(
    labelled: Keeper, tmp_path: Path, text: str, said: str
) -> None:
    own = tmp_path / "own.toml"
    own.write_text(text)
    target = str(tmp_path / "out.pdf")
    options = ("--stocks", str(own), "--stock", "x")
    code, error = one_line(labelled, "labels", "print", target, *options)
    assert code == 2 and said in error
    assert one_line(labelled, "labels", "stocks", "--stocks", str(own))[0] == 2


@pytest.mark.parametrize("name", ODD_NAMES)
def test_an_odd_name_makes_a_correct_label(labelled: Keeper, tmp_path: Path, name: str) -> None:
    labelled.run("animal", "change", "Ember", "--name", name)
    for kind in ("enclosure", "animal", "sitter"):
        target = tmp_path / f"{kind}.pdf"
        answer = labelled.run("labels", "print", str(target), "--kind", kind, "--enclosure", "V-01")
        text = pypdfium2.PdfDocument(target)[0].get_textpage().get_text_range()
        if name.isascii() and len(name) < 40:
            assert name in " ".join(text.split()) or name.split()[0] in text
        if len(name) == 300:
            assert "shortened to fit" in answer.stderr and "…" in text
        if "🦎" in name:
            assert "U+1F98E lizard" in answer.stderr
        page = pypdf.PdfReader(target).pages[0]
        assert "/Annots" not in page and not page.images and "/AA" not in page


def test_control_characters_never_reach_a_label(labelled: Keeper, tmp_path: Path) -> None:
    setting = ("plugin", "set", "labels", "contact")
    refused = labelled.run(*setting, "Ann \x1b[31m555\x07", ok=False)
    assert refused.code == 2 and "\x1b" not in refused.stderr
    labelled.run(*setting, "Ann \u202e555")
    target = tmp_path / "card.pdf"
    result = labelled.run("labels", "print", str(target), "--kind", "animal", "--stock", "card-a6")
    text = pypdfium2.PdfDocument(target)[0].get_textpage().get_text_range()
    assert "Ann 555" in " ".join(text.split()) and "\u202e" not in text
    assert "control or direction characters" in result.stderr and "\u202e" not in result.stderr


@pytest.mark.parametrize(
    "arguments",
    [
        ("EMB", "genes", ""),
        ("EMB", "genes", "x" * 401),
        ("EMB", "genes", "\udcff"),
        ("EMB", "genes", "\x1b[31mred"),
        ("EMB", "gene", "het"),
        ("EMB", "hazard", "poison"),
        ("EMB", "genes"),
        ("EMB", "genes", "het", "--drop"),
        ("EMB", "genes", "--drop"),
        ("Nobody", "genes", "het"),
    ],
)
def test_a_wrong_note_is_refused(labelled: Keeper, arguments: tuple[str, ...]) -> None:
    assert one_line(labelled, "labels", "note", *arguments)[0] in (2, 3)


@pytest.mark.parametrize(
    "address",
    ["example.org/", "javascript:alert(1)/", "https://example.org/" + "x" * 60 + "/"],
    ids=["no scheme", "a script", "too long"],
)
def test_a_wrong_address_is_refused_when_it_is_set_and_one_of_before_when_printing(
    labelled: Keeper, tmp_path: Path, address: str
) -> None:
    assert one_line(labelled, "plugin", "set", "labels", "url_prefix", address)[0] == 2
    with labelled.open().step("set by an older version", labelled.now) as writer:
        kept = json.dumps({"url_prefix": address})
        writer.change(plugin_state, {"name": "labels"}, settings=kept)
    assert one_line(labelled, "labels", "print", str(tmp_path / "out.pdf"))[0] == 2


def test_only_labels_of_ours_are_written_over(labelled: Keeper, tmp_path: Path) -> None:
    target = tmp_path / "out.pdf"
    labelled.run("labels", "print", str(target))
    labelled.run("labels", "print", str(target))  # a label file of ours is made anew
    labelled.run("labels", "calibrate", "page", str(target))
    for foreign in (b"", b"a letter", b"%PDF-1.7 somebody else's"):
        target.write_bytes(foreign)
        code, error = one_line(labelled, "labels", "print", str(target))
        assert code == 4 and "--replace" in error and target.read_bytes() == foreign
        assert one_line(labelled, "labels", "calibrate", "page", str(target))[0] == 4
    labelled.run("labels", "print", str(target), "--replace")
    assert target.read_bytes().startswith(b"%PDF-")
    assert sorted(p.name for p in tmp_path.glob("*.part")) == []


@pytest.mark.parametrize("name", ["out.txt", "out", "no/such/folder/out.pdf", ".", "folder.pdf"])
def test_a_file_that_cannot_be_written_is_refused(
    labelled: Keeper, tmp_path: Path, name: str
) -> None:
    (tmp_path / "folder.pdf").mkdir()
    assert one_line(labelled, "labels", "print", str(tmp_path / name))[0] == 2


def test_a_failed_write_notes_nothing(
    labelled: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(self: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    target = tmp_path / "out.pdf"
    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", full)
        result = labelled.run("labels", "print", str(target), ok=False)
    assert result.code == 1 and "no space left" in result.stderr
    assert result.stderr.count("\n") == 1 and not target.exists()
    assert labelled.json("labels", "print", str(target), "--changed")["labels_printed"] == 3


def test_an_empty_collection_says_what_to_enter(keeper: Keeper, tmp_path: Path) -> None:
    keeper.run("plugin", "enable", "labels")
    target = str(tmp_path / "out.pdf")
    assert "warmside enclosure add" in one_line(keeper, "labels", "print", target)[1]
    assert one_line(keeper, "labels", "print", target, "--kind", "animal")[0] == 2


@pytest.mark.parametrize(
    ("setting", "value", "said"),
    [
        ("stock", "a4-3x9", "a4-3x"),
        ("sign_stock", "no-such", "no-such"),
        ("profile", "hall", "warmside labels calibrate"),
        ("stocks_file", "/no/such.toml", "such.toml cannot be read"),
    ],
)
def test_what_printing_would_refuse_is_refused_when_it_is_set(
    labelled: Keeper, setting: str, value: str, said: str
) -> None:
    code, text = one_line(labelled, "plugin", "set", "labels", setting, value)
    assert code in (2, 3) and said in text
    with labelled.ask() as ask:
        assert ask.setting("labels", setting) != value
    labelled.run("plugin", "set", "labels", setting, "default")
