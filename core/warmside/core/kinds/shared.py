"""The kinds of event that the core declares, so that any plugin can read them."""

from __future__ import annotations

from warmside.core.kinds.declaring import (
    animal_ref,
    choice,
    choices,
    clutch_ref,
    day,
    measure,
    whole,
    words,
)
from warmside.core.kinds.fields import NOT_SAID
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.sign_words import SIGNS, SYNONYMS
from warmside.core.values.units import Unit

RETAINED = ("spectacle", "tail tip", "toes", "elsewhere")
"""Where skin may stay on at a shed, in the words of the kind `shed`."""


SHED_WORDS = {
    "blue": "opaque",
    "in blue": "opaque",
    "milky": "opaque",
    "cloudy": "opaque",
    "cleared": "clear",
    "pink": "dull",
}
"""What keepers call the stages of a shed."""


class Kept:
    """The animal was already here when its record began."""

    source: str = words("from whom it came, if known")


class Arrived:
    """The animal came to stay, or came here on loan."""

    how: str = choice(("bought", "gift", "bred here", "rescued", "on loan here"), "how it came")
    source: str = words("from whom", before="from")
    terms: str = words("terms of the purchase or loan")


class Returned:
    """The animal came back after a loan, a show or a boarding."""

    after: str = choice(
        ("loan", "show", "boarding", "vet stay"), "what it returned from", before="from a"
    )
    source: str = words("from whom", before="from")


class Departed:
    """The animal left for good."""

    how: str = choice(("sold", "given away", "back to its owner", "lost"), "how it left")
    to: str = words("to whom", before="to")
    terms: str = words("terms")


class Lent:
    """The animal left for a while and is still ours."""

    to: str = words("to whom", optional=False, before="to")
    terms: str = words("terms of the loan")
    until: str | None = day("agreed day of return", optional=True)
    until_words: str = words("agreed return, where it is no whole day", before="until")


class Died:
    """The animal died."""

    circumstances: str = words("what is known, and by whom")


class Moved:
    """The animal was put into another enclosure."""

    reason: str = words("why")


class Weighed:
    """Body mass on a scale."""

    mass_g: float = measure(Unit.MASS, "body mass", least=0.05, most=500_000)


class Measured:
    """Lengths and girth."""

    total_mm: float | None = measure(
        Unit.LENGTH, "nose to tail tip", least=10, most=12_000, optional=True
    )
    snout_vent_mm: float | None = measure(
        Unit.LENGTH, "nose to vent", least=10, most=11_000, optional=True, before="nose to vent"
    )
    girth_mm: float | None = measure(
        Unit.LENGTH, "around the widest part", least=3, most=1_500, optional=True
    )


class Fed:
    """Food offered, and what came of it."""

    item: str = words("what was offered", optional=False)
    count: int = whole("how many pieces", least=1, default=1, times=True)
    mass_g: float | None = measure(
        Unit.MASS, "mass of the whole meal", least=0.001, most=100_000, optional=True
    )
    form: str | None = choice(
        ("thawed", "fresh killed", "live", "insect", "plant", "prepared"),
        "what kind of food",
        default=None,
    )
    outcome: str = choice(
        ("taken", "part taken", "refused", "regurgitated"), "what came of it", default="taken"
    )


class Shedding:
    """A stage on the way to a shed."""

    stage: str = choice(("dull", "opaque", "clear"), "how skin and eyes look", also=SHED_WORDS)


class Shed:
    """A shed, and whether all of the skin came off."""

    outcome: str = choice(
        ("one piece", "pieces", "eaten", NOT_SAID), "how it came off", default=NOT_SAID
    )
    retained: tuple[str, ...] = choices(RETAINED, "where skin stayed on", before="skin left on")
    slough_mm: float | None = measure(
        Unit.LENGTH, "length of the shed skin", least=10, most=15_000, optional=True
    )


class Defecated:
    """Droppings or urates seen."""

    looks: str = choice(("normal", "loose", "bloody", "undigested", "urates only"), "how it looks")


class Cleaned:
    """The enclosure was cleaned."""

    extent: str = choice(("spot", "full"), "how much", default="spot")


class Watered:
    """Fresh water in a clean bowl."""


class Misted:
    """The enclosure was misted."""

    amount_ml: float | None = measure(
        Unit.VOLUME, "how much water", least=1, most=100_000, optional=True
    )
    how: str = words("by hand, by a timer")


class Climate:
    """Temperatures and humidity read in the enclosure."""

    warm_c: float | None = measure(
        Unit.TEMPERATURE, "warm side", least=-10, most=100, optional=True
    )
    cool_c: float | None = measure(
        Unit.TEMPERATURE, "cool side", least=-10, most=100, optional=True
    )
    humidity_percent: float | None = measure(
        Unit.PERCENT, "relative humidity", least=0, most=100, optional=True
    )


class Condition:
    """Body condition by eye; the words of each step are in: warmside signs steps."""

    score: int = whole(
        "1 wasted, 2 thin, 3 good, 4 heavy, 5 obese, by eye", least=1, most=5, required=True
    )


class Sign:
    """A sign of illness seen on the animal, or that it is gone; no diagnosis."""

    sign: str = choice(SIGNS, "what was seen", also=SYNONYMS)
    state: str = choice(
        ("seen", "gone", "not so"), "seen, gone, or that it was none", default="seen"
    )
    where: str = words("where on the body, how much, since when")


class Observed:
    """Anything seen that has no kind of its own."""

    what: str = words("what was seen", optional=False)


class Examined:
    """Seen by a vet."""

    by: str = words("which vet")
    told: str = words("what the vet said", optional=False)


class Treated:
    """A treatment given as a vet ordered it."""

    what: str = words("what was given", optional=False)
    dose: str = words("dose and way, as ordered")
    by: str = words("who ordered it")
    outcome: str | None = choice(
        ("given", "part given", "missed", "refused", "vomited", "stopped by the vet"),
        "what came of it; given if left out",
        default=None,
    )
    planned: str = words("the dose that it stands for, by its planned time", before="planned")


class Mated:
    """A mating seen."""

    partner_animal_id: int | None = animal_ref("the partner", optional=True, before="with")
    partner_words: str = words("a partner that is not in the record", before="with")


class Pairing:
    """A pair that is to have young: planned, put together, taken apart, or given up."""

    partner_animal_id: int = animal_ref("the partner", before="with")
    state: str = choice(
        ("planned", "together", "apart", "given up"), "how far it is", default="together"
    )
    begin: str | None = day("when they are to meet, of a plan", optional=True, before="from")


class Looks:
    """How an animal looks, in words of the trade, as a hatchling is described."""

    says: str = words('such as "visual albino" or "normal albino"', optional=False)


class Gravid:
    """Carrying eggs or young."""

    state: str = choice(("suspected", "confirmed", "over"), "how sure, or that it is over")


class Laid:
    """Eggs laid, or young born alive."""

    count: int | None = whole("eggs or young in all", after="in all")
    good: int | None = whole("of these, good ones", after="good")
    clutch_id: int | None = clutch_ref("the clutch, where it is entered", optional=True)


class Hatched:
    """Young hatched from this dam's clutch."""

    count: int = whole("young hatched", least=1, default=1, after="young")
    clutch_id: int | None = clutch_ref("the clutch, where it is entered", optional=True)


class Cooling:
    """Winter cooling begins or ends."""

    state: str = choice(("begun", "ended"), "begun or ended")


SHARED_KINDS = (
    EventKind("kept", "here already", Kept, Subject.PLACING),
    EventKind("arrived", "arrived", Arrived, Subject.PLACING),
    EventKind("returned", "returned", Returned, Subject.PLACING),
    EventKind("departed", "departed", Departed),
    EventKind("lent", "lent out", Lent),
    EventKind("died", "died", Died),
    EventKind("moved", "moved", Moved, Subject.PLACING),
    EventKind("weighed", "weighed", Weighed, todo="weigh"),
    EventKind("measured", "measured", Measured, todo="measure"),
    EventKind("fed", "fed", Fed, todo="feed"),
    EventKind("shedding", "shedding", Shedding),
    EventKind("shed", "shed", Shed),
    EventKind("defecated", "defecated", Defecated),
    EventKind("cleaned", "cleaned", Cleaned, Subject.ENCLOSURE, todo="clean"),
    EventKind("watered", "watered", Watered, Subject.ENCLOSURE, todo="fresh water"),
    EventKind("misted", "misted", Misted, Subject.ENCLOSURE, todo="mist"),
    EventKind("climate", "climate read", Climate, Subject.ENCLOSURE, todo="read the climate"),
    EventKind("condition", "body condition", Condition, todo="score the body condition"),
    EventKind("sign", "sign of illness", Sign),
    EventKind("observed", "observed", Observed, todo="look at it"),
    EventKind("examined", "examined by a vet", Examined, todo="vet visit", dead=True),
    EventKind("treated", "treated", Treated, todo="treatment as the vet ordered"),
    EventKind("mated", "mated", Mated, one_of=("partner_animal_id", "partner_words"), absent=True),
    EventKind("pairing", "pairing", Pairing, absent=True),
    EventKind("looks", "looks", Looks, absent=True),
    EventKind("gravid", "gravid", Gravid, absent=True),
    EventKind("laid", "laid", Laid, absent=True),
    EventKind("hatched", "hatched", Hatched, absent=True),
    EventKind("cooling", "winter cooling", Cooling),
)
