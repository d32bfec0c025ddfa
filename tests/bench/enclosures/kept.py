"""The enclosures that are replayed: who lives in them, how they are set up, and what goes wrong."""

from __future__ import annotations

from dataclasses import dataclass

from tests.bench.enclosures.climates import Climate

from warmside.api import Level
from warmside.plugins.habitat.described.presets import preset_text

CORN = Climate(warm=29.5, night=None, cool=2.0, damp=52)
PYTHON = Climate(warm=31.5, night=27.5, cool=5.0, damp=68)
DRAGON = Climate(warm=31.5, night=None, cool=3.0, damp=32)
LEOPARD = Climate(warm=32.0, night=26.0, cool=3.5, damp=34)
CRESTED = Climate(warm=24.0, night=None, cool=0.0, damp=70, heats=False)


@dataclass(frozen=True, slots=True)
class Kept:
    """An enclosure; `told` is the finding by which its fault must be told, at most `within` days
    after it begins, at `level` or above.

    `fault` is one of stuck, failed, silent, unread, dry; a lack of the set-up is there from the
    first day. `cooled` has a winter rest, `sheds` are every so many days.
    """

    scenario: str
    species: str
    preset: str
    climate: Climate
    fault: str = ""
    without: str = ""
    told: tuple[str, ...] = ()
    within: int = 0
    cooled: bool = False
    sheds: int = 50
    uv_index: float | None = None
    level: Level = Level.LOOK_SOON

    def text(self, since: str) -> str:
        """Its description, lamps new on a day, without the fitting that it lacks."""
        text = preset_text(self.preset).replace("# SAY ", "")
        head, *tables = text.split("\n[[")
        kept = [t for t in tables if not (self.without and self._is(t))]
        return "\n[[".join([head, *(_since(t, since) for t in kept)])

    def _is(self, table: str) -> bool:
        kind, _, zone = self.without.partition(" in ")
        return f'kind = "{kind}"' in table and (not zone or f'zone = "{zone}"' in table)


def _since(table: str, day: str) -> str:
    if not table.startswith("light]]"):
        return table
    rows = [row for row in table.rstrip().splitlines() if not row.startswith("since")]
    return "\n".join([*rows, f"since = {day}", ""])


WELL = (
    Kept("corn snake", "Pantherophis guttatus", "snake", CORN),
    Kept("corn snake, cooled", "Pantherophis guttatus", "snake", CORN, cooled=True),
    Kept("ball python", "Python regius", "snake", PYTHON),
    Kept("bearded dragon", "Pogona vitticeps", "basking", DRAGON, sheds=75, uv_index=4.0),
    Kept("leopard gecko", "Eublepharis macularius", "tub", LEOPARD, sheds=30),
    Kept(
        *("crested gecko", "Correlophus ciliatus", "humid", CRESTED),
        without="panel in warm side",
        sheds=30,
    ),
)
READ_OUT = 8 + 3
"""A logger is asked for after a week, read out on the next day or three days later: nothing can be
told before."""
BADLY = (
    Kept(
        *("thermostat stuck", "Pantherophis guttatus", "snake", CORN),
        fault="stuck",
        told=("habitat.overheats",),
        within=READ_OUT,
    ),
    Kept(
        *("heat failed", "Python regius", "snake", PYTHON),
        fault="failed",
        told=("habitat.heat", "habitat.cold"),
        within=READ_OUT,
    ),
    Kept(
        *("heat failed, corn", "Pantherophis guttatus", "snake", CORN),
        fault="failed",
        told=("habitat.heat", "habitat.cold"),
        within=READ_OUT,
    ),
    Kept(
        *("log silent", "Pantherophis guttatus", "snake", CORN),
        fault="silent",
        told=("habitat.silent",),
        within=READ_OUT,
    ),
    Kept(
        *("log not read", "Python regius", "snake", PYTHON),
        fault="unread",
        told=("habitat.unread",),
        within=4 * 7,
    ),
    Kept(
        *("no hide in the cool", "Pantherophis guttatus", "snake", CORN),
        without="hide in cool side",
        told=("habitat.hide",),
        within=1,
    ),
    Kept(
        *("dry at a shed", "Pantherophis guttatus", "snake", CORN),
        fault="dry",
        without="humid hide",
        told=("habitat.dry",),
        within=50 + READ_OUT,
    ),
    Kept(
        *("dry, with a humid hide", "Python regius", "snake", PYTHON),
        fault="dry",
        told=("habitat.dry",),
        within=50 + READ_OUT,
        level=Level.NOTE,
    ),
    Kept(
        *("lamp worn", "Pogona vitticeps", "basking", DRAGON),
        fault="worn",
        told=("habitat.uv",),
        within=100,
        uv_index=4.0,
    ),
)
