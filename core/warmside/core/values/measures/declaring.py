"""What declares a plugin's own unit and its measure, offered as `warmside.api.measures`."""

from warmside.core.values.measures.measure import Bare as Bare
from warmside.core.values.measures.measure import Limit as Limit
from warmside.core.values.measures.measure import Measure as Measure
from warmside.core.values.measures.measure import rung as rung
from warmside.core.values.measures.measure import style as style
from warmside.core.values.scales import scale as scale
from warmside.core.values.units import own_unit as own_unit

__all__ = ("Bare", "Limit", "Measure", "own_unit", "rung", "scale", "style")
