"""The closed list of units: what a number in pinfold may be measured in.

Inside, every number is a plain float in coherent SI (kg, m, s, N, Pa). The aliases at the foot of this module
(`Meter`, `Pascal`, …) stand in signatures and record fields and say which; temperatures are the one exception and
are in °C everywhere, their names ending in `_c`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated


@dataclass(frozen=True, kw_only=True)
class Unit:
    """One unit of measure.

    Attributes:
        symbol: as written and printed, such as `ft` or `kg/m3`.
        factor: how many coherent SI units one of these is.
        powers: exponents of kilogram, meter, second and kelvin.
        kind: what it measures, in the builder's words; two units are interchangeable when their kinds are the same.
        offset: added after scaling, for °F only.
    """

    symbol: str
    factor: float
    powers: tuple[int, int, int, int]
    kind: str
    offset: float = 0.0


def _base(symbol: str, kind: str, *, kg: int = 0, m: int = 0, s: int = 0, k: int = 0) -> Unit:
    return Unit(symbol=symbol, factor=1.0, powers=(kg, m, s, k), kind=kind)


METER = _base("m", "length", m=1)
SQUARE_METER = _base("m2", "area", m=2)
CUBIC_METER = _base("m3", "volume", m=3)
METER_TO_FOURTH = _base("m4", "second moment of area", m=4)
SQUARE_METER_PER_METER = _base("m2/m", "area per length", m=1)
CUBIC_METER_PER_METER = _base("m3/m", "volume or section modulus per length", m=2)
FOURTH_METER_PER_METER = _base("m4/m", "second moment of area per length", m=3)
KILOGRAM = _base("kg", "mass", kg=1)
SECOND = _base("s", "time", s=1)
METER_PER_SECOND = _base("m/s", "speed", m=1, s=-1)
NEWTON = _base("N", "force", kg=1, m=1, s=-2)
NEWTON_PER_METER = _base("N/m", "force per length", kg=1, s=-2)
NEWTON_METER = _base("N m", "moment", kg=1, m=2, s=-2)
NEWTON_METER_PER_METER = _base("N m/m", "moment per length", kg=1, m=1, s=-2)
PASCAL = _base("Pa", "pressure or stress", kg=1, m=-1, s=-2)
PASCAL_PER_METER = _base("Pa/m", "pressure per depth", kg=1, m=-2, s=-2)
KG_PER_CUBIC_METER = _base("kg/m3", "density", kg=1, m=-3)
KG_PER_SQUARE_METER = _base("kg/m2", "mass per area", kg=1, m=-2)
KG_PER_METER = _base("kg/m", "mass per length", kg=1, m=-1)
KG_PER_SQUARE_METER_SECOND = _base("kg/(m2 s)", "evaporation", kg=1, m=-2, s=-1)
SQUARE_METER_PER_SECOND = _base("m2/s", "kinematic viscosity", m=2, s=-1)
CUBIC_METER_PER_SECOND = _base("m3/s", "flow", m=3, s=-1)
SECOND_PER_SQUARE_METER = _base("s/m2", "time per area", m=-2, s=1)
PER_METER = _base("1/m", "count per length", m=-1)
RATIO = _base("-", "plain number")
RADIAN = _base("rad", "angle")
CELSIUS = _base("°C", "temperature")
KELVIN_SECOND = _base("K s", "freezing index", s=1, k=1)
WATT_PER_METER_KELVIN = _base("W/(m K)", "heat conductivity", kg=1, m=1, s=-3, k=-1)
WATT_PER_SQUARE_METER = _base("W/m2", "heat flow", kg=1, s=-3)
WATT_PER_SQUARE_METER_KELVIN = _base("W/(m2 K)", "heat transfer", kg=1, s=-3, k=-1)
JOULE_PER_KG = _base("J/kg", "heat per mass", m=2, s=-2)
JOULE_PER_KG_KELVIN = _base("J/(kg K)", "specific heat", m=2, s=-2, k=-1)
JOULE_PER_CUBIC_METER = _base("J/m3", "heat per volume", kg=1, m=-1, s=-2)
JOULE_PER_CUBIC_METER_KELVIN = _base("J/(m3 K)", "heat capacity per volume", kg=1, m=-1, s=-2, k=-1)

SI_UNITS: tuple[Unit, ...] = (
    METER, SQUARE_METER, CUBIC_METER, METER_TO_FOURTH, SQUARE_METER_PER_METER, CUBIC_METER_PER_METER,
    FOURTH_METER_PER_METER, KILOGRAM, SECOND, METER_PER_SECOND, NEWTON, NEWTON_PER_METER, NEWTON_METER,
    NEWTON_METER_PER_METER, PASCAL, PASCAL_PER_METER, KG_PER_CUBIC_METER, KG_PER_SQUARE_METER, KG_PER_METER,
    SQUARE_METER_PER_SECOND, CUBIC_METER_PER_SECOND, SECOND_PER_SQUARE_METER, PER_METER, RATIO, RADIAN, CELSIUS,
    KELVIN_SECOND, WATT_PER_METER_KELVIN, WATT_PER_SQUARE_METER, WATT_PER_SQUARE_METER_KELVIN, JOULE_PER_CUBIC_METER,
    JOULE_PER_CUBIC_METER_KELVIN, JOULE_PER_KG, JOULE_PER_KG_KELVIN, KG_PER_SQUARE_METER_SECOND,
)  # fmt: skip

_INCH = 0.0254
_FOOT = 0.3048
_YEAR = 365.25 * 86400.0
_POUND = 0.45359237
_POUND_FORCE = _POUND * 9.80665
_US_GALLON = 231 * _INCH**3


def _of(base: Unit, table: dict[str, float]) -> tuple[Unit, ...]:
    return tuple(
        Unit(symbol=symbol, factor=factor, powers=base.powers, kind=base.kind) for symbol, factor in table.items()
    )


TYPED_UNITS: tuple[Unit, ...] = (
    *SI_UNITS,
    *_of(METER, {"mm": 1e-3, "cm": 1e-2, "km": 1e3, "in": _INCH, "ft": _FOOT, "yd": 3 * _FOOT, "mi": 5280 * _FOOT}),
    *_of(SQUARE_METER, {"mm2": 1e-6, "cm2": 1e-4, "in2": _INCH**2, "ft2": _FOOT**2, "yd2": 9 * _FOOT**2, "ha": 1e4}),
    *_of(
        CUBIC_METER,
        {
            "cm3": 1e-6, "L": 1e-3, "mL": 1e-6, "in3": _INCH**3, "ft3": _FOOT**3, "yd3": 27 * _FOOT**3,
            "gal": _US_GALLON, "qt": _US_GALLON / 4, "fl oz": _US_GALLON / 128,
        },
    ),
    *_of(METER_TO_FOURTH, {"cm4": 1e-8, "in4": _INCH**4}),
    *_of(SQUARE_METER_PER_METER, {"in2/ft": _INCH**2 / _FOOT, "mm2/m": 1e-6}),
    *_of(CUBIC_METER_PER_METER, {"in3/ft": _INCH**3 / _FOOT, "ft3/ft": _FOOT**2}),
    *_of(FOURTH_METER_PER_METER, {"in4/ft": _INCH**4 / _FOOT}),
    *_of(KILOGRAM, {"g": 1e-3, "t": 1e3, "lb": _POUND, "oz": _POUND / 16, "ton": 2000 * _POUND}),
    *_of(SECOND, {"min": 60.0, "h": 3600.0, "day": 86400.0, "week": 604800.0}),
    *_of(METER_PER_SECOND, {"km/h": 1 / 3.6, "mph": 5280 * _FOOT / 3600, "ft/s": _FOOT, "kn": 1852 / 3600,
                             "mm/year": 1e-3 / _YEAR, "in/year": _INCH / _YEAR}),
    *_of(NEWTON, {"kN": 1e3, "lbf": _POUND_FORCE}),
    *_of(NEWTON_PER_METER, {"kN/m": 1e3, "lbf/ft": _POUND_FORCE / _FOOT}),
    *_of(NEWTON_METER, {"kN m": 1e3, "lbf ft": _POUND_FORCE * _FOOT, "lbf in": _POUND_FORCE * _INCH}),
    *_of(NEWTON_METER_PER_METER, {"kN m/m": 1e3, "lbf ft/ft": _POUND_FORCE}),
    *_of(
        PASCAL,
        {
            "hPa": 1e2, "kPa": 1e3, "MPa": 1e6, "GPa": 1e9, "N/mm2": 1e6, "psf": _POUND_FORCE / _FOOT**2,
            "psi": _POUND_FORCE / _INCH**2, "ksi": 1000 * _POUND_FORCE / _INCH**2, "inHg": 13595.1 * 9.80665 * _INCH,
        },
    ),
    *_of(PASCAL_PER_METER, {"kPa/m": 1e3, "kN/m3": 1e3, "psf/ft": _POUND_FORCE / _FOOT**3}),
    *_of(
        KG_PER_CUBIC_METER,
        {"g/L": 1.0, "kg/L": 1e3, "lb/ft3": _POUND / _FOOT**3, "lb/yd3": _POUND / (27 * _FOOT**3)},
    ),
    *_of(KG_PER_SQUARE_METER, {"lb/ft2": _POUND / _FOOT**2}),
    *_of(KG_PER_SQUARE_METER_SECOND, {"kg/(m2 h)": 1 / 3600, "lb/(ft2 h)": _POUND / _FOOT**2 / 3600}),
    *_of(KG_PER_METER, {"g/m": 1e-3, "lb/ft": _POUND / _FOOT}),
    *_of(CUBIC_METER_PER_SECOND, {"L/min": 1e-3 / 60, "L/s": 1e-3, "gal/min": _US_GALLON / 60}),
    *_of(SECOND_PER_SQUARE_METER, {"h/m2": 3600.0, "h/ft2": 3600 / _FOOT**2}),
    *_of(RATIO, {"%": 0.01}),
    *_of(RADIAN, {"deg": math.pi / 180}),
    *_of(KELVIN_SECOND, {"°C day": 86400.0, "°F day": 48000.0}),
    *_of(WATT_PER_METER_KELVIN, {"BTU/(h ft °F)": 1055.05585262 / 3600 / _FOOT / (5 / 9)}),
    *_of(WATT_PER_SQUARE_METER, {"BTU/(h ft2)": 1055.05585262 / 3600 / _FOOT**2}),
    *_of(WATT_PER_SQUARE_METER_KELVIN, {"BTU/(h ft2 °F)": 1055.05585262 / 3600 / _FOOT**2 / (5 / 9)}),
    *_of(JOULE_PER_KG, {"BTU/lb": 1055.05585262 / _POUND}),
    *_of(JOULE_PER_KG_KELVIN, {"BTU/(lb °F)": 1055.05585262 / _POUND / (5 / 9)}),
    *_of(JOULE_PER_CUBIC_METER, {"BTU/ft3": 1055.05585262 / _FOOT**3}),
    *_of(JOULE_PER_CUBIC_METER_KELVIN, {"BTU/(ft3 °F)": 1055.05585262 / _FOOT**3 / (5 / 9)}),
    Unit(symbol="°F", factor=5 / 9, powers=(0, 0, 0, 0), kind="temperature", offset=-160 / 9),
)  # fmt: skip
"""Everything a builder may write behind a number, SI units first."""

SPELLINGS: dict[str, str] = {
    '"': "in", "″": "in", "''": "in", "inch": "in", "inches": "in", "'": "ft", "′": "ft", "foot": "ft", "feet": "ft",
    "yard": "yd", "yards": "yd", "mile": "mi", "miles": "mi", "sq ft": "ft2", "sq in": "in2", "sq yd": "yd2",
    "sq m": "m2", "ft²": "ft2", "m²": "m2", "in²": "in2", "mm²": "mm2", "cm²": "cm2", "m³": "m3", "ft³": "ft3",
    "yd³": "yd3", "in³": "in3", "cu ft": "ft3", "cu yd": "yd3", "cu m": "m3", "l": "L", "liter": "L", "liters": "L",
    "litre": "L", "litres": "L", "ml": "mL", "gallon": "gal", "gallons": "gal",
    "quart": "qt", "quarts": "qt", "lbs": "lb", "pound": "lb",
    "pounds": "lb", "tonne": "t", "tonnes": "t", "tons": "ton", "hour": "h", "hours": "h", "hr": "h",
    "days": "day", "d": "day", "weeks": "week", "kph": "km/h",
    "knots": "kn", "knot": "kn", "kt": "kn", "mbar": "hPa", "W/m²": "W/m2",
    "kg/m³": "kg/m3", "lb/ft³": "lb/ft3", "pcf": "lb/ft3",
    "kg/m²": "kg/m2", "lb/ft²": "lb/ft2", "N/mm²": "N/mm2", "plf": "lbf/ft", "Nm": "N m", "kNm": "kN m", "N·m": "N m",
    "kN·m": "kN m", "ft lbf": "lbf ft", "kN/m³": "kN/m3", "°": "deg", "degrees": "deg", "degree": "deg", "C": "°C",
    "F": "°F", "degC": "°C", "degF": "°F", "deg C": "°C", "deg F": "°F", "percent": "%", "meter": "m", "meters": "m",
    "metre": "m", "metres": "m", "psf per ft": "psf/ft", "°C days": "°C day", "°F days": "°F day",
    "degC day": "°C day", "degF day": "°F day", "degC days": "°C day", "degF days": "°F day",
}  # fmt: skip
"""Other ways people write the same units."""

UNIT_BY_SYMBOL: dict[str, Unit] = {unit.symbol: unit for unit in TYPED_UNITS}
BASE_BY_KIND: dict[str, Unit] = {unit.kind: unit for unit in SI_UNITS}

Meter = Annotated[float, METER]
SquareMeter = Annotated[float, SQUARE_METER]
CubicMeter = Annotated[float, CUBIC_METER]
MeterToFourth = Annotated[float, METER_TO_FOURTH]
SquareMeterPerMeter = Annotated[float, SQUARE_METER_PER_METER]
CubicMeterPerMeter = Annotated[float, CUBIC_METER_PER_METER]
FourthMeterPerMeter = Annotated[float, FOURTH_METER_PER_METER]
Kilogram = Annotated[float, KILOGRAM]
Second = Annotated[float, SECOND]
MeterPerSecond = Annotated[float, METER_PER_SECOND]
Newton = Annotated[float, NEWTON]
NewtonPerMeter = Annotated[float, NEWTON_PER_METER]
NewtonMeter = Annotated[float, NEWTON_METER]
NewtonMeterPerMeter = Annotated[float, NEWTON_METER_PER_METER]
Pascal = Annotated[float, PASCAL]
PascalPerMeter = Annotated[float, PASCAL_PER_METER]
KgPerCubicMeter = Annotated[float, KG_PER_CUBIC_METER]
KgPerSquareMeter = Annotated[float, KG_PER_SQUARE_METER]
KgPerMeter = Annotated[float, KG_PER_METER]
KgPerSquareMeterSecond = Annotated[float, KG_PER_SQUARE_METER_SECOND]
SquareMeterPerSecond = Annotated[float, SQUARE_METER_PER_SECOND]
CubicMeterPerSecond = Annotated[float, CUBIC_METER_PER_SECOND]
SecondPerSquareMeter = Annotated[float, SECOND_PER_SQUARE_METER]
PerMeter = Annotated[float, PER_METER]
Ratio = Annotated[float, RATIO]
Radian = Annotated[float, RADIAN]
Celsius = Annotated[float, CELSIUS]
KelvinSecond = Annotated[float, KELVIN_SECOND]
WattPerMeterKelvin = Annotated[float, WATT_PER_METER_KELVIN]
WattPerSquareMeter = Annotated[float, WATT_PER_SQUARE_METER]
WattPerSquareMeterKelvin = Annotated[float, WATT_PER_SQUARE_METER_KELVIN]
JoulePerKg = Annotated[float, JOULE_PER_KG]
JoulePerKgKelvin = Annotated[float, JOULE_PER_KG_KELVIN]
JoulePerCubicMeter = Annotated[float, JOULE_PER_CUBIC_METER]
JoulePerCubicMeterKelvin = Annotated[float, JOULE_PER_CUBIC_METER_KELVIN]
