"""Walls as a whole: overturning, sliding, and the pressure on the ground."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import bearing as ground
from pinfold.formulas import walls
from pinfold.sources import Standing
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.cases import Case, Exposed
from pinfold.studies.stability.corners.leaning import leaning_over, pressing_both
from pinfold.studies.stability.corners.parting import Check, Lean, worst_step
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import TAMPED_STONE, Named
from pinfold.studies.stability.height import standing_cautions
from pinfold.studies.stability.left_out import left_out_of
from pinfold.studies.stability.pieces import Piece
from pinfold.studies.stability.piering import PIERS, held_by_pads, pressed_pads
from pinfold.studies.stability.weights import Weight
from pinfold.tables.shelf import Kind
from pinfold.units import (
    NEWTON_METER_PER_METER,
    NEWTON_PER_METER,
    PASCAL,
    Meter,
    NewtonMeterPerMeter,
    NewtonPerMeter,
    Pascal,
    Ratio,
)


def standing(ask: Exposed) -> tuple[Finding, ...]:
    """Overturning, sliding and bearing of one stretch of wall; nothing where no wall stands by itself."""
    if not has_wall(ask.stretch):
        return ()
    return (
        over_steps(ask, "overturning", overturning, lean=leaning_over, caution=standing_cautions(ask.stretch)),
        over_steps(ask, "sliding", sliding),
        over_steps(ask, "bearing", bearing, lean=pressing_both),
    )


def over_steps(ask: Exposed, check: str, find: Check, *, lean: Lean | None = None, caution: str = "") -> Finding:
    """One check over every step of a stretch: the worst step's finding, its corners leaning where told how."""
    question = Question(check=check, subject=f"stretch {ask.stretch.name}", left_out=left_out_of(ask), caution=caution)
    return answered(question, lambda: worst_step(ask.cases, find, lean))


def overturning(case: Case) -> Finding:
    """Whether the weights hold a piece of wall on its base.

    Raises:
        NotFoundError: wind, mesh or masses are not known.
        OutOfRangeError: past the tables.
    """
    piece, weight, turned, factors = case.piece, case.light, case.about_base, case.acting.factors
    held = work(
        walls.resisting_moment, why="all weights about the toe", weight=weight.total, arm=piece.base.width / 2
    )  # fmt: skip
    pads = held_by_pads(piece, weight)
    resisting = held.number + math.fsum(line.number for line in pads)
    use = work(
        walls.equilibrium_use, why="both with their factors", overturning=turned.moment, resisting=resisting,
        load_factor=factors.load.value, weight_factor=factors.weight.value,
    )  # fmt: skip
    demand, capacity = factors.load.value * turned.moment, factors.weight.value * resisting
    return Finding(
        check="overturning", subject="", demand=demand, capacity=capacity, unit=NEWTON_METER_PER_METER,
        because=told(
            _base_note(piece), _fill_note(weight, without=capacity * (1 - weight.fill / weight.total) >= demand),
            PIERS if pads else "", *case.acting.notes, *weight.notes,
        ),
        working=(*case.acting.working, *weight.working, *turned.working, held, *pads, use),
        figures=(*case.acting.figures, *weight.figures, *factors.balance),
        mend="" if keeps_to(demand, capacity)
        else "wider or heavier base, lower or heavier wall, or less mesh above it",
    )  # fmt: skip


def sliding(case: Case) -> Finding:
    """Whether the ground holds a piece of wall against sliding.

    Raises:
        NotFoundError: wind, masses, soil or friction are not known.
        OutOfRangeError: past the tables.
    """
    piece, weight, turned, factors = case.piece, case.light, case.about_base, case.acting.factors
    grip = _grip(case)
    demand, held, steps = factors.load.value * turned.force, *_slid(case, grip, weight.total)
    bare, _ = _slid(case, grip, weight.total - weight.fill)
    return Finding(
        check="sliding", subject="", demand=demand, capacity=held, unit=NEWTON_PER_METER,
        because=told(
            _base_note(piece), _stone_note(case, grip, demand), _fill_note(weight, without=bare >= demand),
            *case.acting.notes, *weight.notes,
        ),
        working=(*case.acting.working, *weight.working, *turned.working, *steps),
        figures=(*case.acting.figures, *weight.figures, *grip.figures, *factors.balance),
        mend="" if keeps_to(demand, held) else "heavier wall or footing, or a key under the footing",
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class _Grip:
    """Friction and cling under a base, and where they come from."""

    friction: Ratio
    cling: Pascal
    figures: Named


def _slid(case: Case, grip: _Grip, load: NewtonPerMeter) -> tuple[NewtonPerMeter, tuple[Step, ...]]:
    """What holds against sliding under so much weight; clay clings only where the base still presses on it."""
    factors, width = case.acting.factors, case.piece.base.width
    steps: tuple[Step, ...] = ()
    if grip.cling > 0:
        width, steps = _contact(case, load)
    held = work(
        walls.sliding_resistance, why="friction and cling, weight with its factor",
        load=factors.weight.value * load, friction=grip.friction, cohesion=grip.cling, width=width,
    )  # fmt: skip
    return held.number, (*steps, held)


def _contact(case: Case, load: NewtonPerMeter) -> tuple[Meter, tuple[Step, ...]]:
    """Width of the base that still presses on the ground; none where it tips over."""
    factors, width = case.acting.factors, case.piece.base.width
    if _on_pads(case.piece):
        share = factors.weight.value * load / case.light.total
        try:
            under = pressed_pads(case.piece, case.light, share, factors.load.value * case.about_base.moment)
        except OutOfRangeError:
            return 0.0, ()
        return under.contact, under.working
    off = work(
        ground.eccentricity, why="how far off the middle the load stands, load and weight with their factors",
        moment=factors.load.value * case.about_base.moment, load=factors.weight.value * load,
    )  # fmt: skip
    if off.number >= width / 2:
        return 0.0, (off,)
    pressed = work(
        ground.base_pressure, why="width in contact, which alone clings", load=factors.weight.value * load, width=width,
        eccentricity=off.number,
    )  # fmt: skip
    result = pressed.result
    assert isinstance(result, ground.BasePressure)
    return result.contact, (off, pressed)


def _grip(case: Case) -> _Grip:
    if case.piece.base.on_stone:
        own = case.piece.wall.kind
        figure = own.figure("friction") if own.has("friction") else TAMPED_STONE
        return _Grip(friction=figure.value, cling=0.0, figures=(("friction on tamped stone", figure),))
    soil = _soil(case)
    named = tuple((name, soil.figure(name)) for name in ("friction", "cohesion") if soil.has(name))
    if not named:
        raise NotFoundError(f"neither friction nor cohesion is known for {soil.name}")
    known = {name: figure.value for name, figure in named}
    return _Grip(friction=known.get("friction", 0.0), cling=known.get("cohesion", 0.0), figures=named)


def _stone_note(case: Case, grip: _Grip, demand: NewtonPerMeter) -> str:
    """Which friction on stone is taken, how far it can be trusted, and what a smoother bed would do."""
    if not case.piece.base.on_stone:
        return ""
    ((_, figure),) = grip.figures
    taken = f"friction of {figure.value:g} between wall and stone is taken, {_TRUST[figure.standing]}"
    if figure.value <= TAMPED_STONE.value:
        return taken
    held, _ = _slid(case, replace(grip, friction=TAMPED_STONE.value), case.light.total)
    return f"{taken}: with {TAMPED_STONE.value:g} it would {'still' if held >= demand else 'not'} hold"


_TRUST = {
    Standing.DERIVED: "derived", Standing.READ: "as published", Standing.GIVEN: "as the plan gives it",
    Standing.LEARNED: "as the log teaches it", Standing.PRACTICE: "common practice", Standing.MEMORY: "from memory",
}  # fmt: skip


def _fill_note(weight: Weight, *, without: bool) -> str:
    """What hangs on the trench being filled."""
    if weight.fill <= 0:
        return ""
    holds = "would still hold" if without else "does not hold"
    return f"the trench must be filled and tamped: without the soil on the footing it {holds}"


def _soil(case: Case) -> Kind:
    if case.of.place.soil is None:
        raise NotFoundError("no soil is given; write soil or hand_test under [place]")
    return case.of.place.soil


def bearing(case: Case) -> Finding:
    """Whether the ground bears the pressed edge of a base.

    Raises:
        NotFoundError: wind, masses, soil or its bearing are not known.
        OutOfRangeError: the piece tips over before it presses, or past the tables; the message names it.
    """
    piece, factors = case.piece, case.acting.factors
    allowed, turned = _soil(case).figure("bearing"), case.about_base
    moment = factors.service.value * turned.moment
    ways = [(weight, share) for weight in _weights(case) for share in factors.pressing]
    try:
        found = [(*_pressed(piece, weight, share.value, moment), weight, share) for weight, share in ways]
    except OutOfRangeError as tips:
        raise OutOfRangeError(f"it tips over before the ground could bear it, see its overturning: {tips}") from None
    demand, steps, note, weight, share = max(found, key=lambda way: way[0])
    named = f"{_SHARES[share.value]} of the weight with the {factors.of} governs" if len(factors.pressing) > 1 else ""
    return Finding(
        check="bearing", subject="", demand=demand, capacity=allowed.value, unit=PASCAL,
        because=told(_base_note(piece), named, note, *case.acting.notes, *weight.notes),
        working=(*case.acting.working, *weight.working, *turned.working, *steps),
        figures=(*case.acting.figures, *weight.figures, ("bearing of the ground", allowed), *factors.allowable,
                 ("factor on the weight", share)),
        mend="" if keeps_to(demand, allowed.value) else "wider footing",
        left_out="; ".join(part for part in (left_out_of(case.of), _soil(case).word("note")) if part),
    )  # fmt: skip


def _weights(case: Case) -> tuple[Weight, ...]:
    """Both weights where they differ: the light one stands farther off the middle, the heavy one presses more."""
    return (case.light,) if case.heavy is case.light else (case.light, case.heavy)


_SHARES = {1.0: "all", 0.6: "six tenths"}


def _pressed(
    piece: Piece, weight: Weight, share: Ratio, moment: NewtonMeterPerMeter
) -> tuple[Pascal, tuple[Step, ...], str]:
    if _on_pads(piece):
        under = pressed_pads(piece, weight, share, moment)
        return under.toe, under.working, PIERS
    load = share * weight.total
    off = work(ground.eccentricity, why="how far off the middle the load stands", moment=moment, load=load)
    pressed = work(
        ground.base_pressure, why="pressure under the toe", load=load, width=piece.base.width,
        eccentricity=off.number,
    )  # fmt: skip
    result = pressed.result
    assert isinstance(result, ground.BasePressure)
    lifted = result.contact < piece.base.width
    return result.toe, (off, pressed), "the heel lifts: part of the base presses alone" if lifted else ""


def _on_pads(piece: Piece) -> bool:
    return piece.buildup.piers is not None and piece.base.footing > 0


def _base_note(piece: Piece) -> str:
    if piece.base.on_stone:
        return "tamped stone holds no wall down: it stands on its own lowest bed"
    return "" if piece.base.footing else "without footing: it stands on its own lowest bed"
