"""Mortar, grout, plaster, earth and washes by a wish, against what their sources print."""

from __future__ import annotations

from collections import Counter
from functools import partial

import pytest

from pinfold.formulas import earth_mixes, mixes, plaster
from pinfold.plan.place import Mixing
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.gathering.packs import whole_packs
from pinfold.studies.proportioning.families import family_named
from pinfold.studies.proportioning.wishes import read_wish
from pinfold.tables.shelf import kind
from pinfold.units import UNIT_BY_SYMBOL
from published import Printed
from rows import Row

FT, FT2, FT3, YD3, LB, GAL, INCH = (UNIT_BY_SYMBOL[s].factor for s in ("ft", "ft2", "ft3", "yd3", "lb", "gal", "in"))
TEACHING = {"cement": 1440.0, "sand": 1920.0}
"""Bulk densities of the teaching pages, in kg/m3."""
US_SITE = Mixing(batch=1.0, bucket=5 * GAL, bag=94 * LB, lime_bag=50 * LB, sand_bulking=None)


def row(source, where, what, digits, ours, formula="", *, look_up=False, note=""):
    return Row(what=what, printed=Printed(digits, source, where), ours=ours, table=f"{source} {where}",
               formula=formula, look_up=look_up, note=note)  # fmt: skip


def wish_of(name, site=US_SITE, **typed):
    family = family_named(name)
    wish = read_wish(family, typed, mixing=site, material=lambda material: kind("materials", material))
    return family.propose(wish)


def batch_of(name, **typed):
    return charge_of(wish_of(name, **typed).mix, US_SITE)


def dry_part(mixed, parts):
    return mixes.part_volume(mixed=mixed, parts=parts, rule="dry-third")


def mass(volume, of):
    return mixes.loose_mass(volume=volume, bulk_density=TEACHING[of])


def cement_of(mixed, parts):
    return mass(dry_part(mixed, parts), "cement")


DRY = partial(row, "MORTAR-BY-DRY-VOLUME", "one cubic meter, 1 : 4")
THREE = partial(row, "MORTAR-RATES", "mortar 1 : 3")
BRICKS = partial(row, "MORTAR-RATES", "brickwork in mortar 1 : 5")
COAT = partial(row, "PLASTER-BY-DRY-VOLUME", "100 m2, 12 mm, 1 : 5")
METER = partial(row, "PLASTER-SQUARE-METER", "1 m2, 12 mm, 1 : 6")
SHEET = partial(row, "SUPPLIER-PLASTER-SHEET", "100 ft2")
SMALL = "the pages take 4/3 or 1.33 for the same rule"

BY_DRY_VOLUME = [
    DRY("dry parts of a cubic meter, m3", "1.33", lambda: dry_part(1.0, 1.0), "mixes.part_volume", look_up=True),
    DRY("cement, m3", "0.266", lambda: dry_part(1.0, 5.0), "mixes.part_volume"),
    DRY("cement, kg", "383.04", lambda: cement_of(1.0, 5.0), "mixes.loose_mass"),
    DRY("bags of 50 kg", "7.661", lambda: cement_of(1.0, 5.0) / 50, "mixes.loose_mass"),
    DRY("sand, m3", "1.064", lambda: 4 * dry_part(1.0, 5.0), "mixes.part_volume"),
    DRY("sand, kg", "2042.88", lambda: mass(4 * dry_part(1.0, 5.0), "sand"), "mixes.loose_mass"),
    DRY("water at half the cement, kg", "191.52",
        lambda: mixes.mixing_water_mass(cement=cement_of(1.0, 5.0), water_cement=0.5), "mixes.mixing_water_mass"),
    THREE("cement in a cubic meter, m3", "0.3325", lambda: dry_part(1.0, 4.0), "mixes.part_volume"),
    THREE("sand in a cubic meter, m3", "0.9975", lambda: 3 * dry_part(1.0, 4.0), "mixes.part_volume"),
    THREE("the same, ft3", "35.226", lambda: 3 * dry_part(1.0, 4.0) / FT3, "mixes.part_volume"),
    BRICKS("bricks of 200 x 100 x 100 mm with their joint in a cubic meter", "500",
           lambda: earth_mixes.units_made(mix=1.0, length=0.2, width=0.1, height=0.1), "earth_mixes.units_made"),
    BRICKS("volume of those bricks, 190 x 90 x 90 mm, m3", "0.7695",
           lambda: 500 / earth_mixes.units_made(mix=1.0, length=0.19, width=0.09, height=0.09),
           "earth_mixes.units_made"),
    BRICKS("0.05 m3 of cement, kg", "72", lambda: mass(0.05, "cement"), "mixes.loose_mass"),
]  # fmt: skip

COATS = [
    COAT("plaster in the coat, m3", "1.20",
         lambda: plaster.coat_volume(area=100.0, thickness=0.012, waste=0.0), "plaster.coat_volume"),
    COAT("with a fifth for joints and waste, m3", "1.44",
         lambda: plaster.coat_volume(area=100.0, thickness=0.012, waste=0.2), "plaster.coat_volume"),
    COAT("dry parts for it, m3", "1.92", lambda: dry_part(1.44, 1.0), "mixes.part_volume", note=SMALL),
    COAT("cement, m3", "0.32", lambda: dry_part(1.44, 6.0), "mixes.part_volume", note=SMALL),
    COAT("sand, m3", "1.60", lambda: 5 * dry_part(1.44, 6.0), "mixes.part_volume", note=SMALL),
    COAT("a bag of 50 kg, m3", "0.0347",
         lambda: mixes.loose_volume(mass=50.0, bulk_density=TEACHING["cement"]), "mixes.loose_volume"),
    METER("plaster in the coat, m3", "0.012",
          lambda: plaster.coat_volume(area=1.0, thickness=0.012, waste=0.0), "plaster.coat_volume"),
    METER("dry parts for it, m3", "0.01596", lambda: dry_part(0.012, 1.0), "mixes.part_volume"),
    METER("cement, kg", "3.28", lambda: cement_of(0.012, 7.0), "mixes.loose_mass"),
    *(
        SHEET(f"{what} at {thick} in, by what it says of 1/4 in", digits,
              lambda quarter=quarter, thick=thick: quarter
              * plaster.coat_volume(area=100 * FT2, thickness=thick * INCH, waste=0.32)
              / plaster.coat_volume(area=100 * FT2, thickness=0.25 * INCH, waste=0.32), "plaster.coat_volume")
        for what, digits, quarter, thick in (
            ("pounds of sand", "330", 220, 0.375), ("bags of mortar cement", "1.2", 0.8, 0.375),
            ("pounds of sand", "440", 220, 0.5), ("bags of mortar cement", "1.6", 0.8, 0.5))
    ),
    row("CARPENTRY-CONCRETE", "topping", "1 in on 24 by 40 ft, ft3", "80",
        lambda: plaster.coat_volume(area=24 * 40 * FT2, thickness=INCH, waste=0.0) / FT3, "plaster.coat_volume"),
    row("BRICKWORK-BY-WEIGHT", "wall of 12 by 2.6 m", "blocks with a tenth of waste", "343",
        lambda: mixes.with_waste(net=312.0, waste=0.1), "mixes.with_waste"),
    row("BRICKWORK-BY-WEIGHT", "wall of 12 by 2.6 m", "bags of 25 kg for 110 kg of cement", "5",
        lambda: whole_packs(110.0, 25.0)),
    row("BRICKWORK-BY-WEIGHT", "wall of 12 by 2.6 m", "bags of 25 kg for 221 kg of lime", "9",
        lambda: whole_packs(221.0, 25.0)),
    row("BRICKWORK-BY-WEIGHT", "wall of 12 by 2.6 m", "bags of 25 kg for 441 kg of sand", "18",
        lambda: whole_packs(441.0, 25.0)),
]  # fmt: skip


def box(gap):
    return earth_mixes.soil_per_cement(gap=gap / 1000)


EARTH = [
    row("BLOCK-PRESS-ANSWERS", "1 : 7", "cement in a block of 8 kg, kg", "1",
        lambda: earth_mixes.cement_in_block(block=8.0, soil_parts=7.0), "earth_mixes.cement_in_block"),
    row("BLOCK-PRESS-ANSWERS", "1 : 7", "blocks to a bag of 50 kg", "50",
        lambda: 50.0 / earth_mixes.cement_in_block(block=8.0, soil_parts=7.0), "earth_mixes.cement_in_block"),
    row("BLOCK-PRESS-ANSWERS", "1 : 7", "bags of 50 kg for 1000 blocks", "20",
        lambda: whole_packs(1000 * earth_mixes.cement_in_block(block=8.0, soil_parts=7.0), 50.0)),
    *(row("SOIL-BLOCK-TESTS", "box test", f"soil to one of cement, gap {gap} mm", digits, partial(box, gap),
          "earth_mixes.soil_per_cement", look_up=True)
      for digits, gap in (("18", 11), ("16", 18), ("14", 30), ("12", 50))),
]  # fmt: skip


def held(table, name, key):
    return kind(table, name).value(key)


LOOK_UPS = [
    *(row("NCMA-TEK-59", "table II", f"{key} of {name}", digits, partial(held, "proportions", name, key),
          look_up=True)
      for digits, name, key in (
          ("0.1", "grout-fine", "lime_high"), ("3", "grout-fine", "sand_high"), ("1", "grout-coarse", "gravel_low"),
          ("2", "grout-coarse", "gravel_high"))),
    row("UFGS-04200", "table III", "narrowest cell for coarse grout to 5 ft, in", "2.5",
        lambda: held("proportions", "grout-cells-5ft", "cell") / INCH, look_up=True),
    row("UFGS-04200", "table III", "narrowest cell for coarse grout to 12 ft, in", "3",
        lambda: held("proportions", "grout-cells-12ft", "cell") / INCH, look_up=True),
    row("MASONRY-AND-CONCRETE", "p. 123, type K", "lime", "3", lambda: held("mixes", "mortar-K", "lime"), look_up=True),
    row("MASONRY-AND-CONCRETE", "p. 123, type K", "sand", "12", lambda: held("mixes", "mortar-K", "sand"),
        look_up=True),
    row("MASONRY-AND-CONCRETE", "p. 123, masonry cement", "sand to a part of it in the batch", "3",
        lambda: batch_of("mortar", binder="masonry-cement").part("sand").loose
        / batch_of("mortar", binder="masonry-cement").part("cement").loose, look_up=True),
    row("ADOBE-BOOK", "mortar", "emulsion to a sack of cement, gal", "1.5",
        lambda: batch_of("adobe", make="mortar").part("emulsion").loose / GAL
        / batch_of("adobe", make="mortar").part("cement").bags, look_up=True),
]  # fmt: skip

ROWS: list[Row] = [*BY_DRY_VOLUME, *COATS, *EARTH, *LOOK_UPS]


@pytest.mark.parametrize("check", ROWS, ids=str)
def test_meets_the_printed_value(check):
    assert check.printed.fits(check.ours(), method_error=check.method_error), (check.ours(), check.printed.digits)


def test_no_table_counts_more_than_ten_times():
    counted = Counter(check.table for check in ROWS if not check.look_up)
    assert max(counted.values()) <= 10


def test_fifty_pounds_of_lime_in_six_gallons_make_about_eight_gallons_of_paste():
    """A newspaper column prints about 8; grains and water alone are 8.6."""
    lime = mixes.absolute_volume(mass=50 * LB, density=kind("materials", "hydrated-lime").value("particle_density"))

    assert mixes.mixed_volume(solids=lime, water=6 * GAL, air=0.0) / GAL == pytest.approx(8.0, rel=0.08)


def test_a_barrel_of_lime_and_a_yard_of_sand_make_about_a_yard_of_mortar():
    """An old handbook: 9 ft3 of paste and 27 ft3 of sand make about 27 ft3; by the sum of loose volumes 25.6."""
    batch = batch_of("lime", sand="3", coat="mortar")

    assert batch.makes / batch.part("sand").loose * 27 == pytest.approx(27, rel=0.06)


def test_blocks_to_a_bag_go_with_the_cement_in_them():
    """The block maker's page prints 100, 115, 130 and 150 blocks for 12, 14, 16 and 18 of soil: parts over blocks."""
    per_part = [blocks / (1 + soil) for soil, blocks in ((12, 100), (14, 115), (16, 130), (18, 150))]

    assert max(per_part) / min(per_part) == pytest.approx(1.0, abs=0.035)


@pytest.mark.parametrize(("length", "width", "height", "pounds"), [(14, 10, 4, 35), (12, 8, 4, 25)])
def test_a_dried_adobe_weighs_about_what_the_page_says(length, width, height, pounds):
    """35 and 25 lb as dried; the mold is filled wet, and what dries shrinks, so its mud weighs less to the volume."""
    batch = batch_of("adobe")
    mold = length * width * height * INCH**3
    dry = sum(part.mass for part in batch.ingredients) / batch.makes * mold

    assert 0.83 * pounds < dry / LB < 1.0 * pounds


def test_a_pint_of_old_whitewash_covers_a_square_yard():
    film = kind("proportions", "limewash").value("film_high")

    assert plaster.coverage(volume=GAL / 8, thickness=film) / (9 * FT2) == pytest.approx(1.0, rel=0.01)
