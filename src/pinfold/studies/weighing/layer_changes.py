"""What is other in one build-up than in another, key by key of the plan file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from pinfold.studies.weighing.axes import Layers

NONE = "none"


def layer_changes(before: Layers, after: Layers) -> tuple[str, ...]:
    """Such as `wall thickness 44 cm, then 50 cm`, in the order of the layers.

    Args:
        before: layers of a build-up, as a plan file has them
        after: those of another
    """
    old, new = dict(_flat(before)), dict(_flat(after))
    return tuple(
        f"{key} {old.get(key, NONE)}, then {new.get(key, NONE)}"
        for key in dict.fromkeys((*old, *new)) if old.get(key) != new.get(key)
    )  # fmt: skip


def _flat(layers: Layers) -> Iterator[tuple[str, str]]:
    """Every value with what it is of; rows of rails and coats in one."""
    for layer, value in layers.items():
        if isinstance(value, Mapping):
            yield from ((f"{layer} {key.replace('_', ' ')}", str(each)) for key, each in value.items())
        elif isinstance(value, list):
            yield layer, " and ".join(" ".join(map(str, row.values())) for row in value)
        elif layer != "says":
            yield layer, str(value)
