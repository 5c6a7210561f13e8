"""A ladder of mixes from rich to lean: each with how it hardens, what drying pulls in it, and what it takes."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.formulas import plaster
from pinfold.plan.buildups import Coat
from pinfold.plan.stock import Prices
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.richness.amounts import PerVolume
from pinfold.studies.richness.base import Base, Recipe
from pinfold.studies.richness.hardened import (
    MODULUS_SPREAD,
    SHRINKAGE_SPREAD,
    TENSION_SPREAD,
    Hardened,
    Known,
    banded,
    hardened,
)
from pinfold.studies.richness.places import Place, beside
from pinfold.studies.richness.pulls import Held
from pinfold.studies.richness.ranges import binders, outside, sand_range
from pinfold.studies.richness.records import Amounts, Band, Drying, Hardening, Rung
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CubicMeter, Ratio


@dataclass(frozen=True, kw_only=True)
class Bench:
    """All that a rung is worked out from.

    Attributes:
        place: where the mix goes.
        held: in its place; None where nothing holds it that is known.
        prices: of the plan, as the log teaches them.
        lessons: of the site.
        unheld: why nothing is said of its drying; empty where it is.
    """

    place: Place
    held: Held | None
    prices: Prices
    lessons: Lessons | None
    unheld: str = ""

    @property
    def known(self) -> Known:
        """What is known of the present mix there."""
        return self.held.known if self.held is not None else Known()

    def amounts(self, per: PerVolume, makes: CubicMeter) -> tuple[Amounts, Amounts | None, Amounts | None]:
        """For a cubic meter, a square meter, and all the plan needs; `per` is for so much."""
        scaled = per.for_volume(1 / makes, self.prices)
        face, thick = self.place.face, self.place.thickness
        area = None
        if face is not None and thick is not None:
            waste = face.value("waste") if face.has("waste") else 0.0
            area = per.for_volume(plaster.coat_volume(area=1.0, thickness=thick, waste=waste) / makes, self.prices)
        whole = per.for_volume(self.place.gross / makes, self.prices) if self.place.gross > 0 else None
        return scaled, area, whole


def rungs_by_sand(base: Base, bench: Bench, sands: Iterable[Ratio]) -> tuple[Rung, ...]:
    """One rung for each share of sand; what cannot be mixed has none."""
    found = []
    for sand in sands:
        recipe = base.present if math.isclose(sand, base.sand) else _tried(base, sand)
        if recipe is not None:
            found.append(_rung(base, bench, sand, recipe))
    return tuple(found)


def _tried(base: Base, sand: Ratio) -> Recipe | None:
    try:
        return base.at(sand)
    except OutOfRangeError:
        return None


def _rung(base: Base, bench: Bench, sand: Ratio, recipe: Recipe) -> Rung:
    how = hardened(recipe, base.present, mix=base.mix, known=bench.known, lessons=bench.lessons)
    now = now_known(bench.known, how)
    dried, why = drying(bench, now)
    volume, area, whole = bench.amounts(per_volume(recipe), recipe.volume)
    per_binder = 1.0 if base.is_concrete else binders(base.mix)
    return Rung(
        parts=parts_text(base, sand), sand=sand, mix=base.mix if recipe is base.present else recipe.mix,
        water_cement=recipe.water_cement, density=recipe.density, filled=recipe.filled,
        hardens=bands(how, bench.known), drying=dried, per_volume=volume, per_area=area, whole=whole,
        outside=outside(sand_range(base.mix), sand / per_binder),
        richer_than_under=_richer_than_under(bench.place, recipe.mix),
        leaner_than_over=_leaner_than_over(bench.place, recipe.mix),
        missing=tuple(filter(None, (*how.missing, why))),
    )  # fmt: skip


def bands(how: Hardened, known: Known) -> Hardening:
    """What follows from what is known, and what is told beside the present mix."""
    return Hardening(
        strength=how.strength, modulus=banded(how.stiffer, known.modulus, MODULUS_SPREAD.value),
        tension=banded(how.stronger, known.tension, TENSION_SPREAD.value),
        shrinkage=banded(how.shrinks, known.shrinkage, SHRINKAGE_SPREAD.value),
        stiffer=how.stiffer, shrinks=how.shrinks,
    )  # fmt: skip


def now_known(known: Known, how: Hardened) -> Known:
    """The figures a mix would have in its place."""

    def times(value: float | None, band: Band | None) -> float | None:
        return None if value is None or band is None else value * band.value

    return Known(
        modulus=times(known.modulus, how.stiffer), tension=times(known.tension, how.stronger),
        shrinkage=times(known.shrinkage, how.shrinks), relaxation=how.relaxation,
    )  # fmt: skip


def drying(bench: Bench, now: Known) -> tuple[Drying | None, str]:
    """What drying does; or why that is not shown."""
    if bench.held is None:
        return None, bench.unheld
    if now.modulus is None or now.tension is None or now.shrinkage is None:
        return None, "cracks: without its stiffness, tension and shrinkage nothing is said of them"
    try:
        pulled = bench.held.pulled(now)
        return Drying(pull=pulled.pull, used=pulled.pull / now.tension, opens=pulled.opens, chance=pulled.chance), ""
    except (NotFoundError, OutOfRangeError) as limit:
        return None, f"cracks: {limit}"


def per_volume(recipe: Recipe) -> PerVolume:
    """What goes into it."""
    return PerVolume(
        mix=recipe.mix, masses=recipe.masses, water=recipe.water, sand_water=recipe.sand_water, damp=recipe.damp
    )


def _richer_than_under(place: Place, mix: Kind) -> str:
    under = beside(place, under=True)
    return under.kind.name if under is not None and _richness(mix) > _of_coat(under) + _SLACK else ""


def _leaner_than_over(place: Place, mix: Kind) -> str:
    over = beside(place, under=False)
    return over.kind.name if over is not None and _richness(mix) < _of_coat(over) - _SLACK else ""


_SLACK = 1e-9


def _of_coat(coat: Coat) -> Ratio:
    return _richness(kind("mixes", coat.kind.word("mix")))


def _richness(mix: Kind) -> Ratio:
    """Share of cement in all the loose parts; 0 without cement."""
    cement, lime, sand = (mix.value(part) if mix.has(part) else 0.0 for part in ("cement", "lime", "sand"))
    return plaster.richness(cement=cement, lime=lime, sand=sand)


def parts_text(base: Base, sand: Ratio) -> str:
    """`1:1/4:4`; in concrete sand and stone apart."""
    mix, times = base.mix, sand / base.sand
    one = mix.value("cement")
    values = [1.0]
    if mix.has("lime"):
        values.append(mix.value("lime") / one)
    values.append(mix.value("sand") / one * times)
    if base.is_concrete:
        values.append(mix.value("gravel") / one * times)
    return ":".join(_part(value) for value in values)


def _part(value: float) -> str:
    """In quarters where it is near one, else a decimal."""
    quarters = round(value * 4)
    if abs(quarters / 4 - value) > 0.02 or not quarters:
        return f"{value:.2g}"
    whole, rest = divmod(Fraction(quarters, 4), 1)
    return "-".join(filter(None, (str(whole) if whole or not rest else "", str(rest) if rest else "")))
