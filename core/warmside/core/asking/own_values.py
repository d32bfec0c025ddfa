"""What a keeper may set for one animal or species without any plugin, declared as settings are."""

from __future__ import annotations

from collections.abc import Mapping

from warmside.core.plugins.manifest import HOOK_LEVEL, Manifest, Setting
from warmside.core.values.units import Unit

SITTER_STEPS = "sitter_steps"
NOT_SET = "0 is not set [keeper's own]"
CORE = Manifest(
    name="core",
    summary="Values of animals and species that all plugins read",
    hook_level=HOOK_LEVEL,
    hooks="",
    settings=(
        Setting(
            "target_mass",
            "the mass that the keeper, better with a vet, wants the animal to have",
            0.0,
            NOT_SET,
            unit=Unit.MASS,
            least=0.0,
            per=("animal",),
        ),
        Setting(
            "adult_mass",
            "the mass from which it counts as an adult, where the shipped one does not fit",
            0.0,
            NOT_SET,
            unit=Unit.MASS,
            least=0.0,
            per=("species", "animal"),
        ),
        Setting(
            "adult_age",
            "the age from which it counts as an adult, where the shipped one does not fit",
            0.0,
            NOT_SET,
            unit=Unit.AGE,
            least=0.0,
            per=("species", "animal"),
        ),
        Setting(
            SITTER_STEPS,
            "how a sitter does it: steps parted by semicolons, what begins with never apart",
            "",
            "none are given [keeper's own]",
            per=("species", "enclosure", "animal"),
        ),
    ),
)
"""No plugin: its name is reserved, so that none can have it."""


def with_own(manifests: Mapping[str, Manifest]) -> dict[str, Manifest]:
    """The plugins' manifests and the core's."""
    return {**manifests, CORE.name: CORE}


def names_of(scope: str) -> str:
    """The names of the values that may be set for one animal or one species."""
    return ", ".join(s.name for s in CORE.settings if scope in s.per)
