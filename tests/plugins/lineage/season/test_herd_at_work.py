"""The healthy herd once more, through the real hooks day by day, recorded as keepers do it.

Invented; ten females of five species with their eggs, two of them without any male, and one of
them that does not lay.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import pytest

from warmside.api import Level, NewEvent, entering
from warmside.testing import Keeper, new_keeper

START = date(2025, 9, 1)
DAYS = 340
# Species, mated, ovulated, shed, gravid confirmed, laid: days from the start, None not on record.
FEMALES: tuple[tuple[str, int | None, int | None, int | None, int | None, int | None], ...] = (
    ("ball python", 20, 60, 80, None, 110),  # as the book has it
    ("ball python", 20, 60, 84, 70, 139),  # five days past the window
    ("ball python", None, None, 80, 65, 108),  # no male: no sire is known
    ("ball python", 10, 40, None, None, 95),  # the keeper missed the shed
    ("Boa imperator", 30, 70, 88, 120, 200),  # bears live young, early-shed and slow
    ("Boa imperator", None, 60, 80, None, 185),
    ("corn snake", 10, None, 50, None, 62),
    ("leopard gecko", 5, None, None, 20, 30),
    ("leopard gecko", 5, None, None, None, None),  # mated and never took
    ("bearded dragon", 5, None, None, 35, 44),
)
OVERDUE = ("ball python", 20, 60, 80, 100, None)


@pytest.fixture(scope="module")
def herd(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """The ten and the one that does not lay, the record of a year written in one step."""
    keeper = new_keeper(tmp_path_factory.mktemp("herd"), plugins=["lineage"])
    keeper.pass_days((START + timedelta(days=DAYS + 30) - keeper.now.date()).days)
    collection = keeper.open()
    with collection.step("the herd", keeper.now, confirmed=True) as writer:
        young = [
            entering.Newcomer(f"Female {n}", species, f"F{n}", "female")
            for n, (species, *_) in enumerate((*FEMALES, OVERDUE))
        ]
        ids = entering.enter(writer, young)
        for id, (_, *days) in zip(ids, (*FEMALES, OVERDUE), strict=True):
            writer.record_checked(list(_events(id, *days)))
    return keeper


def _events(
    id: int,
    mated: int | None,
    ovulated: int | None,
    shed: int | None,
    gravid: int | None,
    laid: int | None,
) -> Iterator[NewEvent]:
    said: tuple[tuple[str, int | None, dict[str, object]], ...] = (
        ("kept", 0, {}),
        ("mated", mated, {"partner_words": "a male of A. Nother"}),
        ("shed", (shed or 90) - 45, {}),
        ("lineage.cycle", ovulated, {"seen": "ovulation"}),
        ("shed", shed, {}),
        ("gravid", gravid, {"state": "confirmed"}),
        ("laid", laid, {"count": 4, "good": 0}),
        ("shed", None if laid is None else laid + 30, {}),
    )
    for kind, day, data in said:
        if day is not None:
            yield NewEvent(kind, START + timedelta(days=day), data, id)


def test_no_healthy_female_is_ever_for_a_vet_and_the_one_that_does_not_lay_is(
    herd: Keeper,
) -> None:
    pressing: dict[str, int] = {}
    looked: dict[str, int] = {}
    with herd.ask() as ask:
        for number in range(DAYS):
            for found in ask.findings(START + timedelta(days=number)):
                name = ask.book.animals[found.about.animal_id or 0].name
                if found.level is Level.ACT_NOW:
                    pressing.setdefault(name, number)
                elif found.level is Level.LOOK_SOON:
                    looked[name] = looked.get(name, 0) + 1
    assert pressing == {"Female 10": 138}  # shed on day 80, to lay by 130, and a week
    assert looked == {
        "Female 1": 4,
        "Female 10": 7,
    }  # the late one, and it before its week was over
