"""Single values put into a plan, in its table or in its text with all comments kept."""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Iterable, Mapping, MutableMapping, Sequence
from typing import Any

from pinfold.errors import InputError, QuantityError, StoreError
from pinfold.plan.changes import Put
from pinfold.units import METER, read

_NUMBERED = ("runs", "coat")
_BEGUN = ("hanging",)
"""Tables that a first value begins."""


def with_puts(table: Mapping[str, object], puts: Iterable[Put]) -> dict[str, object]:
    """A copy of a plan's table with values put in; a build-up that the plan has not is begun.

    Raises:
        InputError: the plan has no table of that name.
    """
    whole = copy.deepcopy(dict(table))
    for put in puts:
        place = _begun(whole, put) if _is_new(table, put) else _place(whole, put)
        place[put.path[-1]] = put.text
    return whole


def text_with_puts(text: str, puts: Sequence[Put]) -> str:
    """The text of a plan with values put in and its comments kept.

    Raises:
        InputError: the plan has no table of that name.
        StoreError: the file is written in a way that cannot be changed without losing something.
    """
    import tomlkit

    table = tomllib.loads(text)
    wanted = with_puts(table, puts)
    document = tomlkit.parse(text)
    for put in puts:
        if not _is_new(table, put):
            _place(document, put)[put.path[-1]] = put.text
    for name in dict.fromkeys(put.path[1] for put in puts if _is_new(table, put)):
        _buildups(document)[name] = _buildups(wanted)[name]
    result = tomlkit.dumps(document)
    if tomllib.loads(result) != wanted:
        raise StoreError("this plan file is written in a way that cannot be changed here; change it by hand")
    return result


def _is_new(table: Mapping[str, object], put: Put) -> bool:
    """Whether a put is of a build-up that the plan has not."""
    return put.path[0] == "buildup" and put.path[1] not in _buildups(table)


def _buildups(table: Mapping[str, object]) -> MutableMapping[str, object]:
    """The build-ups of a plan; none that stay where it has no such table."""
    found = table.get("buildup")
    return found if isinstance(found, MutableMapping) else {}


def _begun(whole: MutableMapping[str, object], put: Put) -> MutableMapping[str, object]:
    """The table of a new build-up that holds the key of a put; coats and rails come numbered, one after the other."""
    here: dict[str, Any] = _buildups(whole).setdefault(put.path[1], {})  # type: ignore[assignment]
    match put.path[2:-1]:
        case (layer, number) if number.isdecimal():
            rows: list[dict[str, Any]] = here.setdefault(layer, [])
            rows += [{}] if int(number) == len(rows) else []
            here = rows[int(number)]
        case layers:
            for layer in layers:
                here = here.setdefault(layer, {})
    return here


def _place(table: MutableMapping[str, object], put: Put) -> MutableMapping[str, object]:
    """The table that holds the key of a put."""
    here: object = table
    before = ""
    for name in put.path[:-1]:
        if name in _BEGUN and isinstance(here, MutableMapping):
            here.setdefault(name, {})
        here = _row(here, before, name) if isinstance(here, list) else _within(here, name)
        before = name
    if not isinstance(here, MutableMapping):
        raise InputError("there is nothing of that name in the plan", place=".".join(put.path))
    return here


def _within(here: object, name: str) -> object:
    return here.get(name) if isinstance(here, Mapping) else None


def _row(rows: Sequence[object], kind: str, name: str) -> object:
    """A row of a list: a rail by its number from the lowest up, a run or coat by its place, all else by its name."""
    if kind == "rail":
        ordered = sorted((row for row in rows if isinstance(row, Mapping)), key=_height)
        return ordered[int(name)] if int(name) < len(ordered) else None
    if kind in _NUMBERED:
        return rows[int(name)] if int(name) < len(rows) else None
    return next((row for row in rows if isinstance(row, Mapping) and row.get("name") == name), None)


def _height(row: Mapping[str, object]) -> float:
    try:
        return read(str(row.get("at", "0 m")), like=METER)
    except QuantityError:
        return 0.0
