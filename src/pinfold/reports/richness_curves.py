"""A ladder of mixes as curves: strength, shrinkage, drying or stiffness, cost or cement."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.reports.richness_chart import Along, Curve
from pinfold.reports.richness_units import BULK, FACE, MASS, STRENGTH
from pinfold.studies.richness.records import Band, Richness
from pinfold.units import UNIT_BY_SYMBOL, System


def curves_of(found: Richness, system: System) -> tuple[tuple[Curve, ...], Along]:
    """The picture of the ladder."""
    rungs = found.rungs
    foamed = found.mix.word("family") == "foamed"
    places = tuple(rung.density if foamed else rung.sand for rung in rungs)
    published = None
    if found.published is not None:
        per = 1.0 if foamed or found.mix.has("gravel") else 1 + _lime(found)
        published = (found.published.low * per, found.published.high * per)
    along = Along(
        places=places, labels=tuple(_label(place, foamed=foamed) for place in places), title=_axis(found),
        present=found.present, cheapest=found.cheapest, published=published,
    )  # fmt: skip
    return (_strengths(found, system), _shrinkages(found), _asks(found), _costs(found, system)), along


def _lime(found: Richness) -> float:
    return found.mix.value("lime") / found.mix.value("cement") if found.mix.has("lime") else 0.0


def _label(place: float, *, foamed: bool) -> str:
    return f"{place:.0f}" if foamed else f"{place:.3g}"


def _axis(found: Richness) -> str:
    if found.mix.word("family") == "foamed":
        return "density as cast, kg/m³"
    return f"parts of {'sand and stone' if found.mix.has('gravel') else 'sand'} to one of cement"


def _curve(title: str, bands: Sequence[Band | None], factor: float) -> Curve:
    return Curve(
        title=title, values=tuple(None if band is None else band.value / factor for band in bands),
        lows=tuple(None if band is None else band.low / factor for band in bands),
        highs=tuple(None if band is None else band.high / factor for band in bands),
    )  # fmt: skip


def _strengths(found: Richness, system: System) -> Curve:
    symbol = STRENGTH[system]
    return _curve(
        f"strength at 28 days, {symbol}", [rung.hardens.strength for rung in found.rungs], UNIT_BY_SYMBOL[symbol].factor
    )


def _shrinkages(found: Richness) -> Curve:
    if any(rung.hardens.shrinkage is not None for rung in found.rungs):
        return _curve("shrinks by so many millionths", [rung.hardens.shrinkage for rung in found.rungs], 1e-6)
    return _curve("shrinks, times the present mix", [rung.hardens.shrinks for rung in found.rungs], 1.0)


def _asks(found: Richness) -> Curve:
    values = tuple(None if rung.drying is None else rung.drying.used for rung in found.rungs)
    if any(value is not None for value in values):
        none = tuple(None for _ in values)
        return Curve(
            title="drying pulls, times what it can take", values=values, lows=none, highs=none, level=1.0,
            says="above it cracks",
        )  # fmt: skip
    return _curve("stiffness, times the present mix", [rung.hardens.stiffer for rung in found.rungs], 1.0)


def _costs(found: Richness, system: System) -> Curve:
    faced = found.rungs[0].per_area is not None
    of, times = FACE[system] if faced else BULK[system]
    amounts = [rung.per_area if faced and rung.per_area else rung.per_volume for rung in found.rungs]
    none = tuple(None for _ in amounts)
    if all(each.cost is not None for each in amounts):
        values = tuple((each.cost or 0.0) * times / 10**found.digits for each in amounts)
        return Curve(title=f"cost of {of}, {found.currency}", values=values, lows=none, highs=none)
    mass = UNIT_BY_SYMBOL[MASS[system]].factor
    values = tuple(each.cement * times / mass for each in amounts)
    return Curve(title=f"cement for {of}, {MASS[system]}", values=values, lows=none, highs=none)
