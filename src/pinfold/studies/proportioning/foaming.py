"""Foamed concrete by absolute volumes, from the density wanted as cast or once dry."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pinfold.errors import InputError, InvalidPlan, OutOfRangeError
from pinfold.figures import Figure, given
from pinfold.findings import Step, work
from pinfold.formulas import foam
from pinfold.studies.batching.foamed import BOUND_WATER
from pinfold.studies.batching.loose import water_density
from pinfold.studies.proportioning.foaming_telling import departures_of, froth_of, notes_of, rivals_of
from pinfold.studies.proportioning.records import Ask, Family, Proportioned, Wish
from pinfold.studies.proportioning.telling import heavy
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER_PER_SECOND, KG_PER_CUBIC_METER, RATIO, KgPerCubicMeter, Ratio

_ASKS = (
    Ask(key="cast", says="density as cast, by a weighed pail", unit=KG_PER_CUBIC_METER, otherwise="800 kg/m3",
        low=10.0, high=3000.0, example="50 lb/ft3 or 800 kg/m3"),
    Ask(key="dry", says="density once dry, instead of that as cast", unit=KG_PER_CUBIC_METER, low=10.0, high=3000.0,
        example="39 lb/ft3 or 620 kg/m3"),
    Ask(key="water_cement", says="water over cement by weight, the foam's own apart", unit=RATIO, otherwise="0.5",
        low=0.3, high=1.25, example="0.5"),
    Ask(key="sand_cement", says="sand over cement by weight; none below 1000 kg/m3, as much as cement from there on",
        unit=RATIO, low=0.0, high=5.0, example="1"),
    Ask(key="foam_density", says="what the foam weighs: a level pail of it less the pail", unit=KG_PER_CUBIC_METER,
        otherwise="40 kg/m3", low=10.0, high=200.0, example="2.5 lb/ft3 or 40 kg/m3"),
    Ask(key="foam_loss", says="share of the foam that collapses when it is folded in", unit=RATIO, otherwise="5 %",
        low=0.0, high=0.6, example="5 %"),
    Ask(key="foam_flow", says="foam that the generator gives", unit=CUBIC_METER_PER_SECOND, low=1e-6, high=0.1,
        example="90 L/min"),
    Ask(key="dilution", says="foaming agent in the liquid of the foam; the label says it", unit=RATIO, low=0.0005,
        high=0.5, example="2.5 %"),
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class FoamBrief:
    """What is to be made.

    Attributes:
        cast: density as cast.
        water_cement: foam's own water apart.
        sand_cement: 0 for none.
        foam_density: of the foam.
        foam_loss: share of it that collapses.
        grains: densities of water, cement and sand, as the formulas take them.
        working: lines that led to the density to cast.
    """

    cast: KgPerCubicMeter
    water_cement: Ratio
    sand_cement: Ratio
    foam_density: KgPerCubicMeter
    foam_loss: Ratio
    grains: dict[str, float]
    working: tuple[Step, ...]


def propose(wish: Wish) -> Proportioned:
    """A foamed concrete for a wish.

    Raises:
        InvalidPlan: a density that no foam can give, or two of them at once.
    """
    brief = _brief(wish)
    mix = _mix(wish, brief)
    recipe = work(
        foam.foamed_mix, why="what goes into a cubic meter", cast=brief.cast, foam=brief.foam_density,
        water_cement=brief.water_cement, sand_cement=brief.sand_cement, **brief.grains,
    )  # fmt: skip
    per = recipe.result
    assert isinstance(per, foam.FoamedMix)
    froth, steps = froth_of(wish, mix)
    return Proportioned(
        mix=mix,
        method="absolute volumes: what cement, sand and water leave free is foam",
        working=(*brief.working, *steps),
        departures=departures_of(brief.cast, brief.water_cement, brief.sand_cement, per.foam),
        rivals=rivals_of(brief.cast, per),
        notes=(*notes_of(wish, per), *froth),
    )


def _brief(wish: Wish) -> FoamBrief:
    if {"cast", "dry"} <= wish.told:
        raise _refused("give the density as cast or once dry, not both", "dry")
    cement, sand = wish.material("portland-cement"), wish.material("sand")
    grains = {
        "water_density": water_density(), "cement_density": cement.value("particle_density"),
        "sand_density": sand.value("particle_density"),
    }  # fmt: skip
    water, froth = wish.number("water_cement"), wish.number("foam_density")
    ratio = _sand(wish)
    steps: tuple[Step, ...] = ()
    cast = wish.number("cast")
    if "dry" in wish.told:
        steps = (_cast(wish, grains, ratio),)
        cast = steps[0].number
    _possible(cast, froth, foam.slurry_density(water_cement=water, sand_cement=ratio, **grains))
    return FoamBrief(
        cast=cast, water_cement=water, sand_cement=ratio, foam_density=froth, foam_loss=wish.number("foam_loss"),
        grains=grains, working=steps,
    )  # fmt: skip


def _sand(wish: Wish) -> Ratio:
    """As told, else none for light mixes and as much as cement for heavy ones."""
    told = wish.perhaps("sand_cement")
    if told is not None:
        return told
    wanted = wish.number("dry") if "dry" in wish.told else wish.number("cast")
    usual = kind("mixes", "foamed-1000" if wanted >= sand_from() else "foamed-800")
    return usual.value("sand_cement")


def sand_from() -> KgPerCubicMeter:
    """Density as cast from which sand usually goes in."""
    return kind("mixes", "foamed-1000").value("cast_density")


def _cast(wish: Wish, grains: dict[str, float], ratio: Ratio) -> Step:
    try:
        return work(
            foam.cast_for_dry, why="density to cast for it", dry=wish.number("dry"), foam=wish.number("foam_density"),
            water_cement=wish.number("water_cement"), sand_cement=ratio, bound_water=BOUND_WATER.value, **grains,
        )  # fmt: skip
    except OutOfRangeError:
        raise _refused(
            f"{heavy(wish.number('dry'))} once dry leaves no room for foam at these proportions. Ask "
            "for a lighter one, or for more sand", "dry",
        ) from None  # fmt: skip


def _possible(cast: KgPerCubicMeter, froth: KgPerCubicMeter, slurry: KgPerCubicMeter) -> None:
    if not froth < cast < slurry:
        low, high = (heavy(value) for value in (froth, slurry))
        raise _refused(
            f"{heavy(cast)} as cast is wanted; at these proportions it weighs from above {low}, foam "
            f"alone, to below {high}, without any foam. Ask for one between", "cast",
        )  # fmt: skip


def _refused(says: str, place: str) -> InvalidPlan:
    return InvalidPlan("the wish for foamed", [InputError(says, place=place)])


def _mix(wish: Wish, brief: FoamBrief) -> Kind:
    usual = kind("mixes", "foamed-1000" if brief.sand_cement else "foamed-800")
    sandy = f", 1 cement : {brief.sand_cement:g} sand by mass" if brief.sand_cement else ", no sand"
    uses = {"cement": wish.material("portland-cement")} | (
        {"sand": wish.material("sand")} if brief.sand_cement else {}
    )  # fmt: skip
    figures = {
        key: _figure(usual.figure(key), getattr(brief, key), told=key in wish.told)
        for key in ("water_cement", "sand_cement", "foam_density", "foam_loss")
    }
    figures["cast_density"] = given(brief.cast, KG_PER_CUBIC_METER)
    says = f"foamed concrete cast at {heavy(brief.cast)}{sandy}"
    return replace(
        usual, name="foamed", figures=figures, words={**usual.words, "uses": uses, "says": says}
    )  # fmt: skip


def _figure(usual: Figure, value: float, *, told: bool) -> Figure:
    return given(value, usual.unit) if told else replace(usual, value=value)


FAMILY = Family(name="foamed", says="light walls and fills", asks=_ASKS, propose=propose)
