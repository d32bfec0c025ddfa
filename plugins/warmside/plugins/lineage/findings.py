"""What the keeper should know of loans, of pairs, of females that are late, and of late eggs."""

from __future__ import annotations

from datetime import date

from warmside.api import OWN_RECORDS, About, Animal, Basis, Finding, Level, Mark, Source
from warmside.plugins.lineage.loans.loan import Loan
from warmside.plugins.lineage.reading.close_pairs import PairKinship
from warmside.plugins.lineage.reading.eggs import Incubation, parent_of
from warmside.plugins.lineage.reading.season import Season
from warmside.plugins.lineage.reading.unfit import Mating
from warmside.plugins.lineage.season.gates import Gate

OVERDUE = "lineage.overdue"
CLOSE = "lineage.close_pair"
LATE = "lineage.late"
UNFIT = "lineage.unfit"
EGGS_LATE = "lineage.eggs_late"
EGGS_LATE_DAYS = 7
CUSTOM = Source("usual among keepers", Mark.COMMON_PRACTICE)
WRIGHT = Source("Wright 1922 Am Nat 56:330-338", Mark.PUBLISHED)


def overdue(loan: Loan, animal: Animal, on: date) -> Finding | None:
    """That a loan runs beyond its agreed end; None where it does not."""
    late = loan.late_days(on)
    if not late:
        return None
    days = "1 day" if late == 1 else f"{late} days"
    who = loan.other or ("its keeper" if loan.out else "its owner")
    what = f"should be back from {who}" if loan.out else f"should be back with {who}"
    over = (
        f"if it is: warmside return {animal.code}"
        if loan.out
        else f'if it is: warmside depart {animal.code} --how "back to its owner"'
    )
    words = (
        f"{what} since {loan.until_said}, {days} ago; {over}; if a longer loan was agreed: "
        f"warmside lineage loan agree {animal.code} --until DAY"
    )
    basis = Basis("the agreed end of the loan", OWN_RECORDS, loan.events)
    task = "returned" if loan.out else "departed"
    return Finding(OVERDUE, Level.LOOK_SOON, words, basis, About(animal.id), task)


def close_pair(pair: PairKinship, dam: Animal, sire: Animal, limit: float) -> Finding | None:
    """That young of a pair would be more inbred than is set; None where they would not."""
    if pair.expected <= limit + 1e-12:
        return None
    spread = pair.most - pair.least > 1e-12
    unsure = f" ({pair.least:.3g} to {pair.most:.3g} by who the parents are)" if spread else ""
    words = (
        f"kin of {sire.name}: their young would have an inbreeding of {pair.expected:.3g}{unsure}, "
        f"more than the {limit:.3g} that is set; see: "
        f"warmside lineage pair {dam.code} {sire.code}"
    )
    basis = Basis("exact over all recorded ancestors; mated of late or kept together", WRIGHT)
    return Finding(CLOSE, Level.NOTE, words, basis, About(dam.id))


def late_finding(season: Season) -> Finding | None:
    """That a female is late or in trouble with laying; None where she is not."""
    late, window = season.late, season.window
    if late is None:
        return None
    source = window.source if window and late.events == window.events else CUSTOM
    level = Level.ACT_NOW if late.act else Level.LOOK_SOON
    code = season.animal.code
    end = f"; if a vet found that she carries nothing: warmside record gravid {code} --state over"
    basis = Basis(late.rule, source, late.events)
    return Finding(LATE, level, late.words + end, basis, About(season.animal.id))


UNFIT_WORDS = {
    Mating.IS_MEANT: ("is to be paired", "let it wait, or ask a vet"),
    Mating.WAS_PAIRED: ("was paired", "watch it well, and ask a vet"),
    Mating.LIVES_WITH: ("lives with a mate", "let it wait, or ask a vet"),
}


def unfit(animal: Animal, gates: tuple[Gate, ...], how: Mating) -> Finding:
    """That an animal of a pair does not hold a gate; pressing where the pair is meant to be one."""
    told = "; ".join(f"{g.what}: {g.words}" for g in gates)
    verb, advice = UNFIT_WORDS[how]
    pressing = how is Mating.IS_MEANT and animal.sex == "female"
    level = Level.LOOK_SOON if pressing else Level.NOTE
    words = f"{verb} and does not hold what is set ({told}): {advice}"
    return Finding(UNFIT, level, words, gates[0].basis, About(animal.id))


def eggs_late(found: Incubation, on: date) -> Finding | None:
    """That eggs are past their window: no harm to wait, and none to be opened."""
    window = found.window
    if window is None or not found.here or (on - window.latest).days <= EGGS_LATE_DAYS:
        return None
    code = found.clutch.code
    words = (
        f"clutch {code} was to hatch by {window.latest}; eggs that look good may be later in a "
        f"cooler incubator: check its temperature with a second thermometer, do not open them; if "
        f"none is good any more: warmside lineage eggs check {code} --good 0"
    )
    return Finding(EGGS_LATE, Level.NOTE, words, window.basis, About(parent_of(found.clutch)))
