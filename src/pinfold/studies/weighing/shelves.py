"""Sensible choices for every axis: from the plan's own build-ups, the catalog, and what is priced or on the pile."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import NamedTuple

from pinfold.errors import InputError
from pinfold.plan.buildups import Setting
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.mending.ladders import LARGE, SMALL, length
from pinfold.studies.weighing.axes import AXES, Axis, Choice, Layers, lengths
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import METER, Meter, System, read

_MOST = 5
_LEAST_THICKNESS: Meter = 0.1
_WIDER = (0, -1, 2, 4)
"""Steps by which footings of other widths are wider than the plan's."""


class Ground(NamedTuple):
    """What choices are made from.

    Attributes:
        plan: as it stands.
        name: of the build-up that is varied.
        table: of that build-up in the plan file.
        tables: of all build-ups there.
        at_hand: kinds that have a price or lie on the pile.
    """

    plan: Enclosure
    name: str
    table: Layers
    tables: Mapping[str, Layers]
    at_hand: Collection[str]


def axes_for(ground: Ground) -> tuple[Axis, ...]:
    """Every axis with its choices, those of the plan first.

    Raises:
        InputError: the build-up has no wall with a fence above it.
    """
    if not {"wall", "posts", "mesh"} <= set(ground.table):
        raise InputError("only a build-up with a wall, posts and mesh is varied; name one", place=ground.name)
    made = {
        "wall": _walls(ground), "wall-height": _ladder(ground, "wall-height", ("wall", "height")),
        "footing": _footings(ground), "coats": _coats(ground),
        "fence-height": _ladder(ground, "fence-height", ("mesh", "height")), "posts": _posts(ground),
        "spacing": _ladder(ground, "spacing", ("posts", "spacing")), "embed": _embeds(ground),
        "rails": _rails(ground), "mesh": _meshes(ground),
    }  # fmt: skip
    return tuple(made[key] for key in AXES)


USUAL = {"wall": 4, "coats": 3, "posts": 2, "spacing": 3, "embed": 3, "rails": 2, "mesh": 2}
"""How many choices of an axis are taken where nothing is asked of it, so that the first answer comes soon."""


def usual(axis: Axis) -> Axis:
    """An axis where nothing is asked of it."""
    return Axis(axis.key, axis.choices[: USUAL.get(axis.key)])


def _layer(ground: Ground, name: str) -> Mapping[str, object]:
    found = ground.table.get(name)
    return found if isinstance(found, Mapping) else {}


def _without(layer: Mapping[str, object], *keys: str) -> dict[str, object]:
    return {key: value for key, value in layer.items() if key not in keys}


def _unlike(choices: Iterator[Choice]) -> tuple[Choice, ...]:
    """Each once, the first of a name kept."""
    found: dict[str, Choice] = {}
    for choice in choices:
        found.setdefault(choice.says, choice)
    return tuple(found.values())


def _ladder(ground: Ground, key: str, place: tuple[str, str]) -> Axis:
    """The plan's own length, with one below it and one above."""
    own, step = read(str(_layer(ground, place[0])[place[1]]), like=METER), LARGE[ground.plan.units]
    texts = [length(own + number * step, ground.plan.units) for number in (0, -1, 1) if own + number * step >= step]
    return lengths(key, texts)


def _walls(ground: Ground) -> Axis:
    own = ((table, name) for name, table in {ground.name: ground.table, **ground.tables}.items())
    rows = (
        (kind.words[ground.plan.units.value], name) for name, kind in shelf("buildups").items()
        if not kind.words.get("part")
    )  # fmt: skip
    tables = [
        table for table, _ in (*own, *rows) if isinstance(table, Mapping) and isinstance(table.get("wall"), Mapping)
    ]
    return Axis("wall", _unlike(choice for table in tables for choice in _thicknesses(ground, table)))


def _thicknesses(ground: Ground, table: Layers) -> Iterator[Choice]:
    """A wall as it is, and where its thickness is the plan's to choose, also thinner and thicker."""
    wall = table["wall"]
    assert isinstance(wall, Mapping)
    kind, system = shelf("walls")[str(wall["kind"])], ground.plan.units
    if kind.word("make") == "sheet":
        return
    capped = {"coping": table["coping"]} if "coping" in table else {}
    bare = _without(wall, "height")
    if "thickness" not in wall:
        yield Choice(_wall_words(kind, ""), {"wall": bare, **capped})
        return
    own = read(str(wall["thickness"]), like=METER)
    steps = (0,) if kind.word("make") == "units" else (0, -1, 1)
    for number in steps:
        thick = own + number * SMALL[system]
        if thick >= _LEAST_THICKNESS:
            text = str(wall["thickness"]) if number == 0 else length(thick, system)
            yield Choice(
                _wall_words(kind, text), {"wall": {**bare, "thickness": text}, **_wide(capped, number, system)}
            )


def _wide(capped: Layers, number: int, system: System) -> Layers:
    """A coping as much wider as the wall is thicker."""
    coping = capped.get("coping")
    if not isinstance(coping, Mapping) or "width" not in coping:
        return capped
    wide = read(str(coping["width"]), like=METER) + max(number, 0) * SMALL[system]
    return {"coping": {**coping, "width": length(wide, system) if number > 0 else coping["width"]}}


def _wall_words(kind: Kind, thick: str) -> str:
    return f"{kind.name} {thick}".strip()


def _footings(ground: Ground) -> Axis:
    """The plan's own, one less wide, and wider ones."""
    own, system = _layer(ground, "footing"), ground.plan.units
    if not own:
        return Axis("footing", (Choice("no footing", {}),))
    wide = read(str(own["width"]), like=METER)
    found = []
    for number in _WIDER:
        text = length(wide + number * SMALL[system], system)
        found.append(Choice(f"footing {text}", {"footing": {**own, "width": text}}))
    return Axis("footing", tuple(found))


def _coats(ground: Ground) -> Axis:
    """None, the plan's own sets, and those of the catalog."""
    tables: list[object] = [ground.table, *ground.tables.values()]
    tables += [kind.words.get(ground.plan.units.value) for kind in shelf("buildups").values()]
    sets = (table["coat"] for table in tables if isinstance(table, Mapping) and isinstance(table.get("coat"), list))
    own = (Choice(", ".join(str(row["kind"]) for row in rows), {"coat": rows}) for rows in sets)
    return Axis("coats", (*_unlike(own), Choice("no coats", {}))[:_MOST])


def _posts(ground: Ground) -> Axis:
    """Kinds at hand, held as the plan holds its own."""
    own = _layer(ground, "posts")
    bare = _without(own, "spacing", "height", "embed", "stout")
    names = [str(own["kind"]), *(name for name in shelf("posts") if name in ground.at_hand)]
    return Axis("posts", tuple(
        Choice(name, {"posts": {**bare, "kind": name}}) for name in list(dict.fromkeys(names))[:_MOST]
    ))  # fmt: skip


def _embeds(ground: Ground) -> Axis:
    """As deep as the plan has it, less and more; in a wall all of it and three quarters."""
    own, system = _layer(ground, "posts"), ground.plan.units
    if own.get("setting") == Setting.WALL_TOP.value:
        return Axis("embed", (Choice("", {}),))
    if own.get("setting") == Setting.WALL.value:
        return Axis("embed", (Choice("posts as deep as the wall", {"posts": {"embed": "wall"}}),))
    deep, step = read(str(own["embed"]), like=METER), LARGE[system]
    return lengths("embed", [length(deep + number * step, system) for number in (0, -1, 1)])


def _rails(ground: Ground) -> Axis:
    """The plan's own, wires alone, and one with a stiff rail on top."""
    rows = ground.table.get("rail")
    own = [dict(row) for row in rows if isinstance(row, Mapping)] if isinstance(rows, list) else []
    placed = [{**row, "at": "top" if row is own[-1] else "half" if len(own) == 2 else row["at"]} for row in own]
    wires = [row for row in placed if str(row["kind"]).startswith("wire")]
    found = [Choice(" and ".join(str(row["kind"]) for row in placed) or "no rails", {"rail": placed} if placed else {})]
    if wires:
        both = [{**wires[0], "at": "half"}, {**wires[0], "at": "top"}]
        found.append(Choice(f"two of {wires[0]['kind']}", {"rail": both}))
        found.append(Choice(f"one of {wires[0]['kind']}", {"rail": [{**wires[0], "at": "top"}]}))
    return Axis("rails", _unlike(iter(found)))


def _meshes(ground: Ground) -> Axis:
    own = _layer(ground, "mesh")
    bare = _without(own, "height")
    names = [str(own["kind"])]
    names += [
        name for name, kind in shelf("meshes").items() if name in ground.at_hand and kind.word("use") != "plaster"
    ]
    return Axis("mesh", tuple(
        Choice(name, {"mesh": {**bare, "kind": name}}) for name in list(dict.fromkeys(names))[:_MOST]
    ))  # fmt: skip
