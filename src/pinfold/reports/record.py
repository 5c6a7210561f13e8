"""Any answer as plain JSON values: the same record that the page and the printed table are made from.

A number whose field has a unit carries it in its key (`height_m`, `density_kg_m3`), in SI. What is not known is null.
"""

from __future__ import annotations

import math
import typing
from collections.abc import Hashable, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache

from pinfold.figures import Figure
from pinfold.findings import Finding
from pinfold.formulas.contract import unit_in
from pinfold.tables.shelf import Kind
from pinfold.units import RATIO, Unit

_WORDS = {"/": "_", " ": "_", "°": "", "-": "", "(": "", ")": ""}


def suffix(unit: Unit | None) -> str:
    """What a key ends in for a unit: `_m`, `_kg_m3`; nothing for plain numbers."""
    if unit is None or unit.kind == RATIO.kind:
        return ""
    return "_" + "".join(_WORDS.get(letter, letter) for letter in unit.symbol).lower()


def as_json(answer: object) -> object:
    """A record and all it holds as dictionaries, lists, texts, numbers and null."""
    if isinstance(answer, Kind):
        return answer.name
    if isinstance(answer, Figure):
        return {"value" + suffix(answer.unit): answer.value, "standing": answer.standing.value, "source": answer.source}
    if isinstance(answer, Unit):
        return answer.symbol
    if not isinstance(answer, type) and (is_dataclass(answer) or hasattr(answer, "_fields")):
        return _record(answer)
    return _plain(answer)


def _plain(answer: object) -> object:
    if isinstance(answer, Enum):
        return answer.value
    if isinstance(answer, float):
        return answer if math.isfinite(answer) else None
    if isinstance(answer, Mapping):
        return {str(key): as_json(value) for key, value in answer.items()}
    if isinstance(answer, frozenset | set):
        return [as_json(value) for value in sorted(answer, key=str)]  # a set has another order in every run
    if isinstance(answer, tuple | list):
        return [as_json(value) for value in answer]
    if answer is None or isinstance(answer, bool | int | str):
        return answer
    return str(answer)


def _record(answer: object) -> dict[str, object]:
    units = _units_of(type(answer))  # type: ignore[arg-type]  # a class is hashable, whatever object's own hash says
    row = {_key(name, unit): as_json(getattr(answer, name)) for name, unit in units.items()}
    if isinstance(answer, Finding):
        row |= {"verdict": answer.verdict.value, "use": as_json(answer.use), "standing": answer.standing.value}
    return row


def _key(name: str, unit: Unit | None) -> str:
    end = suffix(unit)
    return name if name.endswith(end) else name + end


@cache
def _units_of(record: Hashable) -> dict[str, Unit | None]:
    hints = typing.get_type_hints(record, include_extras=True)
    names = [field.name for field in fields(record)] if is_dataclass(record) else getattr(record, "_fields", ())
    return {name: unit_in(hints[name]) for name in names}
