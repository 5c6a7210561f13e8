"""What is other in one build-up than in another, key by key of the plan file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from pinfold.errors import QuantityError
from pinfold.studies.weighing.axes import Layers
from pinfold.units import METER, read


class _Said(NamedTuple):
    """What a key says.

    Attributes:
        text: as it is told.
        worth: what two of them are compared by: lengths written in other units are the same.
    """

    text: str
    worth: tuple[object, ...]


_NONE = _Said("none", ())


def layer_changes(before: Layers, after: Layers) -> tuple[str, ...]:
    """Such as `wall thickness 44 cm, then 50 cm`, in the order of the layers.

    Args:
        before: layers of a build-up, as a plan file has them
        after: those of another
    """
    old, new = dict(_flat(before)), dict(_flat(after))
    both = ((key, old.get(key, _NONE), new.get(key, _NONE)) for key in dict.fromkeys((*old, *new)))
    return tuple(f"{key} {had.text}, then {has.text}" for key, had, has in both if had.worth != has.worth)


def _flat(layers: Layers) -> Iterator[tuple[str, _Said]]:
    """Every value with what it is of; rows of rails and coats in one."""
    for layer, value in layers.items():
        if isinstance(value, Mapping):
            yield from ((f"{layer} {key.replace('_', ' ')}", _said({key: each})) for key, each in value.items())
        elif isinstance(value, list):
            rows = [_said(row) for row in value]
            yield layer, _Said(" and ".join(row.text for row in rows), tuple(row.worth for row in rows))
        elif layer != "says":
            yield layer, _said({layer: value})


def _said(row: Mapping[str, object]) -> _Said:
    """The values of some keys; of one that is true its name."""
    texts = (key.replace("_", " ") if value is True else str(value) for key, value in row.items())
    return _Said(" ".join(texts), tuple((key, _worth(value)) for key, value in row.items()))


def _worth(value: object) -> object:
    try:
        return round(read(str(value), like=METER), 4)
    except QuantityError:
        return value
