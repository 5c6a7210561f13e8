"""The makeup of a mix as a handful of ratios, read out of what went in and turned back into a mix.

A mix in parts by loose volume has sand, gravel or clay soil to one of all that binds, lime to one of cement, and water
over its dry mass; concrete and grout have water over cement instead. A foamed mix has water and sand over cement by
mass, and the density aimed for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.studies.batching.loose import parts_of, water_density
from pinfold.studies.trials.contents import BINDERS, Contents
from pinfold.tables.shelf import Kind
from pinfold.units import KG_PER_CUBIC_METER, RATIO, Unit

FOAMED_KEYS = ("sand_cement", "water_cement", "wet_density")
ADDED = ("straw",)
"""What may be changed beside the parts of a mix."""
WATERS = ("water", "water_cement")
"""Ways to count water in a mix given by loose volume."""
_LOOSE_METHODS = ("bulk-sum-mortar", "bulk-sum-concrete", "absolute", "placed-density")
_BY_WATER_CEMENT = ("concrete", "grout")


def keys_of(mix: Kind) -> tuple[str, ...]:
    """The ratios that make up a mix, in order.

    Raises:
        NotFoundError: it is given neither by loose volume nor foamed.
    """
    if mix.word("yield_method") == "foamed":
        return tuple(key for key in FOAMED_KEYS if key != "sand_cement" or mix.value(key) > 0)
    if mix.word("yield_method") not in _LOOSE_METHODS:
        raise NotFoundError(f"trials compare mixes given by loose volume and foamed ones; {mix.name} is neither")
    names = tuple(part for part, _ in parts_of(mix))
    limed = ("lime",) if set(BINDERS) <= set(names) else ()
    bulk = tuple(part for part in names if part not in binders_of(mix))
    return (*limed, *bulk, water_key(mix))


def water_key(mix: Kind) -> str:
    """How water is counted: over cement in concrete, grout and foamed mixes, over the dry mass in all others."""
    return "water_cement" if mix.word("family") in (*_BY_WATER_CEMENT, "foamed") else "water"


def can_count_cement(mix: Kind) -> bool:
    """Whether water may be counted over cement as well as over the dry mass."""
    return mix.word("yield_method") != "foamed" and "cement" in dict(parts_of(mix))


def binders_of(mix: Kind) -> tuple[str, ...]:
    """The parts that bind: cement and lime, else the first part."""
    names = [part for part, _ in parts_of(mix)]
    return tuple(part for part in names if part in BINDERS) or (names[0],)


def ratios_of(found: Contents, mix: Kind) -> tuple[dict[str, float], dict[str, str]]:
    """The ratios of what went in, and why others cannot be told.

    Lime that was not written down is none; of all else that means it is not known.
    """
    ratios: dict[str, float] = {}
    if mix.word("yield_method") == "foamed":
        _over_cement(found, ratios)
    else:
        _over_binders(found, mix, ratios)
    wanted = [key for key in keys_of(mix) if key != "wet_density"]
    return ratios, {key: _why(key, found, mix) for key in wanted if key not in ratios}


def _over_cement(found: Contents, ratios: dict[str, float]) -> None:
    cement = found.masses.get("cement")
    if cement and "cement" not in found.lacking:
        if "sand" not in found.lacking:
            ratios["sand_cement"] = found.masses.get("sand", 0.0) / cement
        if found.water is not None:
            ratios["water_cement"] = found.water / cement


def _over_binders(found: Contents, mix: Kind, ratios: dict[str, float]) -> None:
    binders = binders_of(mix)
    if found.loose.get(binders[0]) is None or set(binders) & set(found.lacking):
        return
    bound = sum(found.loose.get(part, 0.0) for part in binders)
    if len(binders) > 1:
        ratios["lime"] = found.loose.get("lime", 0.0) / found.loose["cement"]
    bulk = [part for part, _ in parts_of(mix) if part not in binders]
    ratios |= {part: found.loose[part] / bound for part in bulk if part in found.loose}
    ratios |= {name: volume / bound for name, volume in found.added.items()}
    if found.water is None:
        return
    if "cement" in found.masses:
        ratios["water_cement"] = found.water / found.masses["cement"]
    if all(part in found.loose for part in bulk):
        ratios["water"] = found.water / sum(found.masses.values())


def _why(key: str, found: Contents, mix: Kind) -> str:
    first = binders_of(mix)[0]
    needed = {"water": "water", "water_cement": "water", "sand_cement": "sand"}.get(key, key)
    for part in (needed, first, *binders_of(mix)):
        if part in found.lacking:
            return found.lacking[part]
    missing = next((part for part in (first, needed) if part not in found.loose and part != "water"), "water")
    return f"how much {missing.replace('_', ' ')} went in was not written down"


def usual_of(mix: Kind) -> dict[str, float]:
    """The ratios of a mix as it ships, or as the log teaches it.

    Raises:
        NotFoundError: a figure of it is missing.
    """
    if mix.word("yield_method") == "foamed":
        own = {"wet_density": mix.value("cast_density"), "water_cement": mix.value("water_cement")}
        return {**own, "sand_cement": mix.value("sand_cement")}
    parts = dict(parts_of(mix))
    loose = {part: mix.value(part) for part in parts}
    masses = {part: loose[part] * material.value("bulk_density") for part, material in parts.items()}
    return ratios_of(Contents(loose=loose, masses=masses, water=_water_of(mix, masses)), mix)[0]


def _water_of(mix: Kind, masses: Mapping[str, float]) -> float:
    if mix.has("water_cement") and "cement" in masses:
        return mix.value("water_cement") * masses["cement"]
    if mix.has("water_parts"):
        return mix.value("water_parts") * water_density()
    return mix.value("water_solids") * sum(masses.values())


def mix_with(mix: Kind, ratios: Mapping[str, float]) -> Kind:
    """The mix with other ratios, for a batch to be measured out of.

    Args:
        mix: it begins from
        ratios: of all `keys_of` it, water counted either way

    Raises:
        NotFoundError: a figure of a material is missing.
    """
    if mix.word("yield_method") == "foamed":
        own = {"cast_density": ratios["wet_density"], "water_cement": ratios["water_cement"]}
        sand = {"sand_cement": ratios["sand_cement"]} if "sand_cement" in ratios else {}
        return _with(mix, {**own, **sand}, {"cast_density": KG_PER_CUBIC_METER})
    return _loose_with(mix, ratios)


def _loose_with(mix: Kind, ratios: Mapping[str, float]) -> Kind:
    parts, binders = dict(parts_of(mix)), binders_of(mix)
    loose = {binders[0]: 1.0} | ({"lime": ratios["lime"]} if len(binders) > 1 else {})
    bound = sum(loose.values())
    loose |= {part: ratios[part] * bound for part in parts if part not in binders}
    kept = {part: volume for part, volume in loose.items() if volume > 0}
    masses = {part: volume * parts[part].value("bulk_density") for part, volume in kept.items()}
    counted = masses["cement"] if "water_cement" in ratios else sum(masses.values())
    water = counted * (ratios["water_cement"] if "water_cement" in ratios else ratios["water"])
    changed = _with(mix, {**loose, **_water_figure(mix, masses, water)}, {})
    uses = mix.words["uses"]
    assert isinstance(uses, dict)
    return replace(changed, words={**mix.words, "uses": {part: uses[part] for part in uses if part in kept}})


def _water_figure(mix: Kind, masses: Mapping[str, float], water: float) -> dict[str, float]:
    """Water in the way the mix itself gives it."""
    if mix.has("water_cement") and "cement" in masses:
        return {"water_cement": water / masses["cement"]}
    if mix.has("water_parts"):
        return {"water_parts": water / water_density()}
    return {"water_solids": water / sum(masses.values())}


def _with(mix: Kind, values: Mapping[str, float], units: Mapping[str, Unit]) -> Kind:
    figures = {
        key: Figure(
            value=value, unit=units.get(key, RATIO), standing=Standing.LEARNED, source="LOG", where="a trial proposed",
            printed=f"{value:.4g}",
        )
        for key, value in values.items()
    }  # fmt: skip
    return replace(mix, figures={**mix.figures, **figures})
