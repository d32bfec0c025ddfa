"""The family whose length-mass curve stands nearest to a species (systematics from memory)."""

from __future__ import annotations

_BY_GENUS = {
    "Eublepharis": "Eublepharidae",
    "Hemitheconyx": "Eublepharidae",
    "Coleonyx": "Eublepharidae",
    "Goniurosaurus": "Eublepharidae",
    "Correlophus": "Diplodactylidae",
    "Rhacodactylus": "Diplodactylidae",
    "Mniarogekko": "Diplodactylidae",
    "Strophurus": "Diplodactylidae",
    "Anolis": "Anolis",
    "Salvator": "Teiidae",
    "Timon": "Lacertidae",
    "Lacerta": "Lacertidae",
}
_BY_GROUP = {
    "python": "Pythonidae",
    "boa": "Boidae",
    "colubrid": "Colubridae",
    "viper": "Viperidae",
    "elapid": "Elapidae",
    "gecko": "Gekkonidae",
    "agama": "Agamidae",
    "skink": "Scincidae",
    "monitor": "Varanidae",
    "chameleon": "Chamaeleonidae",
    "iguana": "Iguanidae",
    "lizard": "all lizards",
}


def family_of(scientific: str, group: str) -> str | None:
    """The family with a curve, by genus before group; None for shelled and other animals."""
    return _BY_GENUS.get(scientific.split(" ")[0]) or _BY_GROUP.get(group)
