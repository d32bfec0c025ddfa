"""The two papers: an agreement to sign, and what goes with an animal."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pypdf
import pytest

from warmside.core.asking.sheets.owner import HANDED
from warmside.plugins.lineage.loans.loan import ODD, OVER, Agreement, Loan
from warmside.plugins.lineage.telling.forms import LOAN_HEADINGS
from warmside.plugins.lineage.telling.papers import on_paper
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def with_all(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Fern with meals, weights, sheds, genes and a vet's visit, and every plugin that tells."""
    plugins = ["lineage", "genes", "weight", "feeding", "shed"]
    keeper = new_keeper(tmp_path_factory.mktemp("papers"), plugins=plugins)
    for name, sex in (("Fern", "female"), ("Rust", "male")):
        keeper.run(
            *("animal", "add", name, "--species", "corn snake"),
            *("--sex", sex, "--since", "2024-05-01"),
        )
    keeper.run("genes", "known", "Fern", "visual amelanistic, 66 % het lavender")
    keeper.run("record", "weighed", "Fern", "--mass", "420g", "--at", "2026-02-01")
    keeper.run("record", "fed", "Fern", "--item", "mouse-adult", "--at", "2026-02-20")
    keeper.run("record", "shed", "Fern", "--at", "2025-11-01")
    keeper.run(*("record", "examined", "Fern", "--by", "Dr. Vet", "--told", "sound"))
    keeper.run("record", "treated", "Fern", "--what", "a salve", "--by", "Dr. Vet")
    keeper.run("record", "mated", "Fern", "--partner", "Rust", "--at", "2026-02-03")
    return keeper


@pytest.fixture
def mine(with_all: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(with_all, tmp_path)


def paper(keeper: Keeper, path: Path, *typed: str) -> str:
    keeper.run(*typed, "--save", path)
    return " ".join(p.extract_text() for p in pypdf.PdfReader(path).pages)


def test_a_hand_over_has_a_part_of_every_plugin(mine: Keeper, tmp_path: Path) -> None:
    answer = mine.json("sheet", "owner", "Fern", "--to", "A. Nother")
    titles = [s["title"] for s in answer["sections"]]
    for title in ("Weight", "Food", "Sheds", "Genes", "Vet and signs", "Breeding", "History"):
        assert title in titles
    assert answer["to"] == "A. Nother"
    assert answer["genes"] == "visual amelanistic, 66 % het lavender"
    sections = {s["title"]: s for s in answer["sections"]}
    told = [row["what"] for row in sections["Vet and signs"]["events"]]
    assert told == ["examined by a vet: Dr. Vet, sound", "treated: a salve, Dr. Vet"]
    (mating,) = sections["Breeding"]["events"]
    assert mating["what"] == "mated: with Rust (RUS)"
    text = paper(mine, tmp_path / "over.pdf", "sheet", "owner", "Fern", "--to", "A. Nother")
    assert "Not legal advice" in text and "a vet judges health" in text.casefold()
    assert all(heading in text for heading in HANDED)


def test_a_hand_over_tells_what_is_known_to_be_wrong(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "no lavender", "--evidence", "tested")
    mine.run("animal", "add", "Dot", "--species", "corn snake")
    mine.run("animal", "parents", "Dot", "--dam", "Fern", "--sire", "Rust")
    mine.run("genes", "known", "Dot", "visual lavender")
    found = mine.json("sheet", "owner", "Rust")["sections"]
    told = next(s for s in found if s["title"] == "What to know")
    assert "cannot all be true" in str(told)


def test_the_history_is_the_newest_part_and_says_so(mine: Keeper) -> None:
    sections = mine.json("sheet", "owner", "Fern", "--last", "2")["sections"]
    (history,) = [s for s in sections if s["title"].startswith("History")]
    assert history["title"].startswith("History (the last 2 of ")
    assert len(history["events"]) == 2


def test_an_agreement_says_what_is_on_record_and_leaves_room(mine: Keeper, tmp_path: Path) -> None:
    mine.run(
        *("lend", "Fern", "--to", "A. Nother", "--until", "2026-06-01"),
        *("--terms", "corn snakes only"),
    )
    mine.run("lineage", "loan", "agree", "Fern", "--ours", "60%", "--odd", "them")
    text = paper(mine, tmp_path / "loan.pdf", "lineage", "loan", "paper", "Fern")
    for words in (
        "A. Nother",
        "2026-06-01",
        "corn snakes only",
        "Not legal advice",
        *LOAN_HEADINGS,
    ):
        assert words in text
    assert len(pypdf.PdfReader(tmp_path / "loan.pdf").pages) == 1


def test_an_agreement_may_be_printed_before_the_loan(mine: Keeper) -> None:
    answer = mine.json("lineage", "loan", "paper", "Rust")
    assert answer["lent_to"] == " " and answer["name"] == "Rust"


@pytest.mark.parametrize(
    ("out", "said"),
    [
        (True, "60 % of the young of each clutch to the owner, 40 % to the keeper; an odd one to "),
        (
            False,
            "60 % of the young of each clutch to the keeper, 40 % to the owner; an odd one to ",
        ),
    ],
)
def test_both_sides_can_sign_what_the_keeper_calls_ours(out: bool, said: str) -> None:
    agreed = Agreement(ours_percent=60.0, odd=ODD["us"], over=OVER["each clutch"])
    loan = Loan(1, out, "A. Nother", date(2026, 1, 1), None, None, "", agreed)
    assert on_paper(loan) == said + ("the owner" if out else "the keeper")
