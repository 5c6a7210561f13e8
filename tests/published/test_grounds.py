"""Earth pressure, footings, frost and blocks against printed values; and traps in what is printed."""

from __future__ import annotations

import math

import pytest

from pinfold.formulas import bearing, earth, footings, frost, pads, walls
from pinfold.sources import publications
from published import Printed
from rows import Row

IN, FT, LB = 0.0254, 0.3048, 0.45359237
LBF = LB * 9.80665
PSI, PSF, PCF = LBF / IN**2, LBF / FT**2, LB / FT**3
DEG = math.pi / 180
BTU_CONDUCTIVITY = 1.730734666
STEP_WISE = "the source works on with rounded figures"


def printed(digits: str, source: str, where: str, grade: str = "A2") -> Printed:
    return Printed(digits, source, where, grade)


# --- earth --------------------------------------------------------------------------------------------------


def coulomb(wall_friction: float) -> float:
    return earth.active_pressure_by_coulomb(friction_angle=30 * DEG, wall_friction=wall_friction * DEG, slope=0.0)


def rankine(slope: float) -> float:
    return earth.active_pressure_by_rankine(friction_angle=30 * DEG, slope=slope * DEG)


TEXTBOOK = "tables of active pressure, friction angle 30°"
EARTH = [
    *(
        Row(
            what=f"Coulomb's active pressure, friction of {delta}° on an upright wall, level ground",
            printed=printed(digits, "DAS-FOUNDATION", TEXTBOOK),
            ours=lambda delta=delta: coulomb(delta),
            table="Das, Coulomb's coefficients",
            formula="earth.active_pressure_by_coulomb",
            method_error=0.0012 if delta == 25 else 0.0,
            note="the table's last figure is a slip for 0.2959, as a search over wedges shows" if delta == 25 else "",
        )
        for delta, digits in (
            (0, "0.3333"), (5, "0.3189"), (10, "0.3085"), (15, "0.3014"), (20, "0.2973"), (25, "0.2956"),
        )
    ),
    *(
        Row(
            what=f"Rankine's active pressure, ground rising at {slope}°",
            printed=printed(digits, "DAS-FOUNDATION", TEXTBOOK),
            ours=lambda slope=slope: rankine(slope),
            table="Das, Rankine's coefficients",
            formula="earth.active_pressure_by_rankine",
        )
        for slope, digits in ((10, "0.3495"), (20, "0.4142"))
    ),
    Row(
        what="Rankine's passive pressure, friction angle 30°",
        printed=printed("3.000", "DAS-FOUNDATION", TEXTBOOK),
        ours=lambda: earth.passive_pressure_by_rankine(friction_angle=30 * DEG),
        table="Das, Coulomb's coefficients",
        formula="earth.passive_pressure_by_rankine",
    ),
    Row(
        what="thrust on a smooth wall 5 m high, 18 kN/m3, friction angle 30°, in kN/m",
        printed=printed("75", "SURESH-SWCE", "question on active thrust"),
        ours=lambda: earth.earth_thrust(coefficient=rankine(0), density=18000 / 9.80665, height=5.0) / 1e3,
        table="Suresh, thrust on a smooth wall",
        formula="earth.earth_thrust",
    ),
    Row(
        what="thrust on 7.158 m of earth rising at 10°, 18 kN/m3, in kN/m",
        printed=printed("161.4", "DAS-FOUNDATION", "example 8.1"),
        ours=lambda: earth.earth_thrust(coefficient=rankine(10), density=18000 / 9.80665, height=7.158) / 1e3,
        table="Das example 8.1",
        formula="earth.earth_thrust",
        method_error=0.0014,
        note="the book takes 0.350 for 0.3495",
    ),
]  # fmt: skip

# --- walls that hold earth: the whole of an example -----------------------------------------------------------

CANTILEVER = "Das example 8.1"
HOLDING, TURNING, LOAD, WIDE = 1128.98e3, 379.25e3, 470.45e3, 4.0


def off_the_middle() -> float:
    return bearing.eccentricity(moment=LOAD * WIDE / 2 - (HOLDING - TURNING), load=LOAD)


def pressed(off: float = 0.406) -> bearing.BasePressure:
    return bearing.base_pressure(load=LOAD, width=WIDE, eccentricity=off)


HELD = [
    Row(
        what="safety of a cantilever wall against tipping",
        printed=printed("2.98", "DAS-FOUNDATION", "example 8.1"),
        ours=lambda: walls.overturning_factor(resisting=HOLDING, overturning=TURNING),
        table=CANTILEVER,
        formula="walls.overturning_factor",
    ),
    Row(
        what="how far off the middle its load stands, in m",
        printed=printed("0.406", "DAS-FOUNDATION", "example 8.1"),
        ours=off_the_middle,
        table=CANTILEVER,
        formula="bearing.eccentricity",
    ),
    Row(
        what="pressure under its toe, in kPa",
        printed=printed("189.2", "DAS-FOUNDATION", "example 8.1"),
        ours=lambda: pressed().toe / 1e3,
        table=CANTILEVER,
        formula="bearing.base_pressure",
    ),
    Row(
        what="pressure under its heel, in kPa",
        printed=printed("45.9", "DAS-FOUNDATION", "example 8.1"),
        ours=lambda: pressed(off_the_middle()).heel / 1e3,
        table=CANTILEVER,
        formula="bearing.base_pressure",
        note="with the book's rounded 0.406 m it is 46.0",
    ),
    Row(
        what="safety of a dam against tipping",
        printed=printed("3.42", "DAM-QUESTION", "question on a dam, second part"),
        ours=lambda: walls.overturning_factor(resisting=1206e3, overturning=352.4e3),
        table="board question on a dam",
        formula="walls.overturning_factor",
    ),
    Row(
        what="greatest pressure under the dam, 4 m wide, 0.27 m off the middle, in kPa",
        printed=printed("173.34", "DAM-QUESTION", "question on a dam, third part"),
        ours=lambda: bearing.base_pressure(load=493.5e3, width=4.0, eccentricity=0.27).toe / 1e3,
        table="board question on a dam",
        formula="bearing.base_pressure",
    ),
    Row(
        what="least pressure under the dam, in kPa",
        printed=printed("73.4", "DAM-QUESTION", "question on a dam, third part"),
        ours=lambda: bearing.base_pressure(load=493.5e3, width=4.0, eccentricity=0.27).heel / 1e3,
        table="board question on a dam",
        formula="bearing.base_pressure",
    ),
    Row(
        what="even pressure under a strip 600 mm wide, 101.0 kN/m, in kPa",
        printed=printed("168.3", "STRIP-SHEET", "base pressures"),
        ours=lambda: bearing.base_pressure(load=101.0e3, width=0.6, eccentricity=0.0).toe / 1e3,
        table="strip footing sheet",
        formula="bearing.base_pressure",
    ),
]

# --- frost --------------------------------------------------------------------------------------------------

COURSE = "figures read off the charts"
FROST = [
    Row(
        what="heat conductivity of frozen silt, 100 lb/ft3, 15 % of water, in BTU/(h ft °F)",
        printed=printed("0.8", "FROST-PAGES", COURSE),
        ours=lambda: frost.frozen_by_kersten(dry_density=100 * PCF, moisture=0.15, grain="fine") / BTU_CONDUCTIVITY,
        table="figures off Kersten's charts",
        formula="frost.frozen_by_kersten",
    ),
    Row(
        what="heat conductivity of a gravel base, thawed and frozen 1.65 and 1.8, their mean, in BTU/(h ft °F)",
        printed=printed("1.7", "FROST-PAGES", COURSE),
        ours=lambda: (
            frost.conductivity_by_kersten(dry_density=135 * PCF, moisture=0.05, grain="coarse") / BTU_CONDUCTIVITY
        ),
        table="figures off Kersten's charts",
        formula="frost.conductivity_by_kersten",
        method_error=0.06,
        note="the charts are hand-drawn lines: 1.8 is read where the equation gives 1.61",
    ),
    Row(
        what="heat of the water in silt, 100 lb/ft3, 15 %, in BTU/ft3",
        printed=printed("2160", "UFC-3-130-06", "example as remembered", "B"),
        ours=lambda: frost.latent_heat(dry_density=100 * PCF, moisture=0.15) / (1055.05585262 / FT**3),
        table="UFC 3-130-06 example",
        formula="frost.latent_heat",
        note="example remembered, not read",
    ),
    Row(
        what="heat capacity of that silt, in BTU/(ft3 °F)",
        printed=printed("28.25", "UFC-3-130-06", "example as remembered", "B"),
        ours=lambda: frost.heat_capacity(dry_density=100 * PCF, moisture=0.15) / (1055.05585262 / FT**3 * 1.8),
        table="UFC 3-130-06 example",
        formula="frost.heat_capacity",
        note="example remembered, not read",
    ),
    Row(
        what="depth of frost of that example with its λ of 0.89, in ft",
        printed=printed("5.6", "UFC-3-130-06", "example as remembered", "B"),
        ours=lambda: silt(0.89) / FT,
        table="UFC 3-130-06 example",
        formula="frost.frost_depth",
        note="example remembered, not read",
    ),
    Row(
        what="what warm ground takes off in that example, λ off the chart",
        printed=printed("0.89", "UFC-3-130-06", "example as remembered", "B"),
        ours=lambda: chart_free(),
        table="UFC 3-130-06 example",
        formula="frost.berggren_coefficient",
        method_error=0.04,
        note="the closed form lies 3.9 % above the chart; example remembered, not read",
    ),
]


def silt(coefficient: float) -> float:
    return frost.frost_depth(
        coefficient=coefficient, conductivity=0.72 * BTU_CONDUCTIVITY, surface_index=2500 * 48000.0,
        latent_heat=frost.latent_heat(dry_density=100 * PCF, moisture=0.15),
    )  # fmt: skip


def chart_free() -> float:
    return frost.berggren_coefficient(
        surface_index=2500 * 48000.0, duration=160 * 86400.0, mean_temperature=5.2 / 1.8,
        capacity=frost.heat_capacity(dry_density=100 * PCF, moisture=0.15),
        latent_heat=frost.latent_heat(dry_density=100 * PCF, moisture=0.15),
    )  # fmt: skip


ROWS: list[Row] = [*EARTH, *HELD, *FROST]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_print(row):
    assert row.printed.source in publications()
    assert row.printed.fits(row.ours(), method_error=row.method_error), (row.ours(), row.printed.digits)


def test_a_strip_by_the_printed_rules_of_thickness():
    """IRC R403.1.1 as reprinted: an 8 in wall on a strip 8 in thick may have ledges of 8 in and be 24 in wide."""
    assert footings.thickness_by_rule(projection=8 * IN) == pytest.approx(8 * IN)
    assert footings.thickness_by_rule(projection=4 * IN) == pytest.approx(6 * IN), "no strip under 6 in"


def test_the_printed_dam_rounds_as_it_goes():
    """Worked through without rounding, the dam's load stands 0.2702 m off the middle, not 0.27."""
    off = bearing.eccentricity(moment=493.5e3 * 2 - (1206e3 - 352.4e3), load=493.5e3)

    assert off == pytest.approx(0.27, abs=0.001)
    assert f"{bearing.base_pressure(load=493.5e3, width=4.0, eccentricity=off).toe / 1e3:.2f}" != "173.34"


def test_pads_hold_no_pier_below_the_least_size():
    assert pads.pad_area(load=1000 * LBF, bearing=4000 * PSF, smallest=FT**2) == pytest.approx(FT**2)
