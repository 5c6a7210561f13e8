"""What a build-up is varied in: axes with their choices, and the table that a pick of each of them makes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from pinfold.errors import InputError
from pinfold.plan.changes import Change, Put
from pinfold.studies.mending.ladders import length
from pinfold.units import METER, Meter, System, read

Layers = Mapping[str, object]
"""Layers of a build-up as a plan file has them, or some keys of some of them."""


class Choice(NamedTuple):
    """One value of an axis.

    Attributes:
        says: what it is, in a few words.
        layers: what it writes; `half` and `top` of a rail stand for places on the fence, `wall` of an embedment for
            all of the wall.
    """

    says: str
    layers: Layers


class Axis(NamedTuple):
    """One thing that a build-up is varied in.

    Attributes:
        key: one of AXES.
        choices: its values; at least one.
    """

    key: str
    choices: tuple[Choice, ...]


AXES: Mapping[str, str] = {
    "wall": "kind, thickness and units of the wall, and what caps it", "wall-height": "height of the wall",
    "footing": "kind, width and depth of the footing", "coats": "coats of plaster",
    "fence-height": "height of the mesh above the wall", "posts": "kind of post and how it is held",
    "spacing": "from post to post", "embed": "how deep posts stand", "rails": "rails and wires",
    "mesh": "kind of mesh",
}  # fmt: skip
"""What a build-up is varied in, from the trench to the top, with what each axis holds."""
Picks = tuple[int, ...]
"""Number of a choice on each axis, in the order of AXES."""
_TOP_OFF = {System.US: 0.0254, System.METRIC: 0.02}
"""How far under the top of the fence its highest rail goes."""


def table_of(axes: Sequence[Axis], picks: Picks, system: System) -> dict[str, object]:
    """The table of the build-up that a pick on each axis makes."""
    whole: dict[str, object] = {}
    for axis, pick in zip(axes, picks, strict=True):
        for key, layer in axis.choices[pick].layers.items():
            if isinstance(layer, Mapping):
                before = whole.get(key)
                whole[key] = {**(before if isinstance(before, Mapping) else {}), **layer}
            else:
                whole[key] = layer
    return _placed(whole, system)


def _placed(whole: dict[str, object], system: System) -> dict[str, object]:
    """With rails at their heights and posts as deep as the wall."""
    posts, wall, rails = whole.get("posts"), whole.get("wall"), whole.get("rail")
    if isinstance(posts, Mapping):
        deep = wall["height"] if posts.get("embed") == "wall" and isinstance(wall, Mapping) else posts.get("embed")
        whole["posts"] = {**posts, "embed": deep} if deep is not None else posts
    if isinstance(rails, list) and isinstance(posts, Mapping):
        height = read(str(posts["height"]), like=METER)
        whole["rail"] = [{**row, "at": _rail_at(str(row["at"]), height, system)} for row in rails]
    return whole


def _rail_at(text: str, fence: Meter, system: System) -> str:
    places = {"half": fence / 2, "top": fence - _TOP_OFF[system]}
    return length(places[text], system) if text in places else text


def says_of(axes: Sequence[Axis], picks: Picks) -> str:
    """A build-up in one line, what is not varied left out."""
    told = (axis.choices[pick].says for axis, pick in zip(axes, picks, strict=True) if len(axis.choices) > 1)
    return _BETWEEN.join(part for part in told if part)


_BETWEEN = " · "


def change_of(name: str, says: str, table: Layers) -> Change:
    """What writes a table as a build-up that the plan has not yet."""
    return (Put(("buildup", name, "says"), _in_a_line(says)), *_puts(("buildup", name), table))


_LINE = 200
"""Letters that a plan file takes in one line."""


def _in_a_line(says: str) -> str:
    """As much of a build-up's words as a plan file takes, whole parts of them."""
    parts = says.split(_BETWEEN)
    while len(_BETWEEN.join(parts)) > _LINE and len(parts) > 1:
        parts.pop()
    return _BETWEEN.join(parts)[:_LINE]


def _puts(path: tuple[str, ...], layers: Layers) -> Iterator[Put]:
    for key, value in layers.items():
        if isinstance(value, Mapping):
            yield from _puts((*path, key), value)
        elif isinstance(value, list):
            for number, row in enumerate(value):
                yield from _puts((*path, key, str(number)), row)
        else:
            yield Put((*path, key), value)  # type: ignore[arg-type]


def going_along(axes: Sequence[Axis], key: str, layers: Layers) -> tuple[Axis, ...]:
    """Axes of which every choice of one writes some further layers that are not varied.

    Args:
        axes: as they are
        key: of the axis that they go along with
        layers: that stay as the plan has them
    """
    return tuple(
        Axis(key, tuple(Choice(each.says, {**each.layers, **layers}) for each in axis.choices))
        if axis.key == key else axis
        for axis in axes
    )  # fmt: skip


def narrowed(axis: Axis, wanted: str, system: System) -> Axis:
    """An axis with only the choices asked for: by words in them, or lengths between two.

    Args:
        axis: as it would be
        wanted: such as `foamed,block`, `0.4..0.8 m`, `60 cm` or `none`
        system: of the plan, for lengths

    Raises:
        InputError: nothing of it is there; the message lists what is.
    """
    if ".." in wanted:
        return _between(axis, wanted, system)
    words = [word.strip().lower() for word in wanted.split(",") if word.strip()]
    kept = tuple(choice for choice in axis.choices if any(word in choice.says.lower() for word in words))
    if not kept:
        there = "; ".join(choice.says or "none" for choice in axis.choices)
        raise InputError(f"nothing of {wanted!r} is among its choices; there are: {there}", place=axis.key)
    return Axis(axis.key, kept)


_LADDER = 5
_LENGTHS = {"wall-height": (("wall", "height"),), "fence-height": (("mesh", "height"), ("posts", "height")),
            "spacing": (("posts", "spacing"),), "embed": (("posts", "embed"),)}  # fmt: skip


def _between(axis: Axis, wanted: str, system: System) -> Axis:
    """So many steps from one length to another."""
    if axis.key not in _LENGTHS:
        raise InputError(f"{wanted!r} found; it has no lengths: name some of its choices", place=axis.key)
    low, high = (part.strip() for part in wanted.split("..", 1))
    if not low or not high:
        raise InputError(f"{wanted!r} found; two lengths are wanted, like '40 cm..80 cm'", place=axis.key)
    ends = [read(text if any(map(str.isalpha, text)) else f"{text} {high.split()[-1]}", like=METER)
            for text in (low, high)]  # fmt: skip
    if ends[0] > ends[1]:
        raise InputError(f"{wanted!r} found; the lower one comes first", place=axis.key)
    steps = {length(ends[0] + (ends[1] - ends[0]) * number / (_LADDER - 1), system) for number in range(_LADDER)}
    return lengths(axis.key, sorted(steps, key=lambda text: read(text, like=METER)))


def lengths(key: str, texts: Sequence[str]) -> Axis:
    """An axis of lengths."""
    return Axis(key, tuple(Choice(f"{_WHAT[key]} {text}", _at(_LENGTHS[key], text)) for text in texts))


_WHAT = {"wall-height": "wall", "fence-height": "mesh", "spacing": "posts every", "embed": "posts in by"}


def _at(places: tuple[tuple[str, str], ...], text: str) -> Layers:
    return {layer: {key: text} for layer, key in places}


def length_in(key: str, choice: Choice) -> str:
    """The length that a choice of an axis of lengths is."""
    layer, name = _LENGTHS[key][0]
    table = choice.layers[layer]
    assert isinstance(table, Mapping)
    return str(table[name])
