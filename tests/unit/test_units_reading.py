"""What people type is read as they mean it, or refused with a clear word."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold import units
from pinfold.errors import QuantityError
from pinfold.units import System

INCH = 0.0254


@pytest.mark.parametrize(
    ("text", "like", "si"),
    [
        ("45 cm", units.METER, 0.45),
        ("45cm", units.METER, 0.45),
        ("6' 3 1/2\"", units.METER, 75.5 * INCH),
        ("6'3 1/2\"", units.METER, 75.5 * INCH),
        ("6 ft 3-1/2 in", units.METER, 75.5 * INCH),
        ("6′ 3½″".replace("½", " 1/2"), units.METER, 75.5 * INCH),
        ("1 m 20 cm", units.METER, 1.2),
        ("18 mm", units.METER, 0.018),
        ("3/8 in", units.METER, 0.375 * INCH),
        ("-3 ft", units.METER, -0.9144),
        ("105 mph", units.METER_PER_SECOND, 105 * 1609.344 / 3600),
        ("1500 psf", units.PASCAL, 71820.3884),
        ("94 lb", units.KILOGRAM, 42.63768278),
        ("94 lb 8 oz", units.KILOGRAM, 94.5 * 0.45359237),
        ("40 kg/m3", units.KG_PER_CUBIC_METER, 40.0),
        ("3.6 kg/(m2 h)", units.KG_PER_SQUARE_METER_SECOND, 0.001),
        ("1.5 W/(m K)", units.WATT_PER_METER_KELVIN, 1.5),
        ("40 kg/m³", units.KG_PER_CUBIC_METER, 40.0),
        ("12 sq ft", units.SQUARE_METER, 12 * 0.3048**2),
        ("150 psf/ft", units.PASCAL_PER_METER, 23563.1196),
        ("14 °F", units.CELSIUS, -10.0),
        ("-4 °F", units.CELSIUS, -20.0),
        ("-4 °C", units.CELSIUS, -4.0),
        ("12 %", units.RATIO, 0.12),
        (0.85, units.RATIO, 0.85),
        ("38.9 deg", units.RADIAN, math.radians(38.9)),
        ("1e-3 m", units.METER, 0.001),
    ],
)
def test_reads_what_is_meant(text, like, si):
    assert units.read(text, like=like) == pytest.approx(si, rel=1e-8)


@pytest.mark.parametrize(
    ("text", "like", "word"),
    [
        ("1,5 m", units.METER, "comma"),
        ("1,500 psf", units.PASCAL, "comma"),
        ("1.5", units.METER, "without a unit"),
        (1.5, units.METER, "no unit"),
        (True, units.RATIO, "bool"),
        (None, units.METER, "NoneType"),
        ([1], units.METER, "list"),
        ("nan m", units.METER, "not a number"),
        ("inf m", units.METER, "not a number"),
        ("1e400 m", units.METER, "finite"),
        (math.inf, units.RATIO, "finite"),
        ("3/0 in", units.METER, "finite"),
        ("12 kPa", units.METER, "pressure"),
        ("12 furlong", units.METER, "not known"),
        ("6 ft 14 in", units.METER, "more than one way"),
        ("6.5 ft 3 in", units.METER, "more than one way"),
        ("3 in 6 ft", units.METER, "more than one way"),
        ("1 m 2 m", units.METER, "more than one way"),
        ("2*3 m", units.METER, "without a unit"),
        ("", units.METER, "not a number"),
        ("m", units.METER, "not a number"),
        ("9" * 100 + " m", units.METER, "characters"),
        ("1e-99999999 m x", units.METER, "not known"),
    ],
)
def test_refuses_what_could_be_misread(text, like, word):
    with pytest.raises(QuantityError, match=word):
        units.read(text, like=like)


def test_a_complaint_names_its_place_and_an_example():
    with pytest.raises(QuantityError, match=r"gate\.cart\.width: .*45 cm"):
        units.read("3", like=units.METER, place="gate.cart.width")


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused_and_nothing_else(text):
    try:
        value = units.read(text, like=units.METER)
    except QuantityError:
        return
    assert math.isfinite(value)


@given(st.integers(0, 200 * 12 * 16), st.sampled_from([System.US]))
def test_a_tape_length_reads_back_as_itself(sixteenths, system):
    length = sixteenths / 16 * INCH

    assert units.read(units.tape(length, system), like=units.METER) == pytest.approx(length, abs=1e-9)


@given(st.floats(0.01, 1900.0))
def test_a_metric_tape_length_reads_back_to_the_millimeter(length):
    assert units.read(units.tape(length, System.METRIC), like=units.METER) == pytest.approx(length, abs=0.00051)


@pytest.mark.parametrize(
    ("value", "us", "metric"),
    [
        (75.5 * INCH, "6' 3 1/2\"", "1.918\u00a0m"),
        (0.375 * INCH, '3/8"', "9.5 mm"),
        (0.3048, "1'", "305 mm"),
        (0.0, '0"', "0 mm"),
        (-0.5, "-1' 7 11/16\"", "-500 mm"),
        (5280 * 0.3048 * 38, "38 mi", "61.2 km"),
    ],
)
def test_shows_lengths_as_a_tape_does(value, us, metric):
    assert units.tape(value, System.US) == us
    assert units.tape(value, System.METRIC) == metric


@pytest.mark.parametrize(
    ("value", "unit", "system", "text"),
    [
        (1150.0, units.PASCAL, System.US, "24 psf"),
        (1150.0, units.PASCAL, System.METRIC, "1.15 kPa"),
        (1e6, units.PASCAL, System.US, "145 psi"),
        (20.0, units.CELSIUS, System.US, "68 °F"),
        (12345.0, units.KILOGRAM, System.METRIC, "12\u00a0345 kg"),
        (math.nan, units.PASCAL, System.US, "not shown"),
        (0.6, units.RATIO, System.US, "0.6"),
    ],
)
def test_shows_other_quantities_to_three_digits(value, unit, system, text):
    assert units.show(value, unit, system) == text


@pytest.mark.parametrize(
    ("liters", "metric", "american"),
    [(0.0, "0 L", "0 gal"), (0.025, "25 mL", "0.845 fl oz"), (0.7, "700 mL", "23.7 fl oz"), (1.2, "1.2 L", "1.27 qt"),
     (10.0, "10 L", "2.64 gal")],
)  # fmt: skip
def test_a_liquid_is_told_in_what_it_is_measured_out_in(liters, metric, american):
    assert units.poured(liters / 1000, System.METRIC) == metric
    assert units.poured(liters / 1000, System.US) == american
    assert units.read(american, like=units.CUBIC_METER) == pytest.approx(liters / 1000, rel=0.005)


@pytest.mark.parametrize(
    ("value", "unit", "told"),
    [
        (800.0, units.KG_PER_CUBIC_METER, "49.9 lb/ft³ (800 kg/m³)"),
        (0.6, units.METER, "1' 11 5/8\" (600 mm)"),
        (0.00002, units.METER, "0.000787 in (0.02 mm)"),  # a tape would show nothing
        (0.00068, units.CUBIC_METER, "23 fl oz (680 mL)"),
        (0.5, units.RATIO, "0.5"),
    ],
)
def test_where_nobody_knows_the_builders_units_both_are_told_and_what_reads_alike_once(value, unit, told):
    assert units.both(value, unit) == told
