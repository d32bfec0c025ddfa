"""Loans as they follow from who held an animal, and the young that belong to each."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.plugins.lineage.loans.falling import Fall
from warmside.plugins.lineage.loans.loan import ODD, Agreement, Loan, Stretch, loans_of
from warmside.plugins.lineage.loans.young import Brood, belongs, of_loan, of_loans

MAY = date(2026, 5, 1)


def day(after: int) -> date:
    return MAY + timedelta(days=after)


def loans(
    *stretches: tuple[str, int], agreed: tuple[tuple[int, Agreement], ...] = ()
) -> list[Loan]:
    made = [Stretch(custody, day(n), "A. Nother", until=day(60)) for custody, n in stretches]
    return list(loans_of(1, made, [(day(n), a) for n, a in agreed]))


def test_a_loan_runs_until_the_animal_is_back() -> None:
    (found,) = loans(("here", 0), ("lent out", 10), ("here", 70))
    assert (found.since, found.ended, found.out) == (day(10), day(70), True)
    assert [found.runs(day(n)) for n in (9, 10, 69, 70)] == [False, True, True, False]
    assert [found.late_days(day(n)) for n in (60, 61, 69, 70)] == [0, 1, 9, 0]


def test_an_animal_that_is_here_on_loan_may_move_about() -> None:
    (found,) = loans(("on loan here", 0), ("on loan here", 5), ("departed", 40))
    assert (found.since, found.ended, found.out) == (day(0), day(40), False)


def test_lent_again_to_another_is_a_second_loan() -> None:
    first, second = loans(("lent out", 0), ("lent out", 30))
    assert (first.ended, second.since, second.ended) == (day(30), day(30), None)


def test_the_death_of_the_animal_ends_a_loan() -> None:
    (found,) = loans(("lent out", 0), ("dead", 20))
    assert found.ended == day(20) and found.late_days(day(90)) == 0


def test_what_is_agreed_later_goes_before_and_the_rest_stays() -> None:
    first = Agreement(ours_percent=50.0, odd=ODD["us"], terms="no others", events=(1,))
    later = Agreement(until=day(90), ours_percent=0.0, events=(2,))
    (found,) = loans(("lent out", 0), agreed=((0, first), (30, later)))
    assert found.until == day(90)
    assert found.agreed == Agreement(day(90), 0.0, ODD["us"], None, "", "no others", (1, 2))


def test_what_was_agreed_on_another_loan_does_not_count() -> None:
    said = ((5, Agreement(ours_percent=25.0)), (45, Agreement(ours_percent=75.0)))
    first, second = loans(("lent out", 0), ("here", 20), ("lent out", 40), agreed=said)
    assert (first.agreed.ours_percent, second.agreed.ours_percent) == (25.0, 75.0)


def test_young_belong_from_its_beginning_to_some_days_after_its_end() -> None:
    (found,) = loans(("lent out", 10), ("here", 70))
    fits = [belongs(found, Brood("C", day(n), 3), 30) for n in (9, 10, 70, 100, 101)]
    assert fits == [False, True, True, True, False]


def test_young_of_the_overlap_are_of_the_later_loan() -> None:
    both = loans(("lent out", 0), ("here", 20), ("lent out", 40))
    found = dict(of_loans(both, [Brood("A", day(30), 3), Brood("B", day(50), 5)], 180))
    assert [[s.brood.clutch for s in found[loan].broods] for loan in both] == [["A"], ["B"]]


def test_eggs_that_have_not_hatched_fall_to_nobody_yet() -> None:
    (loan,) = loans(("lent out", 0), agreed=((0, Agreement(ours_percent=50.0)),))
    young = of_loan(loan, [Brood("A", day(5), None), Brood("B", day(9), 5, divided=Fall(3, 2))])
    assert [s.agreed for s in young.broods] == [None, Fall(2, 2, 1)]
    assert (young.agreed, young.divided) == (Fall(2, 2, 1), Fall(3, 2))
