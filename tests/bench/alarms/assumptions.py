"""What the simulated animals are made of, in words; printed with the table of bars."""

from __future__ import annotations

TEXT = """\
All animals are invented; the figures below are assumptions, none is a norm.
- A reading: true mass, what is left in the gut of the meals before (5 to 13 % of its mass each,
  gone evenly in 2 to 7 days), noise of 1 to 2 % (standard deviation; scale, bladder, droppings),
  rounded to what the scale shows (0.1 g below 100 g, else 1 g; one gecko on a scale of 5 g).
- True mass: a level or Gompertz growth on a clock that runs fast and slow (25 %, over 40 days),
  times a wander of 1 % (over 25 days); a slough takes 1.5 %, made up again in 30 days.
- Winter fast: 80 to 130 days from November, 4 to 8 % lost, made up in 60 to 110 days. Cooling: 60
  to 85 days, 2 to 6 % lost. A clutch takes 26 to 36 % of a snake, 8 to 13 % of a gecko.
- Ill: loses 1 or 2 % of its mass every week from a random day on, or grows no more; it eats as
  before unless said otherwise. True loss is of the mass on the day of the onset.
- The keeper weighs within four days when the round asks (15 % of the time a week later), feeds on
  a rhythm of his own, and writes down 40 to 90 % of the sheds. Meals and sheds fall at random to
  the weighings.
- Every enclosure is read about every 9 days, with 1 degree of scatter, warmer by 1.5 in summer, one
  reading in twelve by night. A note is written every 3 weeks, one in seventeen of them with a word
  of a sign that means something else; asked about it, the keeper says so within ten days.
"""


def lines() -> list[str]:
    """The assumptions, in lines."""
    return TEXT.splitlines()
