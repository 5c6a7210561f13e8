"""Wind against what standards, transcriptions and worked sheets print, and the traps that are in circulation."""

from __future__ import annotations

import inspect

import pytest

from pinfold.errors import OutOfRangeError
from pinfold.formulas import mesh, wind, wind_en
from pinfold.sources import publications
from pinfold.tables import wind as tables
from pinfold.units import METER, METER_PER_SECOND, PASCAL, read
from published import Printed
from rows import Row

FOOT = read("1 ft", like=METER)
MPH = read("1 mph", like=METER_PER_SECOND)
PSF = read("1 psf", like=PASCAL)
KIP = 1000 * PSF * FOOT**2

DIRECTIONALITY = tables.factor("solid-wall", "directionality").value
GUST = tables.factor("solid-wall", "gust_factor").value
MINIMUM = tables.factor("solid-wall", "minimum").value
US_AIR = 2 * 0.00256 * PSF / MPH**2
"""The air that makes ρ/2 the customary 0.00256 psf per mph², with which the sheets work."""

KZ_TABLE = {
    "B": {15: "0.57", 20: "0.62", 25: "0.66", 30: "0.70", 40: "0.76", 50: "0.81", 60: "0.85"},
    "C": {15: "0.85", 20: "0.90", 25: "0.94", 30: "0.98", 40: "1.04", 50: "1.09", 60: "1.13"},
    "D": {15: "1.03", 20: "1.08", 25: "1.12", 30: "1.16", 40: "1.22", 50: "1.27", 60: "1.31"},
}
KZ_PICK = (("B", 15), ("B", 20), ("B", 30), ("B", 60), ("C", 15), ("C", 30), ("C", 50), ("D", 15), ("D", 30), ("D", 60))

STEEPNESS = (0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50)
K1_TABLE = {
    "ridge": ("0.29", "0.36", "0.43", "0.51", "0.58", "0.65", "0.72"),
    "escarpment": ("0.17", "0.21", "0.26", "0.30", "0.34", "0.38", "0.43"),
    "hill": ("0.21", "0.26", "0.32", "0.37", "0.42", "0.47", "0.53"),
}
K1_PICK = (("ridge", 0), ("ridge", 1), ("ridge", 3), ("ridge", 6), ("escarpment", 0), ("escarpment", 3),
           ("escarpment", 5), ("hill", 1), ("hill", 4), ("hill", 6))  # fmt: skip

CF_PICK = (("1.80", 0.05, 1.0), ("1.45", 1, 1.0), ("1.30", 10, 1.0), ("1.30", 45, 1.0), ("1.55", 1, 0.9),
           ("1.60", 4, 0.7), ("1.75", 45, 0.5), ("1.80", 5, 0.3), ("1.85", 10, 0.2), ("1.95", 45, 0.16))  # fmt: skip

OPEN_TABLE = (("2.0", 0.05, "flat", 0.1), ("1.2", 0.05, "round", 0.1), ("0.8", 0.05, "round", 0.2),
              ("1.8", 0.2, "flat", 0.1), ("1.3", 0.2, "round", 0.1), ("0.9", 0.2, "round", 0.2),
              ("1.6", 0.5, "flat", 0.1), ("1.5", 0.5, "round", 0.1), ("1.1", 0.5, "round", 0.2))  # fmt: skip

OBLIQUE_TABLE = (("2.25", 2, 0.5), ("1.50", 2, 2.0), ("1.15", 3, 2.5), ("1.10", 4, 3.5), ("3.10", 5, 0.5),
                 ("2.45", 10, 1.5), ("0.95", 10, 9.0), ("4.00", 13, 0.5), ("1.35", 13, 4.5),
                 ("0.55", 45, 40.0))  # fmt: skip

TABLE_79 = (("2.3", "A", 3, 0), ("1.4", "B", 3, 0), ("2.9", "A", 5, 0), ("1.8", "B", 5, 0), ("1.4", "C", 5, 0),
            ("3.4", "A", 10, 0), ("1.7", "C", 10, 0), ("1.2", "D", 10, 0), ("2.1", "A", 10, 1),
            ("1.4", "C", 3, 1))  # fmt: skip


def kz(exposure, feet, edition="7-16"):
    return wind.exposure_coefficient(height=feet * FOOT, exposure=exposure, edition=edition)


def k1(feature, steepness):
    return wind.crest_speed_up(
        feature=feature, exposure="C", hill_height=steepness * 100.0, half_length=100.0
    )  # fmt: skip


def fitted_cf(slenderness, share):
    raw = wind.wall_force_coefficient_by_cirsoc(length=slenderness * share, solid_height=share, top_height=1.0)
    return round(raw * 20) / 20


def open_cf(solidity, members, width):
    return wind.open_force_coefficient(solidity=solidity, members=members, member_width=width, velocity_pressure=1000.0)


def oblique(slenderness, place):
    """Case C of a panel well above ground, where no clearance factor comes in, with s = 1 m."""
    return wind.oblique_force_coefficient(
        length=slenderness * 1.0, solid_height=1.0, top_height=2.0, distance=place, return_length=0.0
    )


def zone_coefficient(zone, slenderness, corner):
    return wind_en.net_pressure_coefficient(
        zone=zone, length=2.0 * slenderness, height=2.0, return_length=2.0 * corner, solidity=1.0
    )


def q(mph, coefficient):
    return wind.velocity_pressure(
        speed=mph * MPH, air_density=US_AIR, exposure_coefficient=coefficient, topographic_factor=1.0,
        elevation_factor=1.0,
    )  # fmt: skip


def pressure(velocity_pressure, cf):
    return wind.wall_pressure(
        velocity_pressure=velocity_pressure, directionality=DIRECTIONALITY, gust_factor=GUST, force_coefficient=cf,
        minimum=0.0,
    )  # fmt: skip


def cf(length, solid, top):
    return wind.wall_force_coefficient(length=length * FOOT, solid_height=solid * FOOT, top_height=top * FOOT)


def force_35ft():
    """8 ft by 100 ft with the top at 35 ft, 90 mph, exposure C; Kz 1.01 from the printed table."""
    return pressure(q(90, 1.01), cf(100, 8, 35)) * 800 * FOOT**2


def force_6ft6():
    """6.6 ft by 689 ft on the ground, 100 mph, exposure C; Kz 0.85 from the printed table; importance factor 1.15."""
    return pressure(1.15 * q(100, 0.85), cf(689, 6.6, 6.6)) * 689 * 6.6 * FOOT**2


def oblique_6ft6(distance):
    return wind.oblique_force_coefficient(
        length=689 * FOOT, solid_height=6.6 * FOOT, top_height=6.6 * FOOT, distance=distance * FOOT,
        return_length=1821.3 * FOOT,
    )  # fmt: skip


def arm(solid, top):
    return wind.resultant_height(solid_height=solid * FOOT, top_height=top * FOOT)


def en_speed(vb, z, terrain):
    return wind_en.mean_speed(
        basic_speed=vb, roughness_factor=wind_en.roughness_factor(height=z, terrain=terrain), orography_factor=1.0
    )


def en_turbulence(z, terrain):
    return wind_en.turbulence_intensity(height=z, terrain=terrain, orography_factor=1.0)


def en_peak(vb, z, terrain):
    return wind_en.peak_pressure(
        mean_speed=en_speed(vb, z, terrain), turbulence=en_turbulence(z, terrain), air_density=1.25
    )


def row(what, digits, source, where, ours, *, table, formula="", note="", look_up=False, grade="A2"):
    return Row(
        what=what, printed=Printed(digits, source, where, grade), ours=ours, table=table, formula=formula, note=note,
        look_up=look_up,
    )  # fmt: skip


def asce_rows():
    for exposure, feet in KZ_PICK:
        yield row(
            f"Kz in exposure {exposure} at {feet} ft", KZ_TABLE[exposure][feet], "ASCE7-16", "table 26.10-1",
            lambda e=exposure, z=feet: kz(e, z), table="Kz", formula="wind.exposure_coefficient",
            note="copy labeled 7-22, figures of 7-16; 4 of its 21 cells are one step off the formula",
        )  # fmt: skip
    for feature, number in K1_PICK:
        yield row(
            f"K1 of a {feature}, H/Lh {STEEPNESS[number]}", K1_TABLE[feature][number], "ASCE7-16", "fig. 26.8-1",
            lambda f=feature, n=number: k1(f, STEEPNESS[n]), table="K1", formula="wind.crest_speed_up",
        )  # fmt: skip
    for digits, slenderness, share in CF_PICK:
        yield row(
            f"Cf by the fit, B/s {slenderness}, s/h {share}", digits, "CIRSOC102-2025", "fig. 4.4-1, cases A and B",
            lambda b=slenderness, s=share: fitted_cf(b, s), table="Cf A and B",
            formula="wind.wall_force_coefficient_by_cirsoc", note="the fit rounded to 0.05, as the table is",
        )  # fmt: skip
    for digits, solidity, members, width in OPEN_TABLE:
        yield row(
            f"Cf open, solidity {solidity}, {members} {width} m at 1 kPa", digits, "ASCE7-16", "table 29.4-2",
            lambda e=solidity, m=members, w=width: open_cf(e, m, w), table="open signs",
            formula="wind.open_force_coefficient", look_up=True,
        )  # fmt: skip
    for digits, slenderness, place in OBLIQUE_TABLE:
        yield row(
            f"Cf case C, B/s {slenderness}, {place} s from the edge", digits, "CIRSOC102-2025", "fig. 4.4-1, case C",
            lambda b=slenderness, p=place: oblique(b, p), table="Cf C", formula="wind.oblique_force_coefficient",
            look_up=True,
        )  # fmt: skip


def sheet_rows():
    high, low, sign = "WALL-SHEET-35FT", "WALL-SHEET-6FT6", "SIGN-SHEET-20FT"
    qz = "wind.velocity_pressure"
    table_kz = (
        "a fit: Kz was taken between the lines of the printed table (1.01) because the formula's 1.014 gives 17.88"
    )
    kd = "qh to 7-16 and before holds Kd, ours does not: multiplied by it here"
    yield row("qh of a panel at 35 ft, psf", "17.80", high, "qh", lambda: q(90, 1.01) * DIRECTIONALITY / PSF,
              table=high, formula=qz, note=f"{kd}; {table_kz}", grade="B")  # fmt: skip
    yield row("force on the panel at 35 ft, kip", "22.37", high, "F", lambda: force_35ft() / KIP, table=high,
              formula="wind.wall_pressure", note=table_kz, grade="B")  # fmt: skip
    yield row("moment of the panel at 35 ft, kip ft", "693.57", high, "M",
              lambda: force_35ft() * arm(8, 35) / KIP / FOOT, table=high, formula="wind.resultant_height",
              note="rests on that Kz", grade="B")  # fmt: skip
    yield row("torsion of the panel at 35 ft, kip ft", "447.46", high, "T",
              lambda: force_35ft() * wind.square_offset(length=100 * FOOT) / KIP / FOOT, table=high,
              formula="wind.square_offset", note="rests on that Kz", grade="B")  # fmt: skip

    yield row("Kz in exposure D at 20 ft", "1.083", sign, "Kz", lambda: kz("D", 20), table=sign,
              formula="wind.exposure_coefficient")  # fmt: skip
    yield row("qz at 20 ft, psf", "56.62", sign, "qz", lambda: q(155, kz("D", 20)) * DIRECTIONALITY / PSF, table=sign,
              formula=qz, note=kd)  # fmt: skip
    yield row("Cf of a 3 ft panel at 20 ft", "1.80", sign, "Cf", lambda: cf(3, 3, 20), table=sign,
              formula="wind.wall_force_coefficient")  # fmt: skip
    yield row("force on the 3 ft panel, lb", "648", sign, "F",
              lambda: pressure(q(155, kz("D", 20)), cf(3, 3, 20)) * 7.48 / PSF, table=sign,
              formula="wind.wall_pressure")  # fmt: skip
    yield row("allowable-stress force on the 3 ft panel, lb", "389", sign, "F ASD",
              lambda: 0.6 * pressure(q(155, kz("D", 20)), cf(3, 3, 20)) * 7.48 / PSF, table=sign)  # fmt: skip

    yield row("Kz in exposure C at 6.6 ft", "0.85", low, "Kh", lambda: kz("C", 6.6), table=low,
              formula="wind.exposure_coefficient")  # fmt: skip
    yield row("qh of a wall 6.6 ft high, psf", "21.27", low, "qh",
              lambda: 1.15 * q(100, 0.85) * DIRECTIONALITY / PSF, table=low, formula=qz, note=kd)  # fmt: skip
    yield row("Cf of a long wall on the ground", "1.30", low, "Cf", lambda: cf(689, 6.6, 6.6), table=low,
              formula="wind.wall_force_coefficient")  # fmt: skip
    yield row("force on the long wall, kip", "106.88", low, "F", lambda: force_6ft6() / KIP, table=low,
              formula="wind.wall_pressure")  # fmt: skip
    yield row("moment of the long wall, kip ft", "387.98", low, "M", lambda: force_6ft6() * arm(6.6, 6.6) / KIP / FOOT,
              table=low, formula="wind.resultant_height")  # fmt: skip
    yield row("torsion of the long wall, kip ft", "14728.22", low, "T",
              lambda: force_6ft6() * wind.square_offset(length=689 * FOOT) / KIP / FOOT, table=low,
              formula="wind.square_offset")  # fmt: skip
    yield row("Cf case C of the long wall, first zone", "2.064", low, "case C, 0 to s", lambda: oblique_6ft6(3.0),
              table=low, formula="wind.clearance_factor",
              note="4.30 × 0.60 (return corner) × 0.8 (clearance)")  # fmt: skip
    yield row("Cf case C of the long wall, second zone", "2.040", low, "case C, s to 2s", lambda: oblique_6ft6(10.0),
              table=low, formula="wind.oblique_force_coefficient")  # fmt: skip
    yield row("pressure of case C on the long wall, psf", "37", low, "case C, 0 to s",
              lambda: pressure(1.15 * q(100, 0.85), oblique_6ft6(3.0)) / PSF, table=low,
              formula="wind.return_corner_factor")  # fmt: skip


def en_rows():
    for digits, zone, slenderness, corner in TABLE_79:
        yield row(
            f"cp,net zone {zone}, l/h {slenderness}, return {corner} h", digits, "EN1991-1-4", "table 7.9",
            lambda z=zone, b=slenderness, c=corner: zone_coefficient(z, b, c), table="table 7.9",
            formula="wind_en.net_pressure_coefficient", look_up=True,
        )  # fmt: skip
    factor, speed, gusts, peak = (
        f"wind_en.{name}" for name in ("roughness_factor", "mean_speed", "turbulence_intensity", "peak_pressure")
    )
    for name, z, figures in (
        ("EN-SHEET-13M", 13.48, ("0.215", "0.82", "18.0", "0.263", "0.58")),
        ("EN-SHEET-7M", 7.02, ("0.215389", "0.68", "14.939", "0.31718482", "0.449")),
    ):
        where = f"terrain III, z {z} m, vb 22 m/s"
        kr, cr, vm, iv, qp = figures
        yield row(f"kr, {where}", kr, name, "kr", lambda: wind_en.terrain_factor(terrain="III"), table=name,
                  formula="wind_en.terrain_factor")  # fmt: skip
        yield row(f"cr, {where}", cr, name, "cr", lambda h=z: wind_en.roughness_factor(height=h, terrain="III"),
                  table=name, formula=factor)  # fmt: skip
        yield row(f"vm, {where}", vm, name, "vm", lambda h=z: en_speed(22.0, h, "III"), table=name, formula=speed)
        yield row(f"Iv, {where}", iv, name, "Iv", lambda h=z: en_turbulence(h, "III"), table=name, formula=gusts)
        yield row(f"qp in kPa, {where}", qp, name, "qp", lambda h=z: en_peak(22.0, h, "III") / 1000, table=name,
                  formula=peak)  # fmt: skip
    bare = "EN-SHEET-TERRAIN-I"
    yield row("kr of terrain I", "0.170", bare, "kr", lambda: wind_en.terrain_factor(terrain="I"), table=bare,
              formula="wind_en.terrain_factor")  # fmt: skip
    yield row("vm in terrain I at 5 m, vb 40.9 m/s", "43.1", bare, "vm", lambda: en_speed(40.9, 5.0, "I"), table=bare,
              formula=speed)  # fmt: skip
    for z, cr, iv in (
        (5.0, "1.055", "0.161"),
        (10.0, "1.173", "0.145"),
        (20.0, "1.290", "0.132"),
        (35.0, "1.385", "0.123"),
    ):
        yield row(f"cr in terrain I at {z} m", cr, bare, f"z {z}",
                  lambda h=z: wind_en.roughness_factor(height=h, terrain="I"), table=bare, formula=factor)  # fmt: skip
        yield row(f"Iv in terrain I at {z} m", iv, bare, f"z {z}", lambda h=z: en_turbulence(h, "I"), table=bare,
                  formula=gusts)  # fmt: skip


ROWS: list[Row] = [*asce_rows(), *sheet_rows(), *en_rows()]


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_printed(row):
    assert row.printed.source in publications()
    assert row.printed.fits(row.ours(), method_error=row.method_error), (row.ours(), row.printed)


def test_no_table_counts_more_than_ten_times():
    assert all(sum(row.table == table for row in ROWS) <= 10 for table in {row.table for row in ROWS})


def test_the_whole_kz_table_lies_within_a_hundredth_and_all_but_four_cells_round_to_it():
    misses = [
        (exposure, feet)
        for exposure, cells in KZ_TABLE.items()
        for feet, digits in cells.items()
        if not Printed(digits, "ASCE7-16", "").fits(kz(exposure, feet))
    ]

    assert all(abs(kz(e, z) - float(d)) < 0.007 for e, cells in KZ_TABLE.items() for z, d in cells.items())
    assert misses == [("B", 25), ("C", 25), ("C", 60), ("D", 25)]


def test_the_whole_k1_table_is_its_slope_times_steepness():
    for feature, cells in K1_TABLE.items():
        for steepness, digits in zip(STEEPNESS, cells, strict=True):
            assert Printed(digits, "ASCE7-16", "").fits(k1(feature, steepness)), (feature, steepness)


def test_the_fit_rounds_to_all_84_cells_of_the_table():
    grid = tables.wall_square()
    for share, cells in zip(grid.down, grid.values, strict=True):
        assert [fitted_cf(b, share) for b in grid.across] == pytest.approx(list(cells))


class TestTraps:
    """Mistakes that are in circulation, each one looked for here."""

    def test_force_coefficient_of_a_wall_on_the_ground_falls_with_length(self):
        lengths = (1, 2, 4, 5, 10, 20, 45)
        found = [cf(length, 1, 1) for length in lengths]

        assert found == sorted(found, reverse=True)
        assert (found[0], found[-1]) == (1.45, 1.30)

    def test_exposure_b_of_the_2022_edition_is_no_weaker_than_its_plateau(self):
        assert kz("B", 15, "7-22") == pytest.approx(0.573, abs=0.0005)  # an alpha of 7.0 would give 0.517
        assert kz("B", 15, "7-22") == pytest.approx(kz("B", 15), rel=0.01)

    def test_exposures_are_not_a_row_off(self):
        """One public table is shifted: it has 0.70 for C and 0.85 for D at 15 ft."""
        assert [round(kz(exposure, 15), 2) for exposure in "BCD"] == [0.57, 0.85, 1.03]

    def test_formula_and_table_of_kz_differ_by_half_a_percent_and_ours_is_the_formula(self):
        """A sheet reads 1.01 between the table's lines at 35 ft, for 17.80 psf; the formula makes 17.88 of it."""
        printed, ours = (q(90, coefficient) * DIRECTIONALITY / PSF for coefficient in (1.01, kz("C", 35)))

        assert printed == pytest.approx(17.80, abs=0.005)
        assert ours == pytest.approx(17.88, abs=0.005)
        assert "worked sheets that read between its lines" in (wind.exposure_coefficient.__doc__ or "")

    def test_both_editions_agree_on_the_plateau(self):
        for exposure in "BCD":
            assert kz(exposure, 15, "7-22") == pytest.approx(kz(exposure, 15), rel=0.01)

    def test_wire_stays_in_its_column_whatever_the_units_it_was_measured_in(self):
        wire = open_cf(0.05, "round", 0.0025)

        assert wire == 1.2
        assert open_cf(0.05, "round", 2.5) == 0.8  # what millimeters taken for meters would give

    @pytest.mark.parametrize("inches", [0.1, 0.5, 1.0, 2.0, 4.0, 5.5, 6.5, 8.0])
    @pytest.mark.parametrize("psf", [10.0, 25.0, 40.0])
    def test_a_round_member_stands_in_one_column_whichever_units_its_limit_is_asked_in(self, inches, psf):
        customary = inches / 12 * psf**0.5  # ft, psf: 2.5; in meters and pascals 5.3
        found = wind.open_force_coefficient(
            solidity=0.05, members="round", member_width=inches / 12 * FOOT, velocity_pressure=psf * PSF
        )

        assert found == (1.2 if customary <= 2.5 else 0.8)

    def test_limit_and_figures_of_unlike_units_would_cut_a_pipe_by_a_third(self):
        """6 in in 20 psf: 2.24 of 2.5 in customary units, but 4.72 in SI, which the customary limit would put aside."""
        pipe = {"solidity": 0.05, "members": "round", "member_width": 0.5 * FOOT, "velocity_pressure": 20 * PSF}
        in_si = 0.5 * FOOT * (20 * PSF) ** 0.5

        assert 2.5 < in_si < 5.3
        assert wind.open_force_coefficient(**pipe) == 1.2
        assert open_cf(0.05, "round", 1.0) / 1.2 == pytest.approx(2 / 3)

    def test_the_round_limit_is_the_customary_one_converted(self):
        customary = 2.5 * FOOT * PSF**0.5

        assert tables.open_lattice().round_limit == pytest.approx(customary, abs=0.05)

    def test_directionality_enters_only_where_the_force_is_made(self):
        takers = {
            name
            for name, formula in inspect.getmembers(wind, inspect.isfunction)
            if "directionality" in inspect.signature(formula).parameters
        }

        assert takers == {"wall_pressure", "lattice_pressure"}

    def test_directionality_counts_once_in_the_force(self):
        with_it, without = (
            wind.wall_pressure(
                velocity_pressure=1000.0, directionality=kd, gust_factor=0.85, force_coefficient=1.3, minimum=0.0
            )
            for kd in (0.85, 1.0)
        )

        assert with_it / without == pytest.approx(0.85)

    def test_no_wall_is_designed_for_less_than_the_minimum(self):
        calm = wind.wall_pressure(
            velocity_pressure=10.0, directionality=DIRECTIONALITY, gust_factor=GUST, force_coefficient=1.3,
            minimum=MINIMUM,
        )  # fmt: skip

        assert calm / PSF == pytest.approx(16.0)

    def test_a_short_return_lies_between_none_and_a_full_one(self):
        for zone in "ABC":
            none, half, full = (zone_coefficient(zone, 10, share) for share in (0.0, 0.5, 1.0))
            assert half == pytest.approx((none + full) / 2)
            assert half > 1.2

    def test_between_unlike_zones_the_worse_column_counts(self):
        assert tables.has_unlike_zones(11.5)
        assert not any(tables.has_unlike_zones(b) for b in (2, 3.5, 10, 13, 20, 60))
        for place in (0.5, 1.5, 2.5, 3.5, 4.5, 7.0):
            assert oblique(11.5, place) == max(oblique(10, place), oblique(13, place))

    def test_below_four_fifths_solid_the_eurocode_table_is_refused(self):
        with pytest.raises(OutOfRangeError, match="solidity"):
            wind_en.net_pressure_coefficient(zone="A", length=9.0, height=2.0, return_length=0.0, solidity=0.79)

    def test_a_wall_with_three_tenths_open_is_neither_solid_nor_lattice_twice(self):
        with pytest.raises(OutOfRangeError):
            wind.openings_factor(solidity=0.7)
        with pytest.raises(OutOfRangeError):
            open_cf(0.71, "flat", 0.1)
        assert 0.7 * open_cf(0.7, "flat", 0.1) == pytest.approx(1.12)
        assert 1.3 * wind.openings_factor(solidity=0.700001) == pytest.approx(1.09, abs=0.005)

    def test_lattice_coefficients_fall_in_steps_as_the_table_has_them(self):
        below, above = (eps * open_cf(eps, "flat", 0.1) for eps in (0.0999999, 0.1))

        assert (below, above) == (pytest.approx(0.200, abs=1e-5), pytest.approx(0.180))
        below, above = (eps * open_cf(eps, "flat", 0.1) for eps in (0.2999999, 0.3))
        assert (below, above) == (pytest.approx(0.540, abs=1e-5), pytest.approx(0.480))

    def test_end_panels_go_by_case_c_though_its_mean_falls_below_case_a_on_long_walls(self):
        """Averaged over the length case C is 0.83 at B/s = 45, under case A: the force by A, the ends by C."""
        assert oblique(45, 0.5) > cf(45, 1, 2) > 0.83

    def test_mean_speed_enters_the_peak_pressure_squared(self):
        sheet = 2.345  # kPa; a sheet that takes cr once instead of twice, terrain I, 5 m, vb 40.9 m/s
        ours = en_peak(40.9, 5.0, "I") / 1000

        assert ours / wind_en.roughness_factor(height=5.0, terrain="I") == pytest.approx(sheet, abs=0.002)

    def test_the_hilltop_factor_is_a_square_of_one_term(self):
        hilltop = wind.topographic_factor(
            feature="ridge", exposure="C", hill_height=50.0, half_length=100.0, crest_distance=0.0, side="upwind",
            height=0.0,
        )  # fmt: skip

        assert hilltop == pytest.approx(1.725**2)  # not capped at 1.55, K1 K2 K3 multiplied

    def test_away_from_the_crest_the_three_factors_still_multiply(self):
        """A page adds two of them: (1 + K1 + K2)² would be 4.95 where the standard gives 1.78."""
        slope = wind.topographic_factor(
            feature="ridge", exposure="C", hill_height=50.0, half_length=100.0, crest_distance=75.0, side="upwind",
            height=2.5,
        )  # fmt: skip
        k_1, k_2, k_3 = 0.725, 0.5, 0.927743

        assert slope == pytest.approx((1 + k_1 * k_2 * k_3) ** 2, rel=1e-6)
        assert slope < (1 + k_1 + k_2) ** 2 / 2

    def test_elevation_factor_falls_as_still_air_of_fifteen_degrees_does(self):
        gravity, gas_constant, kelvin = 9.80665, 287.05, 288.15

        assert wind.elevation_factor(elevation=1.0) == pytest.approx(1 - gravity / gas_constant / kelvin, abs=1e-6)

    def test_wire_mesh_is_as_solid_as_its_drawing(self):
        wire, pitch = 0.0025, 0.05
        drawn = (2 * wire * pitch - wire**2) / pitch**2

        assert mesh.square_mesh_solidity(wire=wire, pitch=pitch) == pytest.approx(drawn)
