"""What was seen on site, made into the figures it shows: heights in a jar into swelling, weights of a pan into water.

An entry says a figure itself or says what was seen; either is one entry, and whoever reads the log asks here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from pinfold.errors import InputError, OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import measures, sand, sand_tests
from pinfold.logbook.bought import bought_wrongs
from pinfold.logbook.broken import broken_wrongs
from pinfold.logbook.heaped import heaped_wrongs
from pinfold.logbook.kinds import EntryKind, entry_kind
from pinfold.tables.shelf import kind as shelf_kind
from pinfold.units import Ratio

_SAME: Mapping[str, Ratio] = {"moisture": 0.005, "bulking": 0.02}
"""A figure that is written down and one that was seen may differ by so much, in full points."""


class Seen(NamedTuple):
    """What an entry shows.

    Attributes:
        figures: by key: moisture, bulking, silt of sand; mass of what filled a measure; known mass on a scale.
        working: lines of working, none where the figures were written down as they are.
    """

    figures: Mapping[str, float]
    working: tuple[Step, ...]


def seen(kind: str, values: Mapping[str, object]) -> Seen:
    """What an entry shows, by what was seen or as it was written down.

    Args:
        kind: of the entry
        values: in SI by key of the field

    Raises:
        InputError: what was seen cannot be, with the field it is about.
    """
    numbers = {key: float(value) for key, value in values.items() if isinstance(value, int | float)}
    reader = _READERS.get(kind)
    return reader(numbers) if reader else Seen({}, ())


def wrongs(kind: EntryKind, values: Mapping[str, object]) -> list[InputError]:
    """Complaints about fields that are each good and do not go together: none of the ways whole, or what cannot be."""
    if kind.ways and not any(_whole(way, values) for way in kind.ways):
        return [_begun(kind, values)]
    lone = [key for key in _parts(kind) if key in values and not _in_whole_way(key, kind, values)]
    if lone:
        return [_lonely(kind, key, values) for key in lone]
    if kind.name in _JUDGES:
        return _JUDGES[kind.name](values)
    try:
        seen(kind.name, values)
    except InputError as wrong:
        return [wrong]
    return []


def _whole(way: tuple[str, ...], values: Mapping[str, object]) -> bool:
    return all(key in values for key in way)


def _parts(kind: EntryKind) -> tuple[str, ...]:
    """Keys that say nothing alone."""
    return tuple(dict.fromkeys(key for way in kind.ways if len(way) > 1 for key in way))


def _in_whole_way(key: str, kind: EntryKind, values: Mapping[str, object]) -> bool:
    return any(key in way and _whole(way, values) for way in kind.ways)


def _begun(kind: EntryKind, values: Mapping[str, object]) -> InputError:
    """None of the ways is whole: the one that was begun, else all of them, are asked for."""
    begun = next((key for key in _parts(kind) if key in values), None)
    if begun is not None:
        return _lonely(kind, begun, values)
    ways = "; ".join(" with ".join(way) for way in kind.ways)
    return InputError(f"nothing was read yet; one of these is wanted: {ways}", place=kind.ways[0][0])


def _lonely(kind: EntryKind, key: str, values: Mapping[str, object]) -> InputError:
    ways = [way for way in kind.ways if key in way]
    nearest = max(ways, key=lambda way: sum(other in values for other in way))
    missing = [other for other in nearest if other not in values]
    wanted = " and ".join(f"{other} ({_says(kind, other)})" for other in missing)
    return InputError(f"says nothing alone; {wanted} is wanted with it", place=key)


def _says(kind: EntryKind, key: str) -> str:
    field = kind.field(key)
    assert field is not None
    return field.says


def _worked(place: str, formula: Callable[..., object], *, why: str, **inputs: object) -> Step:
    try:
        return work(formula, why=why, **inputs)
    except OutOfRangeError as wrong:
        raise InputError(str(wrong), place=place) from None


def _moisture(values: Mapping[str, float]) -> Seen:
    """Water, swelling and silt of sand: by pan or can, by jar, and by pails with either of the two."""
    water = [*_pan(values), *_can(values)]
    jar = _jar(values)
    figures = dict(values)
    _put(figures, "moisture", water)
    _put(figures, "bulking", jar)
    pails = _pails(figures)
    if pails is not None:
        key, step = pails
        if key in figures:  # told beside what is known better
            step = step._replace(why=f"{step.why}, for comparison")
        else:
            figures[key] = _bounded(key, step)
    silt = _silt(values)
    if silt is not None:
        figures["silt"] = silt.number
    working = (*water, *jar, *([pails[1]] if pails else []), *([silt] if silt else []))
    return Seen({key: figures[key] for key in ("moisture", "bulking", "silt") if key in figures}, working)


def _pan(values: Mapping[str, float]) -> list[Step]:
    if not _whole(("wet", "dry"), values):
        return []
    weights = {"wet": values["wet"], "dry": values["dry"], "pan": values.get("pan", 0.0)}
    return [_worked("dry", sand_tests.moisture_by_pan, why="water in the sand by the pan", **weights)]


def _can(values: Mapping[str, float]) -> list[Step]:
    keys = ("sample", "can_with_sand", "can_of_water")
    if not _whole(keys, values):
        return []
    densities = {
        "grains": shelf_kind("materials", "sand").value("particle_density"),
        "water_density": shelf_kind("materials", "water").value("particle_density"),
    }
    weights = {key: values[key] for key in keys}
    why = "water in the sand by the can"
    return [_worked("can_with_sand", sand_tests.moisture_by_can, why=why, **weights, **densities)]


def _jar(values: Mapping[str, float]) -> list[Step]:
    if not _whole(("moist_height", "flooded_height"), values):
        return []
    heights = {key: values[key] for key in ("moist_height", "flooded_height")}
    return [_worked("flooded_height", sand.bulking, why="swelling by the jar", **heights)]


def _silt(values: Mapping[str, float]) -> Step | None:
    if not _whole(("silt_height", "flooded_height"), values):
        return None
    heights = {"silt_height": values["silt_height"], "sand_height": values["flooded_height"]}
    return _worked("silt_height", sand_tests.silt_share, why="silt over the sand beneath it", **heights)


def _pails(figures: Mapping[str, float]) -> tuple[str, Step] | None:
    """What two fillings of one pail say, and of what: their weights stand for densities."""
    if not _whole(("moist_pail", "dry_pail"), figures):
        return None
    pair = {"moist": figures["moist_pail"], "dry": figures["dry_pail"]}
    if "moisture" in figures:
        why = "swelling by the pail"
        step = _worked("dry_pail", sand_tests.bulking_by_pail, why=why, **pair, moisture=figures["moisture"])
        return "bulking", step
    if "bulking" in figures:
        why = "water in the sand by the pail"
        step = _worked("dry_pail", sand_tests.moisture_by_pail, why=why, **pair, bulking=figures["bulking"])
        return "moisture", step
    raise InputError(
        "two pails alone tell water and swelling together; dry a pan of the sand too, or stand some in a jar",
        place="moist_pail",
    )


def _put(figures: dict[str, float], key: str, steps: list[Step]) -> None:
    """What was seen goes before what was written down; where they differ one of the two is wrong."""
    found = [_bounded(key, step) for step in steps]
    told = [*found, *([figures[key]] if key in figures else [])]
    if told and max(told) - min(told) > _SAME[key]:
        many = " and ".join(f"{value:.1%}" for value in told)
        raise InputError(f"{many} cannot both be; take out what is less sure", place=key)
    if found:
        figures[key] = found[0]


def _bounded(key: str, step: Step) -> float:
    field = entry_kind("moisture").field(key)
    assert field is not None
    if not field.low <= step.number <= field.high:
        raise InputError(f"what was seen makes {step.number:.1%}, which cannot be; {field.ends} is wanted", place=key)
    return step.number


def _bucket(values: Mapping[str, float]) -> Seen:
    if "filled" in values and "below" in values:
        raise InputError("say how full it was as a share or by its rim, not both", place="below")
    if not _whole(("gross", "empty"), values):
        return Seen({"mass": values["mass"]} if "mass" in values else {}, ())
    weights = {"gross": values["gross"], "empty": values["empty"]}
    step = _worked("gross", measures.contents_mass, why="what was in it", **weights)
    field = entry_kind("bucket").field("mass")
    assert field is not None
    if "mass" in values and abs(values["mass"] / step.number - 1) > _SAME["bulking"]:
        raise InputError("is not what full less empty makes; take one of the two out", place="mass")
    if step.number > field.high:
        raise InputError(f"full less empty cannot be so much; {field.ends} is wanted", place="gross")
    return Seen({"mass": step.number}, (step,))


def _scale(values: Mapping[str, float]) -> Seen:
    if "known" in values and "water" in values:
        raise InputError("say the known weight or the water, not both", place="water")
    if "water" in values:
        density = shelf_kind("materials", "water").value("particle_density")
        return Seen({"known": density * values["water"], "shown": values["shown"]}, ())
    return Seen({key: values[key] for key in ("known", "shown") if key in values}, ())


_JUDGES: Mapping[str, Callable[[Mapping[str, object]], list[InputError]]] = {
    "strength": broken_wrongs, "purchase": bought_wrongs, "pile": heaped_wrongs,
}  # fmt: skip
_READERS: Mapping[str, Callable[[Mapping[str, float]], Seen]] = {
    "moisture": _moisture, "bucket": _bucket, "scale": _scale,
}  # fmt: skip
