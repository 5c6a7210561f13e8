"""Printed tables of work in the heat, by the row."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal, TypeAlias

import numpy as np

from pinfold.tables.shelf import kind

Effort: TypeAlias = Literal["light", "moderate", "heavy"]
Sun: TypeAlias = Literal["full", "part", "shade"]
_EFFORTS = ("light", "moderate", "heavy")


def _numbers(of: str, key: str) -> tuple[float, ...]:
    listed = kind("heat_rest", of).words[key]
    assert isinstance(listed, list)
    return tuple(float(each) for each in listed)


def _number(of: str, key: str) -> float:
    return float(str(kind("heat_rest", of).words[key]))


WORKED: Mapping[str, tuple[float, tuple[float, ...]]] = {
    each: (_number(each, "from"), _numbers(each, "minutes")) for each in _EFFORTS
}
"""First row in °F and minutes of work in an hour, one for each °F on, by effort."""
POWER: Mapping[str, float] = {each: _number(each, "power") for each in _EFFORTS}
"""What a body burns, in watts, by effort."""
SUN: Mapping[str, float] = {each: _number("sun", each) for each in ("full", "part", "shade")}
"""Added to the air's temperature, in °F."""


def humidity_added(humidity: Any) -> Any:
    """Added to the air's temperature by its humidity, in °F: straight between the rows, held beyond them."""
    return np.interp(humidity, _numbers("humidity", "at"), _numbers("humidity", "added"))
