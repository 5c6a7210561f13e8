"""The site's own cement, sand and stone, with what the builder measured of them put in for this wish."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from pinfold.figures import Figure, given
from pinfold.studies.proportioning.records import Ask, Wish
from pinfold.tables.shelf import Kind
from pinfold.units import KG_PER_CUBIC_METER, RATIO, Unit

_OWN = {
    "portland-cement": {"cement_density": "particle_density"},
    "sand": {
        "sand_fineness": "fineness", "sand_density": "particle_density", "sand_absorption": "absorption",
        "sand_moisture": "moisture",
    },
    "gravel": {
        "stone_density": "particle_density", "stone_rodded": "rodded_density", "stone_absorption": "absorption",
        "stone_moisture": "moisture",
    },
}  # fmt: skip
"""By material: what is asked of it, and the figure it stands for."""

ASKS = (
    Ask(key="sand_fineness", says="fineness modulus of the sand", unit=RATIO, low=2.0, high=3.4, example="2.8"),
    Ask(key="sand_density", says="density of the sand's grains, soaked but dry to the touch", unit=KG_PER_CUBIC_METER,
        low=1500.0, high=5000.0, example="2640 kg/m3"),
    Ask(key="sand_absorption", says="water the sand's grains soak up", unit=RATIO, low=0.0, high=0.1, example="0.7 %"),
    Ask(key="sand_moisture", says="all water in the sand over its dry weight", unit=RATIO, low=0.0, high=0.25,
        example="5 %"),
    Ask(key="stone_density", says="density of the stones themselves, soaked but dry to the touch",
        unit=KG_PER_CUBIC_METER, low=1500.0, high=5000.0, example="2680 kg/m3"),
    Ask(key="stone_rodded", says="weight of dry stone rodded into a bucket, over the bucket's volume",
        unit=KG_PER_CUBIC_METER, low=1000.0, high=3000.0, example="100 lb/ft3 or 1600 kg/m3"),
    Ask(key="stone_absorption", says="water the stones soak up", unit=RATIO, low=0.0, high=0.1, example="0.5 %"),
    Ask(key="stone_moisture", says="all water in the stone over its dry weight", unit=RATIO, low=0.0, high=0.15,
        example="2 %"),
    Ask(key="cement_density", says="density of the cement's grains", unit=KG_PER_CUBIC_METER, low=2500.0, high=3500.0,
        example="3150 kg/m3"),
)  # fmt: skip
"""What may be told of the materials; each is the shelf's, or the log's, when it is not."""


def own_material(wish: Wish, name: str) -> Kind:
    """A material as the log teaches it, with the builder's own figures for this wish put in."""
    found = wish.material(name)
    own = {
        figure: given(wish.numbers[key], _unit(key)) for key, figure in _OWN[name].items() if key in wish.numbers
    }  # fmt: skip
    return with_figures(found, own)


def with_figures(found: Kind, own: Mapping[str, Figure]) -> Kind:
    """A kind with some of its figures replaced; itself where none are."""
    return replace(found, figures={**found.figures, **own}) if own else found


def _unit(key: str) -> Unit:
    return next(ask.unit for ask in ASKS if ask.key == key and ask.unit is not None)
