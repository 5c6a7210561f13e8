"""The big unit library vouches for our small table."""

from __future__ import annotations

import pint
import pytest

from pinfold.units import BASE_BY_KIND, SPELLINGS, TYPED_UNITS, UNIT_BY_SYMBOL

REGISTRY = pint.UnitRegistry()
TO_PINT = {
    "-": "", "%": "percent", "gal": "US_liquid_gallon", "qt": "US_liquid_quart", "fl oz": "US_fluid_ounce",
    "lbf/ft": "lbf/ft", "psf": "lbf/ft**2", "psf/ft": "lbf/ft**3",
    "ksi": "1000*psi", "day": "day", "mph": "mile/hour", "gal/min": "US_liquid_gallon/minute", "t": "tonne",
    "ton": "short_ton", "N m": "N*m", "kN m": "kN*m", "lbf ft": "lbf*ft", "lbf in": "lbf*inch", "N m/m": "N*m/m",
    "kN m/m": "kN*m/m", "lbf ft/ft": "lbf*ft/ft", "deg": "degree", "in": "inch", "K s": "K*s",
    "°C day": "delta_degC*day", "°F day": "delta_degF*day", "BTU/(h ft °F)": "Btu_it/(hour*foot*delta_degF)",
    "W/(m K)": "W/(m*K)", "J/(m3 K)": "J/(m**3*K)", "BTU/(ft3 °F)": "Btu_it/(ft**3*delta_degF)", "BTU/ft3": "Btu_it/ft**3",
    "BTU/(h ft2)": "Btu_it/(hour*foot**2)", "inHg": "inHg", "W/(m2 K)": "W/(m**2*K)",
    "BTU/(h ft2 °F)": "Btu_it/(hour*foot**2*delta_degF)", "BTU/lb": "Btu_it/lb", "J/(kg K)": "J/(kg*K)", "BTU/(lb °F)": "Btu_it/(lb*delta_degF)", "kg/(m2 s)": "kg/(m**2*s)",
    "kg/(m2 h)": "kg/(m**2*hour)", "lb/(ft2 h)": "lb/(ft**2*hour)",
}  # fmt: skip


def pint_of(symbol):
    if symbol in TO_PINT:
        return TO_PINT[symbol]
    text = symbol.replace("in", "inch") if symbol.startswith("in") else symbol
    for power in "234":
        text = text.replace(power, f"**{power}")
    return text


@pytest.mark.parametrize("unit", [u for u in TYPED_UNITS if u.kind != "temperature"], ids=lambda unit: unit.symbol)
def test_factor_and_dimension_are_pints(unit):
    quantity = REGISTRY.parse_expression(pint_of(unit.symbol)) * REGISTRY.Quantity(1.0, "")

    assert quantity.to_base_units().magnitude == pytest.approx(unit.factor, rel=1e-9)
    powers = dict(quantity.dimensionality)
    found = tuple(int(powers.get(f"[{name}]", 0)) for name in ("mass", "length", "time", "temperature"))
    assert found == unit.powers


def test_fahrenheit_is_pints():
    fahrenheit = UNIT_BY_SYMBOL["°F"]
    for degrees in (-40.0, 32.0, 98.6):
        assert degrees * fahrenheit.factor + fahrenheit.offset == pytest.approx(
            REGISTRY.Quantity(degrees, "degF").to("degC").magnitude
        )


def test_every_spelling_names_a_unit():
    assert {symbol for symbol in SPELLINGS.values() if symbol not in UNIT_BY_SYMBOL} == set()


def test_each_kind_has_one_si_unit_of_factor_one():
    assert {unit.kind for unit in TYPED_UNITS} == set(BASE_BY_KIND)
    assert all(unit.factor == 1.0 for unit in BASE_BY_KIND.values())
