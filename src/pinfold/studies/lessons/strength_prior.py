"""How strong a mix is before anything was crushed: by the law of its family, with how unsure that is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import strength_age, strength_mix
from pinfold.sources import Standing, weakest
from pinfold.studies.batching.foamed import foamed_recipe
from pinfold.studies.batching.loose import parts_of, water_density
from pinfold.tables.concrete import grid
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import Pascal, Ratio, Second

DAY: Second = 86400.0
DAYS_28: Second = 28 * DAY
_WEEK: Second = 7 * DAY
_ENTRAINED: Ratio = 0.04
"""From so much air on the air was stirred in on purpose; less is trapped."""
_USUAL_AIR: Ratio = 0.06


@dataclass(frozen=True, kw_only=True)
class StrengthPrior:
    """How strong a mix is before anything was crushed.

    Attributes:
        family: kind of shelf `strengths` that it is judged by.
        strength: at 28 days, of the family's body; as many mixes lie above as below.
        curve: kind of shelf `strength_ages` that it grows by.
        standing: the weakest of all that went in.
        says: by which law, in plain words.
        working: lines of working.
        figures: that went in.
    """

    family: Kind
    strength: Pascal
    curve: Kind
    standing: Standing
    says: str
    working: tuple[Step, ...]
    figures: tuple[tuple[str, Figure], ...]

    @property
    def spreads(self) -> tuple[tuple[str, Figure], ...]:
        """All of them as figures."""
        names = ("family", "mix", "age", "batch", "within")
        return tuple((f"{name} spread", self.family.figure(f"{name}_spread")) for name in names)

    def spread(self, name: str) -> Ratio:
        """One of the family's spreads: family, mix, age, batch, within."""
        return self.family.value(f"{name}_spread")


@dataclass(frozen=True, kw_only=True)
class _Judged:
    strength: Pascal
    says: str
    working: tuple[Step, ...]
    figures: tuple[tuple[str, Figure], ...]
    standing: Standing = Standing.DERIVED


@lru_cache(maxsize=512)
def prior_strength(mix: Kind) -> StrengthPrior:
    """How strong a mix is by what is in it.

    Args:
        mix: of shelf `mixes`

    Raises:
        NotFoundError: nothing is known of such a mix, or a figure of it is missing.
        OutOfRangeError: the mix lies where no law speaks.
    """
    family = strength_family(mix)
    asked = family.word("law") == "water-cement"  # of concrete a strength is what it was asked for, below its mean
    judged = _printed(mix) if mix.has("strength") and not asked else _LAWS[family.word("law")](mix, family)
    standings = (judged.standing, *(figure.standing for _, figure in judged.figures))
    return StrengthPrior(
        family=family, strength=judged.strength, curve=kind("strength_ages", family.word("curve")),
        standing=weakest(standings), says=judged.says, working=judged.working, figures=judged.figures,
    )  # fmt: skip


def strength_family(mix: Kind) -> Kind:
    """The kind of shelf `strengths` that a mix is judged by: its family, or what its binder makes of it.

    Raises:
        NotFoundError: there is none.
    """
    parts = dict(parts_of(mix))
    binder = "cement" if "cement" in parts else parts["lime"].name if "lime" in parts else ""
    family, name = mix.word("family"), ""
    if family in ("earth", "adobe"):
        name = "stabilized-earth" if binder == "cement" else family
    elif family == "wash":
        name = ""  # a film carries nothing
    elif binder == "hydraulic-lime":
        name = binder
    elif binder in ("lime-putty", "hydrated-lime"):
        name = "lime"
    elif binder == "cement":
        name = family if family in shelf("strengths") else "concrete" if "gravel" in parts else "mortar"
    found = shelf("strengths").get(name)
    if found is None:
        raise NotFoundError(f"no strength is known for {mix.name}: {mix.says}")
    return found


def aged(curve: Kind, strength: Pascal, ages: tuple[Second, Second]) -> tuple[Step, ...]:
    """A strength known at the first of two ages, told at the second: lines of working, the last gives it."""
    known, asked = (
        work(
            strength_age.share_by_aci209, why=f"share of it after {age / DAY:.3g} days", age=age,
            pace=curve.value("pace"), slope=curve.value("slope"),
        )
        for age in ages
    )  # fmt: skip
    found = work(
        strength_age.strength_at_other_age, why=f"after {ages[1] / DAY:.3g} days", strength=strength,
        known_share=known.number, share=asked.number,
    )  # fmt: skip
    return known, asked, found


def growth_of(steps: tuple[Step, ...]) -> float:
    """Logarithm of the share at the second age over that at the first, out of the lines of `aged`."""
    return math.log(steps[1].number / steps[0].number)


def water_cement_of(mix: Kind) -> Ratio:
    """Water over cement by mass.

    Raises:
        NotFoundError: the mix says neither.
    """
    if mix.has("water_mass") and mix.has("cement_mass"):
        return mix.value("water_mass") / mix.value("cement_mass")
    return mix.value("water_cement")


def _printed(mix: Kind) -> _Judged:
    figure = mix.figure("strength")
    if figure.standing is Standing.LEARNED:  # what tests left of it is no start for the same tests
        figure = kind(mix.shelf, mix.name).figure("strength")
    return _Judged(
        strength=figure.value, says="the strength its type is known by", working=(), figures=(("strength", figure),)
    )


def _by_water(mix: Kind, family: Kind) -> _Judged:
    if family.name == "concrete" and "gravel" not in dict(parts_of(mix)):
        return _by_paste(mix, family)
    ratio = water_cement_of(mix)
    entrained = mix.has("air") and mix.value("air") >= _ENTRAINED
    table = grid("ratio-entrained" if entrained else "ratio-plain")
    if table.rows[0][-1] <= ratio <= table.rows[0][0]:
        step = work(
            strength_mix.strength_by_aci211, why="at 28 days by its water", water_cement=ratio,
            air="entrained" if entrained else "plain",
        )  # fmt: skip
        says = "by its water over cement, the table of ACI 211"
        return _Judged(
            strength=step.number, says=says, working=(step,), figures=_mix_figures(mix), standing=table.standing
        )
    law = kind("strengths", "abrams")
    step = work(
        strength_mix.strength_by_abrams, why="at 28 days by its water", water_cement=ratio, base=law.value("base"),
        divisor=law.value("divisor"),
    )  # fmt: skip
    says = "by its water over cement, a curve through the table of ACI 211 drawn on past its ends"
    return _Judged(
        strength=step.number, says=says, working=(step,), figures=(*_mix_figures(mix), *law.figures.items()),
        standing=Standing.PRACTICE,
    )  # fmt: skip


def _mix_figures(mix: Kind) -> tuple[tuple[str, Figure], ...]:
    names = ("water_cement", "water_mass", "cement_mass")
    return tuple((name.replace("_", " "), mix.figure(name)) for name in names if mix.has(name))


def _by_paste(mix: Kind, family: Kind) -> _Judged:
    law, volumes = kind("strengths", "feret"), _absolute(mix)
    air = mix.value("air") if mix.has("air") else _USUAL_AIR
    whole = math.fsum(volumes.values()) / (1 - air)
    step = work(
        strength_mix.strength_by_feret, why="at 28 days by its paste", cement=volumes["cement"],
        water=volumes["water"], air=air * whole, full=law.value("full"), exponent=law.value("exponent"),
    )  # fmt: skip
    return _Judged(
        strength=step.number, says="by the share of cement in its paste, a curve through the four types of mortar",
        working=(step,), figures=(*_mix_figures(mix), *law.figures.items()),
    )  # fmt: skip


def _absolute(mix: Kind) -> dict[str, float]:
    """Absolute volumes of the parts and of the water, for one cubic meter of loose cement or of mix."""
    massed = mix.has("cement_mass")
    masses = {
        part: mix.value(f"{part}_mass") if massed else mix.value(part) * material.value("bulk_density")
        for part, material in parts_of(mix)
    }
    volumes = {part: masses[part] / material.value("particle_density") for part, material in parts_of(mix)}
    return {**volumes, "water": water_cement_of(mix) * masses["cement"] / water_density()}


def _by_density(mix: Kind, family: Kind) -> _Judged:
    recipe, dry = foamed_recipe(mix)
    return _of_dry_density(dry.number, (recipe, dry), tuple(mix.figures.items()))


def _of_dry_density(density: float, before: tuple[Step, ...], figures: tuple[tuple[str, Figure], ...]) -> _Judged:
    low, high = (
        work(strength_mix.strength_by_dry_density, why=f"at 7 days by its dry density, {end} end",
             dry_density=density, end=end)
        for end in ("low", "high")
    )  # fmt: skip
    *shares, found = aged(kind("strength_ages", "moist-I"), math.sqrt(low.number * high.number), (_WEEK, DAYS_28))
    return _Judged(
        strength=found.number, says="a value to start from, by its dry density", standing=Standing.MEMORY,
        working=(*before, low, high, *shares, found), figures=figures,
    )  # fmt: skip


def foamed_strength(density: float) -> Pascal:
    """Strength of foamed concrete at 28 days by its dry density, as the family is judged.

    Raises:
        OutOfRangeError: the table does not go there.
    """
    return _of_dry_density(density, (), ()).strength


def kearsley_strength(mix: Kind, age: Second) -> Step:
    """What the rival law says of a foamed mix, by its porosity.

    Raises:
        NotFoundError, OutOfRangeError: as its figures and the law tell.
    """
    _, dry = foamed_recipe(mix)
    solid = kind("strengths", "foamed").value("solid_density")
    pores = work(strength_mix.porosity, dry_density=dry.number, solid_density=solid)
    return work(
        strength_mix.strength_by_kearsley, why="by another law, of porosity", age=age, porosity=pores.number
    )  # fmt: skip


def _by_cement(mix: Kind, family: Kind) -> _Judged:
    parts = parts_of(mix)
    mass = {
        part: mix.value(f"{part}_mass") if mix.has(f"{part}_mass") else mix.value(part) * each.value("bulk_density")
        for part, each in parts
    }
    step = work(
        strength_mix.strength_by_cement_share, why="at 28 days by its cement",
        share=mass["cement"] / math.fsum(mass.values()), usual=family.value("strength"),
        usual_share=family.value("cement_share"),
    )  # fmt: skip
    return _Judged(
        strength=step.number, says="in proportion to its cement", working=(step,), standing=Standing.PRACTICE,
        figures=tuple((name, family.figure(name)) for name in ("strength", "cement_share")),
    )  # fmt: skip


def _by_figure(mix: Kind, family: Kind) -> _Judged:
    figure = family.figure("strength")
    return _Judged(strength=figure.value, says=f"the usual strength of {family.says}", working=(),
                   figures=(("strength", figure),))  # fmt: skip


_LAWS = {
    "water-cement": _by_water, "paste": _by_paste, "foamed": _by_density, "cement-share": _by_cement,
    "figure": _by_figure,
}  # fmt: skip
