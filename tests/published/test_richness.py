"""Richer and leaner mixes against printed values: water, cement in a yard of mortar, stiffness, tension, chance, carbon."""

from __future__ import annotations

import math

import pytest

from pinfold.formulas import mixes, richness, stiffness
from published import Printed
from rows import Row

INCH = 0.0254
POUND = 0.45359237
PSI = POUND * 9.80665 / INCH**2
PCF = POUND / (12 * INCH) ** 3
YARD = (36 * INCH) ** 3


def printed(digits: str, source: str, where: str) -> Printed:
    return Printed(digits, source, where)


# --- water of mortar by its parts ------------------------------------------------------------------------


def water_rows() -> list[Row]:
    return [
        Row(
            what="one to three mortar, 100 lb of cement, its water, lb",
            printed=printed("55", "CEMENT-AND-CONCRETE", "section 279"),
            ours=lambda: richness.water_of_parts(
                cement=100.0, lime=0.0, sand=300.0, for_cement=0.25, for_lime=0.0, for_sand=0.10
            ),
            table="section 279, water of a mortar", formula="richness.water_of_parts",
        )
    ]  # fmt: skip


# --- cement in a cubic yard of mortar --------------------------------------------------------------------

BARREL, BARREL_HOLDS = 380 * POUND, 3.65 * (12 * INCH) ** 3
SAND_LOOSE, SAND_GAPS = 100 * PCF, 3 / 8
"""The tests' own sand: 100 lb to the cubic foot, dry and loose, three eighths of it gaps."""
SABIN = {1: "4.17", 2: "2.84", 3: "2.06", 4: "1.62", 5: "1.33", 6: "1.14"}
FULLER = {1: "4.58", 2: "3.09", 3: "2.30", 4: "1.80", 5: "1.48", 6: "1.23", 7: "1.11", 8: "1.00"}


def barrels_of_cement(sand: float) -> float:
    """In a cubic yard of mortar of one barrel of cement to so many of sand, by absolute volumes with 6 % of air."""
    loose = sand * BARREL_HOLDS
    mass = loose * SAND_LOOSE
    water = richness.water_of_parts(cement=BARREL, lime=0.0, sand=mass, for_cement=0.25, for_lime=0.0, for_sand=0.10)
    solids = BARREL / 3150 + loose * (1 - SAND_GAPS)
    return YARD / mixes.mixed_volume(solids=solids, water=water / 1000, air=0.06)


def mortar_rows() -> list[Row]:
    note = "two authorities' tests lie up to 12 % apart; 6 % of air and the water of section 279 are taken"
    cases = [("Sabin", sand, digits) for sand, digits in SABIN.items()]
    cases += [("Fuller", sand, digits) for sand, digits in FULLER.items()]
    return [
        Row(
            what=f"1 : {sand} by loose barrels, {who}'s test, barrels of cement in a cubic yard",
            printed=printed(digits, "CONCRETE-METHODS", f"cement per cubic yard of mortar by test, {who}"),
            ours=lambda sand=sand: barrels_of_cement(sand),
            table="cement per cubic yard of mortar, by test", method_error=0.13, note=note,
        )
        for who, sand, digits in cases
    ]  # fmt: skip


@pytest.mark.parametrize("sand", [3, 4, 5, 6])
def test_cement_in_mortar_lies_between_the_two_men_who_measured_it(sand):
    low, high = float(SABIN[sand]), float(FULLER[sand])

    assert low * 0.97 <= barrels_of_cement(sand) <= high * 1.03


# --- stiffness and tension -------------------------------------------------------------------------------

ACI_TABLE = [  # lb/ft3, psi, ksi
    (80, 3000, "1293"), (80, 7000, "1976"), (90, 3000, "1543"), (100, 5000, "2333"), (110, 3500, "2252"),
    (120, 3000, "2376"), (130, 6000, "3789"), (140, 7000, "4574"), (145, 3000, "3156"), (150, 5500, "4496"),
]  # fmt: skip
EN_TABLE = [  # characteristic and mean strength in MPa, tension in MPa, modulus in MPa
    (12, 20, "1.57", "27085"), (16, 24, "1.90", "28608"), (20, 28, "2.21", "29962"), (25, 33, "2.56", "31476"),
    (30, 38, "2.90", "32837"),
]  # fmt: skip


def stiffness_rows() -> list[Row]:
    rows = [
        Row(
            what=f"modulus of concrete of {density} lb/ft3 and {strength} psi, ksi",
            printed=printed(digits, "ACI-318-MODULUS", f"worked table, {density} lb/ft3, {strength} psi"),
            ours=lambda density=density, strength=strength: stiffness.modulus_by_aci318(
                strength=strength * PSI, density=density * PCF
            ) / PSI / 1000,
            table="worked table of moduli", formula="stiffness.modulus_by_aci318",
        )
        for density, strength, digits in ACI_TABLE
    ]  # fmt: skip
    for class_, mean, tension, modulus in EN_TABLE:
        where = f"table of design properties, C{class_}"
        rows += [
            Row(
                what=f"mean tension of C{class_}, MPa", printed=printed(tension, "EC2-PROPERTIES", where),
                ours=lambda class_=class_: stiffness.tension_by_en1992(strength=class_ * 1e6) / 1e6,
                table="EN 1992 table 3.1", formula="stiffness.tension_by_en1992",
            ),
            Row(
                what=f"modulus of C{class_}, MPa", printed=printed(modulus, "EC2-PROPERTIES", where),
                ours=lambda mean=mean: stiffness.modulus_by_en1992(strength=mean * 1e6) / 1e6,
                table="EN 1992 table 3.1", formula="stiffness.modulus_by_en1992",
            ),
        ]  # fmt: skip
    return rows


# --- chances and carbon ----------------------------------------------------------------------------------

NORMAL = [
    ("0.5", "0.30854"), ("0.8", "0.21186"), ("1.0", "0.15866"), ("1.2", "0.11507"), ("1.5", "0.06681"),
    ("2.0", "0.02275"), ("2.5", "0.00621"),
]  # fmt: skip


def chance_at(index: float, spread: float = 0.25) -> float:
    """Chance where the equation gives so much for its index: both alike spread, so that their middles tell."""
    beside = math.exp(index * math.sqrt(2 * math.log(1 + spread**2)))
    return richness.chance_of_cracking(pull=1e6, takes=beside * 1e6, pull_spread=spread, takes_spread=spread)


def chance_rows() -> list[Row]:
    return [
        Row(
            what=f"chance at index {index}", printed=printed(digits, "NORMAL-TABLE", f"table 23.1, {index}"),
            ours=lambda index=index: chance_at(float(index)), table="standard normal distribution",
            formula="richness.chance_of_cracking",
        )
        for index, digits in NORMAL
    ]  # fmt: skip


def carbon_rows() -> list[Row]:
    cases = [
        ("carbon dioxide of clinker with 64.6 % of lime, kg/kg", "0.507", "guidelines, default for clinker", 0.646, 1.0),
        ("carbon dioxide of quicklime, kg/t", "785", "fourth assessment report, 7.4.5.2", 1.0, 1000.0),
    ]  # fmt: skip
    return [
        Row(
            what=what, printed=printed(digits, "CO2-FACTORS", where),
            ours=lambda oxide=oxide, times=times: richness.calcined(oxide=oxide) * times,
            table="carbon dioxide by lime", formula="richness.calcined",
        )
        for what, digits, where, oxide, times in cases
    ]  # fmt: skip


ROWS = [*water_rows(), *mortar_rows(), *stiffness_rows(), *chance_rows(), *carbon_rows()]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_is_what_is_printed(row):
    assert row.printed.fits(row.ours(), method_error=row.method_error), (row.ours(), row.printed)
