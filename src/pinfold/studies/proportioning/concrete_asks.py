"""What a concrete is asked, and what the answers come to."""

from __future__ import annotations

from pinfold.formulas.concrete_mix import Air
from pinfold.studies.proportioning.aggregates import ASKS as OF_AGGREGATES
from pinfold.studies.proportioning.aggregates import own_material
from pinfold.studies.proportioning.concrete_choosing import Brief
from pinfold.studies.proportioning.records import Ask, Wish
from pinfold.tables.concrete import grid
from pinfold.tables.shelf import kind, shelf
from pinfold.units import CELSIUS, METER, PASCAL, RATIO, UNIT_BY_SYMBOL, Ratio

_PSI, _INCH = UNIT_BY_SYMBOL["psi"].factor, UNIT_BY_SYMBOL["in"].factor
_WARM, _TEN_FAHRENHEIT = 21.0, 10 / 1.8
"""Fresh concrete up to 70 degrees Fahrenheit takes the water of the table (common practice)."""
_REDUCERS = {"none": "", "reducer": "water_reducer", "strong-reducer": "high_range_reducer"}

ASKS = (
    Ask(key="strength", says="strength it must have at 28 days, on cylinders", unit=PASCAL, needed=True,
        low=1000 * _PSI * (1 - 1e-9), high=5000.5 * _PSI, example="3000 psi or 20 MPa"),
    Ask(key="member", says="what is poured", choices=tuple(shelf("members")), otherwise="footing"),
    Ask(key="slump", says="how far a cone of it sinks", unit=METER, otherwise="3 in", low=0.999 * _INCH,
        high=7.001 * _INCH, example="3 in or 75 mm"),
    Ask(key="stone_size", says="largest stone", unit=METER, otherwise="3/4 in", low=0.0094, high=3.001 * _INCH,
        example="3/4 in or 20 mm"),
    Ask(key="form_width", says="narrowest width between the sides of the form", unit=METER, low=0.01, high=100.0,
        example="8 in or 200 mm"),
    Ask(key="slab_depth", says="thickness of a slab", unit=METER, low=0.01, high=10.0, example="4 in or 100 mm"),
    Ask(key="bar_gap", says="clear gap between bars, or from bar to form", unit=METER, low=0.005, high=10.0,
        example="2 in or 50 mm"),
    Ask(key="exposure", says="what frost does to it", choices=tuple(shelf("frost_exposures")), otherwise="none"),
    Ask(key="air", says="air put in on purpose against frost", choices=("as-exposed", "plain", "entrained"),
        otherwise="as-exposed"),
    Ask(key="most_water_cement", says="most water over cement, if something else limits it", unit=RATIO, low=0.25,
        high=0.82, example="0.50"),
    Ask(key="deviation", says="standard deviation of your own strength tests", unit=PASCAL, low=7e5, high=2e7,
        example="500 psi or 3.5 MPa"),
    Ask(key="stone_shape", says="crushed stone or rounded gravel", choices=("angular", "rounded"),
        otherwise="angular"),
    Ask(key="sand_kind", says="sand from nature or from the crusher", choices=("natural", "crushed"),
        otherwise="natural"),
    Ask(key="reducer", says="something added that saves water", choices=tuple(_REDUCERS), otherwise="none"),
    Ask(key="warmth", says="how warm the fresh concrete is", unit=CELSIUS, low=0.0, high=45.0,
        example="85 °F or 29 °C"),
    *OF_AGGREGATES,
)  # fmt: skip


def brief_of(wish: Wish) -> Brief:
    """What the wish comes to."""
    exposure = kind("frost_exposures", wish.word("exposure"))
    sand = own_material(wish, "sand")
    fines = grid("coarse-volume").across
    return Brief(
        strength=wish.number("strength"),
        deviation=wish.perhaps("deviation"),
        slump=wish.number("slump"),
        size=wish.number("stone_size"),
        air=_air(wish),
        exposure=exposure,
        barred=wish.perhaps("bar_gap") is not None,
        rounded=wish.word("stone_shape") == "rounded",
        change=_change(wish),
        most_ratio=min(_limits(wish), default=None),
        fineness=min(max(sand.value("fineness"), fines[0]), fines[-1]),
        cement=own_material(wish, "portland-cement"),
        sand=sand,
        stone=own_material(wish, "gravel"),
    )


def _air(wish: Wish) -> Air:
    frost = wish.word("exposure") != "none"
    chosen = wish.word("air")
    return "entrained" if chosen == "entrained" or (chosen == "as-exposed" and frost) else "plain"


def _limits(wish: Wish) -> list[Ratio]:
    exposure, own = kind("frost_exposures", wish.word("exposure")), wish.perhaps("most_water_cement")
    of_frost = [exposure.value("water_cement")] if exposure.has("water_cement") else []
    return [*of_frost, *([] if own is None else [own])]


def _change(wish: Wish) -> Ratio:
    changes = kind("concrete", "water-changes")
    found = [
        "rounded_stone" if wish.word("stone_shape") == "rounded" else "",
        "manufactured_sand" if wish.word("sand_kind") == "crushed" else "",
        _REDUCERS[wish.word("reducer")],
    ]
    hotter = max(wish.numbers.get("warmth", _WARM) - _WARM, 0.0) / _TEN_FAHRENHEIT
    return sum(changes.value(key) for key in found if key) + hotter * changes.value("per_ten_fahrenheit_hotter")
