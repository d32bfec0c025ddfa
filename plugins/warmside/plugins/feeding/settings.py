"""The settings of the plugin: the rules of feeding, each with its source and mark."""

from __future__ import annotations

from warmside.api import Setting, Unit


def _rule(
    name: str,
    unit: Unit,
    default: float,
    limits: tuple[float, float],
    help: str,
    source: str,
    per: tuple[str, ...] = (),
) -> Setting:
    return Setting(name, help, float(default), source, unit, *limits, per=per)


RULES = (
    _rule(
        "arrival_days",
        Unit.DAYS,
        7,
        (0, 60),
        "leave a new animal alone for so long before the first meal; unless set, less for the "
        "young and for lizards, tortoises and turtles",
        "snakes settle for 5 to 7 days [common practice, no source]",
    ),
    _rule(
        "move_days",
        Unit.DAYS,
        7,
        (0, 60),
        "leave an animal alone for so long after a move to another enclosure; unless set, less for "
        "the young and for lizards, tortoises and turtles",
        "snakes settle for 5 to 7 days [common practice, no source]",
    ),
    _rule(
        "opaque_days",
        Unit.DAYS,
        14,
        (1, 40),
        "wait at most so long after the eyes turned opaque when no shed is recorded; unless set, "
        "lizards, tortoises and turtles do not wait",
        "the visible cycle takes 7 to 14 days [common practice, no source]",
    ),
    _rule(
        "before_slough_days",
        Unit.DAYS,
        3,
        (0, 14),
        "wait when a shed is expected within so many days",
        "many refuse before a shed; a refused meal is thrown away [common practice, no source]",
    ),
    _rule(
        "regurgitation_days",
        Unit.DAYS,
        14,
        (5, 60),
        "wait so long after a regurgitation; unless set, less for hatchlings, lizards, tortoises "
        "and turtles",
        "rest the gut for about two weeks [common practice, no source]",
    ),
    _rule(
        "regurgitation_percent",
        Unit.PERCENT,
        50,
        (10, 100),
        "size of the first meals after a regurgitation, as a share of the usual",
        "start again with about half a meal [common practice, no source]",
    ),
    _rule(
        "regurgitation_meals",
        Unit.COUNT,
        2,
        (0, 10),
        "so many smaller meals must stay down before the usual size",
        "two small meals first [common practice, no source]",
    ),
    _rule(
        "regurgitation_repeat_days",
        Unit.DAYS,
        120,
        (14, 730),
        "a second regurgitation within so many days goes to a vet before the next meal",
        "repeated regurgitation needs a vet [common practice, no source]",
    ),
    _rule(
        "gravid_percent",
        Unit.PERCENT,
        60,
        (10, 100),
        "size of meals while gravid, as a share of the usual",
        "smaller meals while gravid; refusing is usual [common practice, no source]",
    ),
    _rule(
        "cooling_before_days",
        Unit.DAYS,
        14,
        (0, 60),
        "last meal so long before winter cooling, so that the gut is empty",
        "two weeks warm without food before cooling [common practice, no source]",
    ),
    _rule(
        "cooling_after_days",
        Unit.DAYS,
        7,
        (0, 60),
        "first meal so long after it is warm again",
        "a week of warmth before the first meal [common practice, no source]",
    ),
    _rule(
        "retry_days",
        Unit.DAYS,
        5,
        (1, 30),
        "offer again so long after a refusal, or after the usual interval if that is shorter; "
        "unless set, by kind and stage",
        "do not offer daily to a snake that refuses [common practice, no source]",
        ("species", "animal"),
    ),
    _rule(
        "fresh_days",
        Unit.DAYS,
        30,
        (1, 730),
        "a weight counts as fresh for so long; an older one widens the range",
        "a monthly weighing [common practice, no source]",
    ),
    _rule(
        "possible_loss_percent_per_week",
        Unit.PERCENT,
        0.5,
        (0, 5),
        "loss that a stale weight may hide, a week",
        "a slow unseen loss [common practice, no source]",
    ),
    _rule(
        "most_items",
        Unit.COUNT,
        3,
        (1, 10),
        "at most so many rodents or birds in one meal",
        "one to three items a meal [common practice, no source]",
    ),
    _rule(
        "acute_loss_percent",
        Unit.PERCENT,
        10,
        (3, 30),
        "loss within the acute days that goes to a vet",
        "support from 10 % of body mass lost acutely: Kaplan 2000, a web page [secondary]",
    ),
    _rule(
        "acute_days",
        Unit.DAYS,
        60,
        (7, 180),
        "what counts as acute",
        "the source gives no number of days [common practice, no source]",
    ),
    _rule(
        "chronic_loss_percent",
        Unit.PERCENT,
        20,
        (5, 40),
        "loss within the chronic days that goes to a vet",
        "support from 20 % of body mass lost chronically: Kaplan 2000, a web page [secondary]",
    ),
    _rule(
        "chronic_days",
        Unit.DAYS,
        365,
        (90, 1500),
        "how far back the chronic loss looks",
        "the source gives no number of days [common practice, no source]",
    ),
    _rule(
        "fast_intervals",
        Unit.COUNT,
        4,
        (1, 20),
        "a fast longer than so many usual intervals is worth a look",
        "several meals missed without a known reason [common practice, no source]",
    ),
    _rule(
        "balance_weeks",
        Unit.COUNT,
        8,
        (1, 104),
        "weeks over which the energy balance looks back",
        "long enough for several meals [common practice, no source]",
    ),
    _rule(
        "surplus_ratio",
        Unit.RATIO,
        2,
        (1.1, 5),
        "an adult that eats so many times its resting need for long eats more than it needs",
        "field animals spend 2 to 2.5 times the resting rate (Bennett & Nagy 1977), a cage asks "
        "for less [common practice, no source]",
    ),
    _rule(
        "surplus_weeks",
        Unit.COUNT,
        12,
        (4, 104),
        "what counts as long for a surplus",
        "a season [common practice, no source]",
    ),
    _rule(
        "freezer_days",
        Unit.DAYS,
        180,
        (7, 730),
        "frozen prey older than this is used first or thrown away",
        "six months in a household freezer [common practice, no source]",
    ),
    _rule(
        "stock_weeks",
        Unit.COUNT,
        2,
        (1, 26),
        "the stock should last for so many weeks",
        "time for an order to arrive [common practice, no source]",
    ),
)
UNKNOWN = "unknown"
SWITCHES = (
    Setting(
        "eye_gap",
        "the space between the outer edges of its eyes, which no insect should exceed in length; "
        "0: worked out from its mass",
        0.0,
        "measured by the keeper [keeper's own]",
        unit=Unit.LENGTH,
        least=0.0,
        most=150.0,
        per=("animal",),
    ),
    Setting(
        "uvb",
        "whether it has a UVB lamp or sun of its kind; how much vitamin D3 it gets rests on it",
        UNKNOWN,
        "only the keeper can say [keeper's own]",
        choices=(UNKNOWN, "yes", "no"),
        per=("species", "enclosure", "animal"),
    ),
    Setting(
        "refused_is_used",
        "frozen prey that was refused is gone from the stock",
        True,
        "thawed prey is never frozen again [common practice, no source]",
    ),
    Setting(
        "dust_as_planned",
        "insect meals without a recorded powder count as dusted by its plan",
        False,
        "only what was recorded counts, unless the keeper says so [keeper's own]",
    ),
)
SETTINGS = (*RULES, *SWITCHES)
