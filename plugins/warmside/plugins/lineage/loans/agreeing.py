"""What may be agreed on a loan, and on the young of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from warmside.api import Animal, BadInput
from warmside.plugins.lineage.loans.loan import ODD, OVER, Loan


def newest(loans: Sequence[Loan], animal: Animal, on: date, *, ended: bool = False) -> Loan:
    """The last loan of an animal; BadInput where none runs, or with `ended` where there is none."""
    if loans and (ended or loans[-1].runs(on)):
        return loans[-1]
    raise BadInput(
        f"{animal.label} is not on loan on {on}; record the loan first: warmside lend "
        f'{animal.code} --to NAME, or warmside arrive {animal.code} --how "on loan here"'
    )


def agreed_data(
    loan: Loan, until: date | None, ours_percent: float | None, **words: str | None
) -> dict[str, Any]:
    """The fields of what was agreed; BadInput where nothing is said, or where it cannot be."""
    data: dict[str, Any] = {name: said for name, said in words.items() if said}
    for name, choices in (("odd", ODD), ("over", OVER)):
        if name in data:
            data[name] = _meant(data[name], choices, f"--{name}")
    if until is not None:
        if until < loan.since:
            raise BadInput(f"--until {until} is before the loan began, {loan.since}")
        data["until"] = until.isoformat()
    if ours_percent is not None:
        over = loan.agreed.over or OVER["each clutch"]
        data = {"ours_percent": ours_percent, "over": over, **data}
    if not data:
        raise BadInput("say what was agreed: --until DAY, --ours 50%, --odd us, --terms WORDS")
    return data


def _meant(word: str, choices: Mapping[str, str], option: str) -> str:
    if word not in choices:
        raise BadInput(f"{option} is {' or '.join(choices)}, not {word!r}")
    return choices[word]


def check_divided(clutch: str, hatched: int | None, ours: int, theirs: int) -> None:
    """Raise BadInput where so many young cannot have been shared out."""
    if min(ours, theirs) < 0:
        raise BadInput("--ours and --theirs are numbers of young, 0 or more")
    if not ours + theirs:
        raise BadInput(f"{clutch}: no young are shared out; give --ours and --theirs")
    if hatched is not None and ours + theirs > hatched:
        raise BadInput(
            f"{clutch}: {ours + theirs} young cannot be shared out, {hatched} are on record"
        )
