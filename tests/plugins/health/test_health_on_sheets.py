"""Cases and courses on sheets: for a vet what goes on, for a sitter doses with their times."""

from __future__ import annotations

from typing import Any

from warmside.testing import Keeper

ORDER = ("--dose", "0.1 ml", "--way", "by mouth", "--every", "12 hours", "--clock", "08:00")
MORE = ("--doses", "8", "--watch", "drowsy", "--by", "Dr. Invented", "--at", "2026-03-05")


def sections(keeper: Keeper, *typed: str) -> dict[str, Any]:
    return {s["title"]: s for s in keeper.json("sheet", *typed)["sections"]}


def said(section: dict[str, Any]) -> str:
    return " ".join(note["text"] for note in section["notes"])


def test_a_vet_reads_of_cases_and_courses(ill: Keeper) -> None:
    case = ("record", "health.case", "EMB", "--state", "open", "--what", "wheezes")
    ill.run(*case, "--awaited", "swab result", "--at", "2026-03-04")
    ill.run("health", "order", "EMB", "medicine A", *ORDER, *MORE)
    found = sections(ill, "vet", "EMB")
    assert (
        said(found["Cases"]) == "open since 2026-03-04: wheezes (2026-03-04); awaited: swab result"
    )
    assert "runs: medicine A, 0.1 ml, by mouth, every 12 hours" in said(found["Courses"])
    assert "Dr. Invented" in said(found["Courses"])
    titles = list(found)
    assert titles.index("Cases") == 1 < titles.index("Weight") < titles.index("Courses")
    assert "Cases" not in sections(ill, "vet", "MOS")


def test_a_vet_reads_of_samples_with_their_laboratory_and_words(ill: Keeper) -> None:
    ill.run("health", "sample", "EMB", "faeces", "--lab", "Laboratory A", "--at", "2026-02-10")
    ill.run("health", "result", "EMB", "faeces", "--says", "nothing seen", "--at", "2026-02-20")
    ill.run("health", "sample", "EMB", "swab", "--number", "17", "--at", "2026-03-01")
    assert said(sections(ill, "vet", "EMB")["Samples"]) == (
        "awaited: swab, number 17, handed in on 2026-03-01 2026-02-20: faeces: nothing seen"
    )


def test_a_sitter_gets_each_dose_with_its_time_and_how(ill: Keeper) -> None:
    ill.run("health", "order", "EMB", "medicine A", *ORDER, *MORE)
    days = ("--from", "2026-03-06", "--until", "2026-03-10")
    found = sections(ill, "sitter", *days)
    doses = [(r["day"], r["what"]) for r in found["Day by day"]["days"] if r["kind"] == "treated"]
    times = [(day, hour) for day in (6, 7, 8) for hour in ("08:00", "20:00")]
    assert doses == [
        (f"2026-03-0{day}", f"give medicine A at {hour}, 0.1 ml, by mouth") for day, hour in times
    ]
    told = said(found["Medicines"])
    assert "watch for: drowsy" in told and "give no more" in told
    assert "Ember: medicine A" in told
    later = sections(ill, "sitter", "--from", "2026-03-10", "--until", "2026-03-12")
    assert "Medicines" not in later, "the course is over by then"
