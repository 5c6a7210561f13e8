"""How stiff a concrete or mortar is, and what it can be pulled, by its strength."""

from __future__ import annotations

from pinfold.formulas.ranges import within
from pinfold.units import KgPerCubicMeter, Pascal

_POUND, _FOOT, _INCH = 0.45359237, 0.3048, 0.0254
_PSI, _POUND_PER_CUBIC_FOOT = _POUND * 9.80665 / _INCH**2, _POUND / _FOOT**3


def modulus_by_aci318(*, strength: Pascal, density: KgPerCubicMeter) -> Pascal:
    """Modulus of concrete by strength and density: E = 33 w^1.5 √f, psi and lb/ft3.

    Args:
        strength: f, in compression [Pa]
        density: w, of the hardened body [kg/m3]

    Returns:
        E [Pa]

    Raises:
        OutOfRangeError: the strength is below 0, or the density not from 80 to 160 lb/ft3.

    Range:
        f ≥ 0, 1281 to 2563 kg/m3; refused outside. The code speaks for 90 to 160 lb/ft3, the table read goes to 80.
        Made for concrete: of mortar it gives how E goes with strength, not E itself.

    Source:
        ACI-318-MODULUS, section on the modulus of concrete (read)

    Example:
        >>> modulus_by_aci318(strength=20.684e6, density=1842.1)
        1.537e10
    """
    heavy = within(
        density, "density in kg/m3", low=79.999 * _POUND_PER_CUBIC_FOOT, high=160.001 * _POUND_PER_CUBIC_FOOT
    )
    root = (within(strength, "strength in Pa", low=0.0) / _PSI) ** 0.5
    modulus: Pascal = 33 * (heavy / _POUND_PER_CUBIC_FOOT) ** 1.5 * root * _PSI
    return modulus


def tension_by_aci318(*, strength: Pascal) -> Pascal:
    """What concrete of usual weight can be pulled by its strength: f_t = 6.7 √f, psi.

    Args:
        strength: f, in compression [Pa]

    Returns:
        f_t, as a cylinder splits [Pa]

    Raises:
        OutOfRangeError: the strength is below 0.

    Range:
        f ≥ 0, refused below. Made for concrete: of mortar it gives how tension goes with strength.

    Source:
        ACI-318-TENSION, splitting tension of concrete of usual weight (read)

    Example:
        >>> tension_by_aci318(strength=27.579e6)
        2.922e6
    """
    tension: Pascal = 6.7 * (within(strength, "strength in Pa", low=0.0) / _PSI) ** 0.5 * _PSI
    return tension


def modulus_by_en1992(*, strength: Pascal) -> Pascal:
    """Modulus of concrete by strength: E = 22 (f/10)^0.3, GPa and MPa.

    Args:
        strength: f, mean of cylinders [Pa]

    Returns:
        E, with quartz sand and stone [Pa]

    Raises:
        OutOfRangeError: the strength is below 0.

    Range:
        f ≥ 0, refused below. A rival: it lets E grow less with strength.

    Source:
        EC2-PROPERTIES (read)

    Example:
        >>> modulus_by_en1992(strength=10e6)
        2.2e10
    """
    modulus: Pascal = 22e9 * (within(strength, "strength in Pa", low=0.0) / 10e6) ** 0.3
    return modulus


def tension_by_en1992(*, strength: Pascal) -> Pascal:
    """What concrete can be pulled by its strength: f_t = 0.30 f^(2/3), MPa.

    Args:
        strength: f, characteristic of cylinders [Pa]

    Returns:
        f_t, mean, pulled straight [Pa]

    Raises:
        OutOfRangeError: the strength is below 0.

    Range:
        f ≥ 0, refused below. A rival: it lets tension grow more with strength.

    Source:
        EC2-PROPERTIES (read)

    Example:
        >>> tension_by_en1992(strength=27e6)
        2.7e6
    """
    tension: Pascal = 0.30e6 * (within(strength, "strength in Pa", low=0.0) / 1e6) ** (2 / 3)
    return tension
