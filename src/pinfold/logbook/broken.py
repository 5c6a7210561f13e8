"""What a body was crushed or broken by, as written down: fields that are each good and do not go together."""

from __future__ import annotations

from collections.abc import Mapping

from pinfold.errors import InputError
from pinfold.formulas.bodies import hanging_force

_STRESS = (2e4, 2e8)
"""Less than crumbs carry, and more than any stone here does, in Pa."""


def broken_wrongs(values: Mapping[str, object]) -> list[InputError]:
    """Complaints about an entry of a body crushed or broken."""
    carried = [key for key in ("load", "hung") if key in values]
    if len(carried) == 2:
        return [InputError("say the force or the weight on it, not both", place="hung")]
    if carried and "strength" in values:
        return [InputError("say its strength, or what it carried and its size, not both", place="strength")]
    if values.get("body") == "beam":
        return _beam(values) if carried else []
    stray = [key for key in ("span", "loading") if key in values]
    if stray:
        return [InputError("goes with a beam alone", place=key) for key in stray]
    return _stress(values, carried[0]) if carried else []


def _beam(values: Mapping[str, object]) -> list[InputError]:
    missing = [key for key in ("span", "depth") if key not in values]
    if missing:
        return [InputError("is missing: a beam's strength wants span, width and depth", place=key) for key in missing]
    span, depth = (_number(values, key) for key in ("span", "depth"))
    if span < 2 * depth:
        return [InputError("is less than twice the depth: it carries by arching and shows too much", place="span")]
    return []


def _stress(values: Mapping[str, object], carried: str) -> list[InputError]:
    width = _number(values, "width")
    area = width * (_number(values, "depth") if "depth" in values else width)
    load = _number(values, carried)
    stress = (hanging_force(mass=load) if carried == "hung" else load) / area
    if _STRESS[0] <= stress <= _STRESS[1]:
        return []
    return [
        InputError(
            f"on such a body makes {stress / 1e6:.3g} MPa, which cannot be; from 0.02 to 200 MPa is wanted",
            place=carried,
        )
    ]


def _number(values: Mapping[str, object], key: str) -> float:
    found = values[key]
    assert isinstance(found, int | float)
    return float(found)
