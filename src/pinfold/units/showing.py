"""Showing quantities: the one place where a number becomes text with a unit."""

from __future__ import annotations

import math
from collections.abc import Callable
from enum import StrEnum

from pinfold.units.kinds import CUBIC_METER, METER, UNIT_BY_SYMBOL, Unit


class System(StrEnum):
    """The units a plan wants its answers in."""

    US = "us"
    METRIC = "metric"


_PREFERRED: dict[str, tuple[str, str]] = {  # kind: (US, metric)
    "length": ("ft", "m"), "area": ("ft2", "m2"), "volume": ("ft3", "m3"), "second moment of area": ("in4", "cm4"),
    "area per length": ("in2/ft", "mm2/m"), "volume or section modulus per length": ("in3/ft", "m3/m"),
    "second moment of area per length": ("in4/ft", "m4/m"), "mass": ("lb", "kg"), "time": ("h", "h"),
    "speed": ("mph", "m/s"), "force": ("lbf", "N"), "force per length": ("lbf/ft", "N/m"),
    "moment": ("lbf ft", "N m"), "moment per length": ("lbf ft/ft", "N m/m"), "pressure or stress": ("psf", "Pa"),
    "pressure per depth": ("psf/ft", "kPa/m"), "density": ("lb/ft3", "kg/m3"), "mass per area": ("lb/ft2", "kg/m2"),
    "mass per length": ("lb/ft", "kg/m"), "kinematic viscosity": ("m2/s", "m2/s"), "flow": ("gal/min", "L/min"),
    "time per area": ("h/ft2", "h/m2"), "count per length": ("1/m", "1/m"), "plain number": ("-", "-"),
    "angle": ("deg", "deg"), "temperature": ("°F", "°C"), "freezing index": ("°F day", "°C day"),
    "heat conductivity": ("BTU/(h ft °F)", "W/(m K)"), "heat flow": ("W/m2", "W/m2"),
    "heat transfer": ("BTU/(h ft2 °F)", "W/(m2 K)"), "heat per mass": ("BTU/lb", "J/kg"),
    "specific heat": ("BTU/(lb °F)", "J/(kg K)"),
    "evaporation": ("lb/(ft2 h)", "kg/(m2 h)"),
    "heat per volume": ("BTU/ft3", "J/m3"), "heat capacity per volume": ("BTU/(ft3 °F)", "J/(m3 K)"),
}  # fmt: skip
_STEPPED: dict[str, tuple[tuple[float, str], ...]] = {  # from this symbol's own size upward, this one instead
    "Pa": ((1e6, "MPa"), (1e3, "kPa")), "psf": ((3600, "psi"),), "N": ((1e4, "kN"),), "N m": ((1e4, "kN m"),),
    "N/m": ((1e4, "kN/m"),), "N m/m": ((1e4, "kN m/m"),),
}  # fmt: skip
_PRINTED = {
    "ft2": "ft²", "m2": "m²", "in2": "in²", "mm2": "mm²", "ft3": "ft³", "m3": "m³", "cm3": "cm³",
    "in3": "in³", "yd3": "yd³", "kg/m3": "kg/m³",
    "lb/ft3": "lb/ft³", "lb/ft2": "lb/ft²", "kg/m2": "kg/m²", "m4": "m⁴", "in4": "in⁴", "cm4": "cm⁴",
    "in2/ft": "in²/ft", "mm2/m": "mm²/m", "in3/ft": "in³/ft", "m3/m": "m³/m", "in4/ft": "in⁴/ft",
    "m4/m": "m⁴/m", "m2/s": "m²/s", "h/ft2": "h/ft²", "h/m2": "h/m²",
    "W/m2": "W/m²", "BTU/(h ft2)": "BTU/(h ft²)", "W/(m2 K)": "W/(m² K)",
    "BTU/(h ft2 °F)": "BTU/(h ft² °F)", "kg/(m2 s)": "kg/(m² s)", "kg/(m2 h)": "kg/(m² h)",
    "lb/(ft2 h)": "lb/(ft² h)",
}  # fmt: skip


def show(value: float, unit: Unit, system: System, *, in_unit: str = "", digits: int = 3) -> str:
    """A quantity as text in the plan's units, such as `6' 3 1/2"`, `450 mm`, `24.1 psf`, `1.15 kPa`.

    Lengths come as a tape shows them (`tape`) unless a unit is named; all else to so many significant digits.

    Args:
        value: in the unit's SI base
        unit: the SI unit of the value
        system: US or metric
        in_unit: symbol of the unit to show it in, when the usual one does not serve (such as `yd3` for concrete)
        digits: significant digits
    """
    if not math.isfinite(value):
        return "not shown"
    if unit.kind == METER.kind and not in_unit:
        return tape(value, system)
    chosen = UNIT_BY_SYMBOL[in_unit or symbol_for(value, unit, system)]
    number = significant((value - chosen.offset) / chosen.factor, digits)
    return number if chosen.symbol == "-" else f"{number} {printed(chosen.symbol)}"


def percent(share: float, decimals: int = 0) -> str:
    """A share as it is printed: `49 %`, unbroken at line ends."""
    return f"{100 * share:.{decimals}f}\u00a0%"


def printed(symbol: str) -> str:
    """A unit's symbol as printed: `ft2` becomes `ft²`."""
    return _PRINTED.get(symbol, symbol)


def significant(number: float, digits: int = 3) -> str:
    """A number to so many digits, without exponent where it can be, thousands apart by a space that never breaks."""
    if number == 0:
        return "0"
    size = math.floor(math.log10(abs(number)))
    if size < -5 or size > 12:
        return f"{number:.{digits - 1}e}"
    decimals = max(digits - 1 - size, 0)
    rounded = round(number, digits - 1 - size) if size < digits else number
    text = f"{rounded:,.{decimals}f}".replace(",", "\u00a0")
    return text.rstrip("0").rstrip(".") if "." in text else text


_CREEPING = 1e-6
"""Speeds below this, in mph or m/s, are those of ground and walls that move."""


def symbol_for(value: float, unit: Unit, system: System) -> str:
    """Symbol of the unit a value is shown in when none is named: larger ones for larger values."""
    symbol = _PREFERRED[unit.kind][0 if system is System.US else 1]
    inside = abs(value) / UNIT_BY_SYMBOL[symbol].factor
    if unit.kind == "volume" and 0 < inside < 0.01:
        return "in3" if system is System.US else "cm3"
    if unit.kind == "speed" and 0 < inside < _CREEPING:
        return "in/year" if system is System.US else "mm/year"
    return next((bigger for limit, bigger in _STEPPED.get(symbol, ()) if inside >= limit), symbol)


def poured(value: float, system: System) -> str:
    """A liquid in what it is measured out in: gallons, quarts and fluid ounces, or liters and milliliters."""
    if system is System.METRIC:
        return show(value, CUBIC_METER, system, in_unit="mL" if 0 < abs(value) < _LITER else "L")
    gallons = abs(value) / UNIT_BY_SYMBOL["gal"].factor
    unit = "gal" if gallons >= 1 or not gallons else "qt" if gallons >= _QUART else "fl oz"
    return show(value, CUBIC_METER, system, in_unit=unit)


_LITER, _QUART = 1e-3, 0.25
"""From a liter [m³], and from a quarter of a gallon on, the larger measure."""


def both(value: float, unit: Unit = METER) -> str:
    """A quantity where nobody knows in which units the builder reads: `49.9 lb/ft³ (800 kg/m³)`, `66' (20.117 m)`.

    A volume is told as a liquid is measured out; what reads the same in both is told once.
    """
    shown = poured if unit.kind == CUBIC_METER.kind else _as_usual(unit)
    american, metric = shown(value, System.US), shown(value, System.METRIC)
    if unit.kind == METER.kind and 0 < value < _BELOW_TAPE:
        american = show(value, unit, System.US, in_unit="in")
    return american if american == metric else f"{american} ({metric})"


_BELOW_TAPE = 0.003
"""What is shorter a tape in sixteenths does not show."""


def _as_usual(unit: Unit) -> Callable[[float, System], str]:
    return lambda value, system: show(value, unit, system)


def tape(value: float, system: System) -> str:
    """A length as a tape shows it: feet, inches and sixteenths, or millimeters below and meters above one meter."""
    if system is System.METRIC:
        return _metric_tape(value)
    sixteenths = round(abs(value) / 0.0254 * 16)
    sign = "-" if value < 0 and sixteenths else ""
    feet, rest = divmod(sixteenths, 12 * 16)
    if feet >= MILES_FROM:
        return f"{sign}{significant(abs(value) / 1609.344)} mi"
    if feet >= FEET_FROM:
        return f"{sign}{significant(abs(value) / 0.3048, 4)} ft"
    if feet and not rest:
        return f"{sign}{feet}'"
    inches = f'{_mixed(rest)}"'
    return f"{sign}{feet}' {inches}" if feet else f"{sign}{inches}"


MILES_FROM = 5 * 5280
"""From here on a length is a way to drive, in miles; in feet below."""
FEET_FROM = 1000
"""From here on nobody holds a tape to it: whole feet."""


def _mixed(sixteenths: int) -> str:
    whole, part = divmod(sixteenths, 16)
    if not part:
        return str(whole)
    shrink = math.gcd(part, 16)
    fraction = f"{part // shrink}/{16 // shrink}"
    return f"{whole} {fraction}" if whole else fraction


def _metric_tape(value: float) -> str:
    millimeters = value * 1000
    if abs(millimeters) < 0.95:
        return f"{millimeters:.2f} mm".replace("-0.00", "0").replace("0.00 mm", "0 mm")
    if abs(millimeters) < 9.95 and abs(millimeters - round(millimeters)) > 0.04:
        return f"{millimeters:.1f} mm"
    if abs(round(millimeters)) < 1000:
        return f"{millimeters:.0f} mm"
    if abs(value) >= 2000:
        return f"{significant(value / 1000)} km"
    return f"{value:.3f}\u00a0m"
