"""Energy forms that clinics use for support feeding, and how far they lie above the resting rate.

They differ by a factor of three, and one may carry a slip of units (read as kJ it would match the
resting rate at 30 °C). They are shown so that a keeper can talk with a vet, never as a ration.
"""

from __future__ import annotations

import math

from msgspec import Struct

from warmside.api import Mark, Source
from warmside.plugins.feeding.energy.rates import KJ_PER_KCAL, check_mass, standard_kj_per_day


class ClinicalForm(Struct, frozen=True):
    """kcal/day = factor · (kg)^exponent."""

    name: str
    factor: float
    exponent: float
    source: Source

    def kcal_per_day(self, mass_g: float) -> float:
        """The form's figure for a mass in g, kcal/day."""
        return self.factor * math.pow(check_mass(mass_g) / 1000.0, self.exponent)

    def kj_per_day(self, mass_g: float) -> float:
        """The form's figure for a mass in g, kJ/day."""
        return self.kcal_per_day(mass_g) * KJ_PER_KCAL

    def times_standard(self, mass_g: float, temperature_c: float = 30.0) -> float:
        """How many times the standard rate at a temperature the form asks for."""
        return self.kj_per_day(mass_g) / standard_kj_per_day(mass_g, temperature_c)


FORMS = (
    ClinicalForm("32 kg^0.77", 32.0, 0.77, Source("veterinary handbooks", Mark.FROM_MEMORY)),
    ClinicalForm(
        "32 kg^0.76",
        32.0,
        0.76,
        Source("a student veterinary wiki, supportive care of snakes at 30 °C", Mark.SECONDARY),
    ),
    ClinicalForm(
        "10 kg^0.75",
        10.0,
        0.75,
        Source("Kaplan 2000, Basal Metabolic Requirements for Reptiles (web)", Mark.SECONDARY),
    ),
)
