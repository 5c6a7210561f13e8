"""Reading from where to where a mix is to be shown, as a builder writes it: 1:2, 1 : 1/4 : 4, 600 kg/m3."""

from __future__ import annotations

from pinfold.errors import InputError
from pinfold.tables.shelf import Kind
from pinfold.units import KG_PER_CUBIC_METER, RATIO, read

LEAST_SAND, MOST_SAND = 0.25, 30.0
LIGHTEST, HEAVIEST = 250.0, 2000.0


def sand_asked(text: str, mix: Kind) -> float:
    """Parts of sand to one of cement, in concrete of sand and stone; of a foamed mix its density as cast.

    Args:
        text: such as `1:4`, `1 : 1/4 : 4` or `800 kg/m3`
        mix: that is changed

    Raises:
        InputError: it cannot be read, or nothing of the kind can be mixed.
    """
    if mix.word("family") == "foamed":
        return _bounded(read(text, like=KG_PER_CUBIC_METER), text, LIGHTEST, HEAVIEST, "kg/m³")
    parts = [_part(piece, text) for piece in text.split(":")]
    if len(parts) > 1 and parts[0] <= 0:
        raise InputError(f"{text!r} found; the first part is cement and wants to be more than none, as in 1:4")
    rest = parts if len(parts) == 1 else [part / parts[0] for part in parts[1:]]
    sand = sum(rest[-2:]) if mix.has("gravel") and len(parts) > 2 else rest[-1]
    return _bounded(sand, text, LEAST_SAND, MOST_SAND, "parts to one of cement")


def _part(piece: str, whole: str) -> float:
    if not piece.strip():
        raise InputError(f"{whole!r} found; parts like 1:4 or 1:1/4:4 are wanted")
    return read(piece.strip(), like=RATIO)


def _bounded(value: float, text: str, low: float, high: float, of: str) -> float:
    if not low <= value <= high:
        raise InputError(f"{text!r} found; from {low:g} to {high:g} {of} is wanted, else nothing binds")
    return value
