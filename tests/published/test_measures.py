"""Measures and sand as they are tried on site, against the worked examples of their sources."""

from __future__ import annotations

import math
from collections import Counter

import pytest

from pinfold.formulas import measures, sand, sand_tests
from published import Printed
from rows import Row

CUT = "the source cuts digits off where it should round: its own next digit is left out"


def row(source, where, formula, what, digits, ours, *, note="", method_error=0.0):
    return Row(what=what, printed=Printed(digits, source, where), ours=ours, table=f"{source} {where}",
               formula=formula, note=note, method_error=method_error)  # fmt: skip


def can(wet, dry, empty):
    return 100 * sand_tests.moisture_by_pan(wet=wet / 1000, dry=dry / 1000, pan=empty / 1000)


def swollen(moist, dry):
    return 100 * sand.bulking(moist_height=moist, flooded_height=dry)


ROWS: list[Row] = [
    row("SOIL-CANS", "can 42", "sand_tests.moisture_by_pan", "water in sand by a can of 17.31 g, 43.52 g wet, percent",
        "16.2", lambda: can(43.52, 39.86, 17.31)),
    row("SOIL-CANS", "can 31", "sand_tests.moisture_by_pan", "by a can of 18.92 g, 52.19 g wet, percent",
        "16.0", lambda: can(52.19, 47.61, 18.92)),
    row("SOIL-CANS", "can 54", "sand_tests.moisture_by_pan", "by a can of 16.07 g, 39.43 g wet, percent",
        "16.5", lambda: can(39.43, 36.13, 16.07)),
    row("SOIL-CANS", "can 42, wet", "measures.contents_mass", "dry soil in the can, g", "22.55",
        lambda: 1000 * measures.contents_mass(gross=0.03986, empty=0.01731)),
    row("ACI-211", "section 9.2.8, moisture", "sand_tests.free_moisture",
        "free water on sand of 6 % moisture that soaks up 0.7 %, per dry mass of 1308/1.007 lb, lb", "69",
        lambda: 1308 / 1.007 * sand_tests.free_moisture(moisture=0.06, absorption=0.007)),
    row("PYCNOMETER", "flask of 500 cm3", "sand_tests.grains_by_can", "density of grains, g/cm3", "2.50",
        lambda: sand_tests.grains_by_can(
            dry=0.375, can_with_sand=0.850, can_of_water=0.625, water_density=1000.0) / 1000),
    row("PYCNOMETER", "flask of 500 cm3, dry soil", "sand_tests.moisture_by_can",
        "the same soil, dry, holds that much water by the can: the dry mass it prints, g", "375",
        lambda: 375 / (1 + sand_tests.moisture_by_can(
            sample=0.375, can_with_sand=0.850, can_of_water=0.625, grains=2500.0, water_density=1000.0))),
    row("SILT-TEST", "3 ml over 52", "sand_tests.silt_share", "silt, percent", "5.77",
        lambda: 100 * sand_tests.silt_share(silt_height=3.0, sand_height=52.0)),
    row("SILT-TEST", "9 over 130", "sand_tests.silt_share", "silt, percent", "6.9",
        lambda: 100 * sand_tests.silt_share(silt_height=9.0, sand_height=130.0)),
    row("BULKING-CYLINDER", "2 % water", "sand.bulking", "309 ml dry that fill 368 with 2 % water, percent", "19.1",
        lambda: swollen(368, 309)),
    row("BULKING-CYLINDER", "3 % water", "sand.bulking", "309 ml that fill 400 with 3 % water, percent", "29.44",
        lambda: swollen(400, 309), method_error=5e-4, note=CUT),
    row("BULKING-CYLINDER", "5 % water", "sand.bulking", "309 ml that fill 381 with 5 % water, percent", "23.30",
        lambda: swollen(381, 309)),
    row("BULKING-CYLINDER", "500 g, 2 % water, by weight", "sand_tests.bulking_by_pail",
        "the same swelling by loose densities, percent", "19.1",
        lambda: 100 * sand_tests.bulking_by_pail(moist=510 / 368, dry=500 / 309, moisture=0.02)),
    row("BULKING-CYLINDER", "500 g, 5 % water, by weight", "sand_tests.moisture_by_pail",
        "water in it by loose densities and the swelling printed, percent", "5",
        lambda: 100 * sand_tests.moisture_by_pail(moist=525 / 381, dry=500 / 309, bulking=0.2330)),
    row("BULKING-HEIGHTS", "200 mm", "sand.bulking", "200 mm that settle to 160, percent", "25",
        lambda: swollen(0.200, 0.160)),
    row("CONE-BUCKET", "44, 24 and 35 cm", "measures.cone_volume", "capacity of a bucket, liters", "32.7",
        lambda: 1000 * measures.cone_volume(height=0.35, bottom=0.24, top=0.44)),
    row("CONE-BUCKET", "56, 42 and 15 cm", "measures.cone_volume", "capacity of a bucket, liters, by 22/7", "28.49",
        lambda: 1000 * measures.cone_volume(height=0.15, bottom=0.42, top=0.56) * (22 / 7) / math.pi),
    row("CONE-BUCKET", "radii 14 and 7, height 30 cm", "measures.cone_volume",
        "capacity of a bucket, liters, by 22/7", "10.780",
        lambda: 1000 * measures.cone_volume(height=0.30, bottom=0.14, top=0.28) * (22 / 7) / math.pi),
    row("DENSITY-CORE", "575 g in 400 cm3", "measures.bulk_density", "bulk density, g/cm3", "1.44",
        lambda: measures.bulk_density(mass=0.575, volume=400e-6) / 1000),
    row("CONCRETE-LESSON", "one sack", "measures.volume_by_filling", "room of a sack of 94 lb at 94 lb/ft3, ft3", "1",
        lambda: measures.volume_by_filling(
            mass=94.0, density=94.0, moisture=0.0, swelling=0.0, usual_swelling=0.0)),
    row("ACI-211", "water in a cubic foot, 300 lb", "measures.volume_by_water",
        "volume of 300 lb of water at 62.4 lb/ft3, ft3", "4.81",
        lambda: measures.volume_by_water(mass=300.0, water_density=62.4)),
]  # fmt: skip


@pytest.mark.parametrize("check", ROWS, ids=str)
def test_meets_the_printed_value(check):
    assert check.printed.fits(check.ours(), method_error=check.method_error), (check.ours(), check.printed.digits)


def test_no_table_counts_more_than_ten_times():
    assert max(Counter(check.table for check in ROWS).values()) <= 10
