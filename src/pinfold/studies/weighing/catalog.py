"""Build-ups to choose from: the plan as it stands, its own ones all round, and those of the catalog fitted to it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from difflib import get_close_matches
from functools import partial
from itertools import accumulate

from pinfold.errors import NotFoundError
from pinfold.plan.buildups import Buildup, Mesh
from pinfold.plan.changes import Put
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.outline import Run
from pinfold.studies.mending.ladders import SMALL, length
from pinfold.studies.weighing.records import Option, Size
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import METER, Meter, System, read

AS_PLANNED = "as planned"
_LEAST_MESH: Meter = 0.3
"""However high a wall is, so much mesh is left above it."""
_LEAST_DEPTH: Meter = 0.35
"""Footings go so deep where frost does not."""
_STOUTER, _GATES = "stouter", "gates"
_USUAL_MESH = {System.US: "welded-2x4-14ga", System.METRIC: "welded-50x50"}


def options_of(plan: Enclosure, listed: Collection[str] = ()) -> tuple[Option, ...]:
    """All there is to choose from, the plan as it stands first.

    A build-up of the catalog whose name the plan uses itself is left out: the plan's own stands for it.

    Args:
        plan: that is weighed
        listed: names of sides whose file lists their runs, be it only one
    """
    used = tuple(dict.fromkeys(run.buildup for _, run in plan.runs if run.buildup is not None))
    own = [_all_round(plan, name, listed) for name in plan.buildups if used != (name,)]
    catalog = [_fitted(plan, kind, listed) for name, kind in shelf("buildups").items()
               if name not in plan.buildups and not kind.words.get("part")]  # fmt: skip
    return (Option(name=AS_PLANNED, says=_as_planned(plan, used), change=()), *own, *catalog)


def chosen(options: tuple[Option, ...], names: tuple[str, ...]) -> tuple[Option, ...]:
    """The options of some names, the plan as it stands first; all of them where none is named.

    Raises:
        NotFoundError: there is none of a name; all such are told at once.
    """
    known = [option.name for option in options]
    strange = [name for name in names if name not in known]
    if strange:
        raise NotFoundError(
            f"no build-up called {', '.join(map(repr, strange))}; {_meant(names, strange, known)}there are: "
            f"{', '.join(each.name for each in options)}"
        )
    return tuple(option for option in options if not names or option.name in (AS_PLANNED, *names))


def _meant(names: Sequence[str], strange: Sequence[str], known: Sequence[str]) -> str:
    """What strange names may mean: the nearest known, or one name whose words were typed apart."""
    if " ".join(names) in known:
        return f"in quotes, as {' '.join(names)!r}, it is one name; "
    near = dict.fromkeys(match for name in strange for match in get_close_matches(name, known, n=1))
    return f"did you mean {' or '.join(map(repr, near))}? " if near else ""


def _as_planned(plan: Enclosure, used: tuple[str, ...]) -> str:
    return " · ".join(plan.buildups[name].says or name for name in used if name in plan.buildups)


def _all_round(plan: Enclosure, name: str, listed: Collection[str]) -> Option:
    return Option(
        name=name, says=f"{plan.buildups[name].says or name}, all round", change=tuple(laid(plan, name, listed))
    )


def laid(plan: Enclosure, name: str, listed: Collection[str], *, instead_of: str = "") -> Iterator[Put]:
    """A build-up given to every run that is built, or only to those that have a certain one.

    Args:
        plan: as it stands
        name: of the build-up
        listed: names of sides whose file lists their runs, be it only one
        instead_of: the one it takes the place of; empty for all
    """
    for side in plan.sides:
        for number, run in enumerate(side.runs):
            if run.buildup is None or (instead_of and run.buildup != instead_of):
                continue
            by_run = ("runs", str(number)) if len(side.runs) > 1 or side.name in listed else ()
            yield Put(("side", side.name, *by_run, "buildup"), name)


def _fitted(plan: Enclosure, kind: Kind, listed: Collection[str]) -> Option:
    """A build-up of the catalog with its lengths for this plan, from its leanest size to its stoutest."""
    stouter = _stouter(kind, plan.units.value)
    layers = tuple(accumulate((_leanest(kind, plan.units.value), *stouter), _over))
    places = tuple(laid(plan, kind.name, listed))
    change, *others = ((*_sized(plan, kind, each), *places) for each in layers)
    told = (_said(each, _words(plan, _wall_height(whole)))
            for each, whole in zip(accumulate(stouter, _over), layers[1:], strict=True))  # fmt: skip
    sizes = tuple(map(Size, told, others))
    return Option(name=kind.name, says=kind.says, change=change, stouter=sizes)


def _leanest(kind: Kind, system: str) -> Mapping[str, object]:
    fence = _layers(shelf("buildups")[kind.word("fence")], system) if kind.word("fence") else {}
    return {**fence, **{key: value for key, value in _layers(kind, system).items() if key != _STOUTER}}


def _stouter(kind: Kind, system: str) -> tuple[Mapping[str, object], ...]:
    """What is other in each further size than in the one before."""
    rows = _layers(kind, system).get(_STOUTER, [])
    assert isinstance(rows, list)
    return tuple(rows)


def _over(layers: Mapping[str, object], other: Mapping[str, object]) -> Mapping[str, object]:
    """Layers with what is other in them."""
    both = {key: _over(had, value) if isinstance(had := layers.get(key), Mapping) and isinstance(value, Mapping)
            else value for key, value in other.items()}  # fmt: skip
    return {**layers, **both}


def _said(other: Mapping[str, object], words: Mapping[str, str]) -> str:
    """What is other than in the leanest size, such as `footing width 44 in, thickness 16 in; posts spacing 6 ft`."""
    return "; ".join(
        f"{layer} "
        + ", ".join(f"{key.replace('_', ' ')} {_filled(str(value), words)}" for key, value in values.items())
        for layer, values in other.items()
        if isinstance(values, Mapping)
    )


def _sized(plan: Enclosure, kind: Kind, layers: Mapping[str, object]) -> Iterator[Put]:
    """One size of a build-up, and what it asks of the posts of gates that are set less deep or wide."""
    words = _words(plan, _wall_height(layers))
    yield Put(("buildup", kind.name, "says"), kind.says)
    yield from _puts(("buildup", kind.name), {key: value for key, value in layers.items() if key != _GATES}, words)
    asked = layers.get(_GATES, {})
    assert isinstance(asked, Mapping)
    for gate in plan.gates:
        had = {"embed": gate.embed, "collar": gate.collar}
        for key, value in asked.items():
            if (had[key] or 0.0) < read(value, like=METER):
                yield Put(("gate", gate.name, key), value)


def _layers(kind: Kind, system: str) -> Mapping[str, object]:
    layers = kind.words[system]
    assert isinstance(layers, Mapping)
    return layers


def _wall_height(layers: Mapping[str, object]) -> Meter:
    """Height of the wall with what caps it."""
    wall, coping = layers.get("wall"), layers.get("coping")
    height = read(str(wall["height"]), like=METER) if isinstance(wall, Mapping) else 0.0
    return height + (shelf("copings")[str(coping["kind"])].value("thickness") if isinstance(coping, Mapping) else 0.0)


def _words(plan: Enclosure, wall: Meter) -> Mapping[str, str]:
    """What words of the catalog stand for in this plan."""
    spelled: Callable[[Meter], str] = partial(length, system=plan.units)
    rest = max(height_of(plan) - wall, _LEAST_MESH)
    mesh = _mesh(plan)
    return {
        "rest": spelled(rest), "rest-half": spelled(rest / 2), "rest-top": spelled(rest - SMALL[plan.units] / 2),
        "rest-over": spelled(rest + SMALL[plan.units] / 2),
        "frost": spelled(max(plan.place.frost_depth or 0.0, _LEAST_DEPTH)),
        "mesh": mesh.kind.name if mesh is not None else _USUAL_MESH[plan.units],
        "grown": f"{mesh.grown * 100:g} %" if mesh is not None and mesh.grown is not None else "",
    }  # fmt: skip


def height_of(plan: Enclosure) -> Meter:
    """Height of the enclosure: what most of its length has."""
    lengths: dict[Meter, Meter] = {}
    for run, buildup in _built(plan):
        lengths[buildup.height] = lengths.get(buildup.height, 0.0) + run.end - run.start
    return max(lengths, key=lambda height: lengths[height], default=0.0)


def _built(plan: Enclosure) -> Iterator[tuple[Run, Buildup]]:
    for _, run in plan.runs:
        buildup = plan.buildups.get(run.buildup or "")
        if buildup is not None:
            yield run, buildup


def _mesh(plan: Enclosure) -> Mesh | None:
    """The plan's own mesh: of the first run that has one."""
    return next((buildup.mesh for _, buildup in _built(plan) if buildup.mesh is not None), None)


def _puts(path: tuple[str, ...], layers: Mapping[str, object], words: Mapping[str, str]) -> Iterator[Put]:
    """Every value of a table, words filled in; what has none here is left out."""
    for key, value in layers.items():
        if isinstance(value, Mapping):
            yield from _puts((*path, key), value, words)
        elif isinstance(value, list):
            for number, row in enumerate(value):
                yield from _puts((*path, key, str(number)), row, words)
        elif isinstance(value, int | bool):
            yield Put((*path, key), value)
        elif text := _filled(str(value), words):
            yield Put((*path, key), text)


def _filled(text: str, words: Mapping[str, str]) -> str:
    """A text of the catalog with its word filled in; of `frost or 50 cm` the deeper."""
    word, _, least = text.partition(" or ")
    filled = words.get(word, word)
    return max(filled, least, key=lambda each: read(each, like=METER)) if least else filled
