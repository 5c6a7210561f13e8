"""Findings on the coats of a stretch just above the ground: pulled, sheared off, and the core between them sheared."""

from __future__ import annotations

from functools import cache, lru_cache, partial
from typing import NamedTuple

from pinfold.findings import Finding, Step, keeps_to
from pinfold.plan.buildups import Wall
from pinfold.plan.place import Family
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.beds import bar_of, crossing_bars
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import MATERIAL_FACTOR, Named
from pinfold.studies.stability.skins.coated import Coated, stack_with_all
from pinfold.studies.stability.skins.holding import core_shear_allowed, cracked, meshed
from pinfold.studies.stability.skins.layers import Stack
from pinfold.studies.stability.skins.moments import skin_crack
from pinfold.studies.stability.skins.shears import bond_allowed, core_shear, end_shear, face_shear
from pinfold.studies.stability.skins.strengths import core_tension, dried, left_after_drying
from pinfold.units import NEWTON_METER_PER_METER, PASCAL, NewtonMeterPerMeter

FOOT = "the coats end at the ground: across the joint on the footing they help nothing"
LEFT_OUT = (
    "the weight off the middle where the two faces are coated unlike; damp and frost in the coats; joints between the "
    "core's own units"
)


def skin_findings(ask: Exposed) -> tuple[Finding, ...]:
    """Three findings on the coats of a stretch, each for its worst step; nothing without wall or coat."""
    if not has_wall(ask.stretch) or not ask.stretch.buildup.coats:
        return ()
    walls = cache(lambda: tuple(Coated(case=case) for case in ask.cases))
    return tuple(
        answered(
            Question(check=check, subject=f"stretch {ask.stretch.name}", left_out=LEFT_OUT),
            lambda find=find: governing(tried(partial(find, wall)) for wall in walls()),  # type: ignore[misc]
        )
        for check, find in (("skin tension", _tension), ("skin bond", _bond), ("core shear", _shear))
    )


def _tension(wall: Coated) -> Finding:
    """Whether the coats stay whole in the wind, or else the wall holds without them, whichever is more."""
    stack = stack_with_all(wall.case.piece.buildup)
    whole, step = skin_crack(wall.loaded(stack), partial(left_after_drying, stack))
    drying = tuple(dried(stack, layer) for layer in stack.layers if layer.kind.has("relaxation"))
    without = _without(wall)
    capacity = max(whole.moment, without.moment)
    return Finding(
        check="skin tension", subject="", demand=wall.moment, capacity=capacity, unit=NEWTON_METER_PER_METER,
        because=told(*_why(wall, whole.moment, without, spent=dict(step.inputs)["strength"] == 0), FOOT),
        working=(*_acts(wall), *stack.working, *drying, step, *without.working),
        figures=(*_figures(wall, stack, "tension", "shrinkage"), *without.figures, *wall.case.acting.figures),
        mend="" if keeps_to(wall.moment, capacity) else _STRONGER,
    )  # fmt: skip


class _Without(NamedTuple):
    """What a wall holds whose coats are cracked, and by what; the working where bars hold it."""

    moment: NewtonMeterPerMeter
    governs: str
    working: tuple[Step, ...] = ()
    figures: Named = ()


def _without(wall: Coated) -> _Without:
    """By its mesh, its core, its weight or the bars out of the footing, whichever holds more."""
    planned = any(coat.mesh is not None for coat in wall.case.piece.buildup.coats)
    best = _Without(*(meshed(wall)[0].holds if planned else cracked(wall).holds))
    return max(best, _by_bars(wall), key=lambda each: each.moment)


def _by_bars(wall: Coated) -> _Without:
    """By the bars that cross its lowest bed, brought from working stress to where the wind has its factor."""
    piece, factors = wall.case.piece, wall.case.acting.factors
    if crossing_bars(piece) is None or piece.wall.bar_spacing is None:
        return _Without(0.0, "")
    bar, share = bar_of(piece.wall), factors.strength.value / factors.service.value
    return _Without(share * bar.moment / piece.wall.bar_spacing, "bars", bar.working, bar.figures)


def _why(wall: Coated, whole: NewtonMeterPerMeter, without: _Without, *, spent: bool) -> tuple[str, ...]:
    """What the verdict rests on."""
    by = BY.get(without.governs, without.governs)
    if keeps_to(wall.moment, whole):
        also = f"cracked, it would hold more, by its {by}" if without.moment > whole else ""
        return "the coats stay whole in the wind", also
    return _SPENT if spent else "the wind cracks the coats", f"the wall has to hold by its {by}"


_STRONGER = "mesh bedded in the coats of both faces, or a thicker core"
_SPENT = "their own drying uses up what the coats can be pulled: they count as cracked"
BY = {"core": "core alone", "weight alone": "weight alone", "mesh": "mesh", "pressed edge": "pressed edge"}


def _bond(wall: Coated) -> Finding:
    """Whether the coats stay on, in the wind and at their ends as they dry."""
    stack = stack_with_all(wall.case.piece.buildup)
    blown, (end, bond) = face_shear(stack, wall.shear), end_shear(stack)
    allowed = bond_allowed(stack)
    drying_governs = end.number * allowed > blown.number * bond
    demand, capacity = (end.number, bond) if drying_governs else (blown.number, allowed)
    because = "at the ends of the coats, as they dry" if drying_governs else "between skin and core, in the wind"
    return Finding(
        check="skin bond", subject="", demand=demand, capacity=capacity, unit=PASCAL, because=because,
        working=(*_acts(wall), *stack.working, blown, end),
        figures=(*_figures(wall, stack, "bond", "shrinkage"), *wall.case.acting.figures),
        mend="" if keeps_to(demand, capacity) else _LOOSE,
    )  # fmt: skip


_LOOSE = "a rough key or a bond coat, a softer mix, damp curing, and mesh over the ends of the coats"


def _shear(wall: Coated) -> Finding:
    """Whether the core carries the shear between its skins."""
    stack = stack_with_all(wall.case.piece.buildup)
    found, allowed = core_shear(stack, wall.shear), core_shear_allowed(wall)
    shear = wall.case.piece.wall.kind.figure("shear")
    return Finding(
        check="core shear", subject="", demand=found.number, capacity=allowed, unit=PASCAL,
        because="no weight counted in favor", working=(*_acts(wall), *stack.working, found),
        figures=(("shear of the core", shear), ("part of its strength", MATERIAL_FACTOR), *wall.case.acting.figures),
        mend="" if keeps_to(found.number, allowed) else "a thicker or stronger core",
    )  # fmt: skip


def _acts(wall: Coated) -> tuple[Step, ...]:
    return (*wall.case.acting.working, *wall.turned.working)


def _figures(wall: Coated, stack: Stack, *names: str) -> Named:
    """The figures of the coats and the core."""
    return _named(wall.case.of.family, wall.case.piece.wall, stack, names)


@lru_cache(maxsize=256)  # asked for every step of every stretch
def _named(family: Family, wall: Wall, stack: Stack, names: tuple[str, ...]) -> Named:
    kinds = {layer.kind.name: layer.kind for layer in stack.layers if layer.kind.has("relaxation")}
    _, core, _ = core_tension(family, wall)
    modulus = ("modulus of the core", wall.kind.figure("modulus"))
    coats = tuple((f"{name} of {kind}", each.figure(name)) for kind, each in kinds.items() for name in names)
    return (*core, modulus, *coats, ("part of their strength", MATERIAL_FACTOR))
