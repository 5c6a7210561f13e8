"""Single values put into a plan, in its table or in its text with all comments kept."""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Iterable, Mapping, MutableMapping, Sequence

from pinfold.errors import InputError, QuantityError, StoreError
from pinfold.plan.changes import Put
from pinfold.units import METER, read


def with_puts(table: Mapping[str, object], puts: Iterable[Put]) -> dict[str, object]:
    """A copy of a plan's table with values put in.

    Raises:
        InputError: the plan has no table of that name.
    """
    whole = copy.deepcopy(dict(table))
    for put in puts:
        _place(whole, put)[put.path[-1]] = put.text
    return whole


def text_with_puts(text: str, puts: Sequence[Put]) -> str:
    """The text of a plan with values put in and its comments kept.

    Raises:
        InputError: the plan has no table of that name.
        StoreError: the file is written in a way that cannot be changed without losing something.
    """
    import tomlkit

    wanted = with_puts(tomllib.loads(text), puts)
    document = tomlkit.parse(text)
    for put in puts:
        _place(document, put)[put.path[-1]] = put.text
    result = tomlkit.dumps(document)
    if tomllib.loads(result) != wanted:
        raise StoreError("this plan file is written in a way that cannot be changed here; change it by hand")
    return result


def _place(table: MutableMapping[str, object], put: Put) -> MutableMapping[str, object]:
    """The table that holds the key of a put."""
    here: object = table
    before = ""
    for name in put.path[:-1]:
        here = _row(here, before, name) if isinstance(here, list) else _within(here, name)
        before = name
    if not isinstance(here, MutableMapping):
        raise InputError("there is nothing of that name in the plan", place=".".join(put.path))
    return here


def _within(here: object, name: str) -> object:
    return here.get(name) if isinstance(here, Mapping) else None


def _row(rows: Sequence[object], kind: str, name: str) -> object:
    """A row of a list: a rail by its number from the lowest up, anything else by its name."""
    if kind == "rail":
        ordered = sorted((row for row in rows if isinstance(row, Mapping)), key=_height)
        return ordered[int(name)] if int(name) < len(ordered) else None
    return next((row for row in rows if isinstance(row, Mapping) and row.get("name") == name), None)


def _height(row: Mapping[str, object]) -> float:
    try:
        return read(str(row.get("at", "0 m")), like=METER)
    except QuantityError:
        return 0.0
