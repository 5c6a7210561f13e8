"""Foamed mixes lighter and heavier, and with other shares of sand: what they take and how they harden.

Stiffness and shrinkage go by the dry density, on a remembered table; ACI 209 says nothing of foamed concrete and is not
asked.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.formulas import foam
from pinfold.plan.place import Mixing
from pinfold.studies.batching.foamed import foamed_recipe
from pinfold.studies.batching.loose import parts_of
from pinfold.studies.batching.sand import moisture_of
from pinfold.studies.lessons.strengths import strength_at
from pinfold.studies.richness.amounts import PerVolume
from pinfold.studies.richness.hardened import DAYS_28, Hardened
from pinfold.studies.richness.ladder import Bench, bands, drying, now_known
from pinfold.studies.richness.ranges import outside, sand_range
from pinfold.studies.richness.records import Band, Rung
from pinfold.tables.concrete import grid
from pinfold.tables.shelf import Kind
from pinfold.units import KG_PER_CUBIC_METER, PASCAL, RATIO, KgPerCubicMeter, Ratio

DENSITIES: tuple[KgPerCubicMeter, ...] = (500, 600, 700, 800, 900, 1000, 1200, 1400, 1600)
SANDS: tuple[Ratio, ...] = (0.0, 0.5, 1.0, 1.5, 2.0, 3.0)


def rungs_by_density(mix: Kind, mixing: Mixing, bench: Bench, densities: Iterable[KgPerCubicMeter]) -> tuple[Rung, ...]:
    """One rung for each density as cast, lightest first; what foam cannot give has none."""
    return _rungs(mix, mixing, bench, [(cast, mix.value("sand_cement")) for cast in densities])


def rungs_by_sand_in(mix: Kind, mixing: Mixing, bench: Bench, sands: Iterable[Ratio]) -> tuple[Rung, ...]:
    """One rung for each share of sand at the mix's density."""
    return _rungs(mix, mixing, bench, [(mix.value("cast_density"), sand) for sand in sands])


def _rungs(mix: Kind, mixing: Mixing, bench: Bench, wanted: list[tuple[float, float]]) -> tuple[Rung, ...]:
    found = []
    for cast, sand in wanted:
        try:
            found.append(_rung(mix, mixing, bench, _made_so(mix, cast, sand)))
        except (OutOfRangeError, NotFoundError):
            continue
    return tuple(found)


def _made_so(mix: Kind, cast: KgPerCubicMeter, sand: Ratio) -> Kind:
    if math.isclose(cast, mix.value("cast_density")) and math.isclose(sand, mix.value("sand_cement")):
        return mix
    figures = {name: figure for name, figure in mix.figures.items() if name != "strength"}
    figures["cast_density"] = _derived(mix.figure("cast_density"), cast)
    figures["sand_cement"] = _derived(mix.figure("sand_cement"), sand)
    uses = mix.words["uses"]
    assert isinstance(uses, dict)
    return replace(mix, figures=figures, words={**mix.words, "uses": {"sand": "sand", **uses}})


def _derived(of: Figure, value: float) -> Figure:
    return replace(of, value=value, printed="")


def _rung(mix: Kind, mixing: Mixing, bench: Bench, changed: Kind) -> Rung:
    recipe, dry = foamed_recipe(changed)
    _, beside = foamed_recipe(mix)
    per = recipe.result
    assert isinstance(per, foam.FoamedMix)
    how = _hardened(changed, dry, beside, bench)
    dried, why = drying(bench, now_known(bench.known, how))
    goes_in = _per_volume(changed, per, mixing)
    volume, area, whole = bench.amounts(goes_in, 1.0)
    cast = changed.value("cast_density")
    return Rung(
        parts=f"{cast:.0f} kg/m³ 1:{changed.value('sand_cement'):g}", sand=changed.value("sand_cement"),
        mix=changed, water_cement=changed.value("water_cement"), density=cast, filled=None,
        hardens=bands(how, bench.known), drying=dried, per_volume=volume, per_area=area, whole=whole,
        outside=outside(sand_range(mix), cast), richer_than_under="", leaner_than_over="",
        missing=tuple(filter(None, (*how.missing, why))),
    )  # fmt: skip


def _per_volume(mix: Kind, per: foam.FoamedMix, mixing: Mixing) -> PerVolume:
    """The foam's own water counts as water."""
    sand = dict(parts_of(mix)).get("sand")
    moisture = 0.0 if sand is None else moisture_of(sand, mixing.sand_bulking)
    free = 0.0 if sand is None else per.sand * (moisture - sand.value("absorption"))
    masses = {"cement": per.cement, **({"sand": per.sand} if per.sand > 0 else {})}
    return PerVolume(mix=mix, masses=masses, water=per.water + per.foam_mass, sand_water=free, damp=per.sand * moisture)


def _hardened(changed: Kind, dry: Step, beside: Step, bench: Bench) -> Hardened:
    missing: list[str] = []
    strength: Band | None = None
    steps: tuple[Step, ...] = ()
    try:
        found = strength_at(changed, DAYS_28, bench.lessons)
        strength, steps = Band(found.mean, found.low, found.high, PASCAL), found.steps
    except (NotFoundError, OutOfRangeError) as limit:
        missing.append(f"strength: {limit}")
    stiffer, shrinks = (_by_density(name, dry.number, beside.number, missing) for name in ("modulus", "shrinkage"))
    return Hardened(
        strength=strength, stiffer=stiffer, stronger=stiffer, shrinks=shrinks, relaxation=bench.known.relaxation,
        missing=tuple(missing), steps=(dry, *steps),
    )  # fmt: skip


def _by_density(name: str, dry: KgPerCubicMeter, beside: KgPerCubicMeter, missing: list[str]) -> Band | None:
    """A figure beside the present mix's, by the table of dry densities; its strain capacity stays: tension follows."""
    try:
        low, high = (grid(f"{name}-{end}", of="foamed") for end in ("low", "high"))
        now, then = (low.at(place) + high.at(place) for place in (dry, beside))
        spread = (high.at(dry) - low.at(dry)) / now
        times = now / then
        return Band(times, times * (1 - spread), times * (1 + spread), RATIO)
    except OutOfRangeError:
        where = f"the table goes from 400 to 1600 {KG_PER_CUBIC_METER.symbol} dry, this is {dry:.0f}"
        missing.append(f"{'stiffness' if name == 'modulus' else name}: {where}")
        return None
