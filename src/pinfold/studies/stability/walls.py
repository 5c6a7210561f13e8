"""Walls as a whole: overturning, sliding, and the pressure on the ground."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Step, work
from pinfold.formulas import bearing as ground
from pinfold.formulas import walls
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Case, Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.factors import TAMPED_STONE, Named
from pinfold.studies.stability.height import standing_cautions
from pinfold.studies.stability.pieces import Piece, Weight
from pinfold.studies.stability.tipping import carries_mesh
from pinfold.tables.shelf import Kind
from pinfold.units import NEWTON_METER_PER_METER, NEWTON_PER_METER, PASCAL

LEFT_OUT = (
    "earth in front of the footing, earthquakes, animals and people pushing, trees and the shelter of what stands "
    "near; the twist of wind on one half of the wall; help from returns and piers; one course sliding on another"
)

Check = Callable[[Case], Finding]


def standing(ask: Exposed) -> tuple[Finding, ...]:
    """Overturning, sliding and bearing of one stretch of wall; nothing where no wall stands by itself."""
    if not has_wall(ask.stretch):
        return ()
    return (
        over_steps(ask, "overturning", overturning, caution=standing_cautions(ask.stretch)),
        over_steps(ask, "sliding", sliding),
        over_steps(ask, "bearing", bearing),
    )


def over_steps(ask: Exposed, check: str, find: Check, *, caution: str = "") -> Finding:
    """One check over every step of a stretch: the worst step's finding."""
    question = Question(check=check, subject=f"run {ask.stretch.name}", left_out=LEFT_OUT, caution=caution)
    return answered(question, lambda: governing(tried(partial(find, case)) for case in ask.cases))


def overturning(case: Case) -> Finding:
    """Whether the weights hold a piece of wall on its base.

    Raises:
        NotFoundError: wind, mesh or masses are not known.
        OutOfRangeError: past the tables.
    """
    piece, weight, turned, factors = case.piece, case.light, case.about_base, case.of.factors
    held = work(
        walls.resisting_moment, why="all weights about the toe", weight=weight.total, arm=piece.base.width / 2
    )  # fmt: skip
    use = work(
        walls.equilibrium_use, why="both with their factors", overturning=turned.moment, resisting=held.number,
        load_factor=factors.wind.value, weight_factor=factors.weight.value,
    )  # fmt: skip
    demand, capacity = factors.wind.value * turned.moment, factors.weight.value * held.number
    return Finding(
        check="overturning", subject="", demand=demand, capacity=capacity, unit=NEWTON_METER_PER_METER,
        because=told(_base_note(piece), _mesh_note(piece), *case.wind.notes, *weight.notes),
        working=(*case.wind.working, *weight.working, *turned.working, held, use),
        figures=(*case.of.figures, *weight.figures, *factors.balance),
        mend="" if demand <= capacity else "wider or heavier base, lower or heavier wall, or less mesh above it",
    )  # fmt: skip


def sliding(case: Case) -> Finding:
    """Whether the ground holds a piece of wall against sliding.

    Raises:
        NotFoundError: wind, masses, soil or friction are not known.
        OutOfRangeError: past the tables.
    """
    piece, weight, turned, factors = case.piece, case.light, case.about_base, case.of.factors
    grip, cling, gripped = _grip(case)
    held = work(
        walls.sliding_resistance, why="friction and cling, weight with its factor",
        load=factors.weight.value * weight.total, friction=grip, cohesion=cling, width=piece.base.width,
    )  # fmt: skip
    demand = factors.wind.value * turned.force
    return Finding(
        check="sliding", subject="", demand=demand, capacity=held.number, unit=NEWTON_PER_METER,
        because=told(_base_note(piece), _mesh_note(piece), *case.wind.notes, *weight.notes),
        working=(*case.wind.working, *weight.working, *turned.working, held),
        figures=(*case.of.figures, *weight.figures, *gripped, *factors.balance),
        mend="" if demand <= held.number else "heavier wall or footing, or a key under the footing",
    )  # fmt: skip


def _grip(case: Case) -> tuple[float, float, Named]:
    """Friction and cling under a base, and where they come from."""
    if case.piece.base.on_stone:
        own = case.piece.wall.kind
        figure = own.figure("friction") if own.has("friction") else TAMPED_STONE
        return figure.value, 0.0, (("friction on tamped stone", figure),)
    soil = _soil(case)
    named = tuple((name, soil.figure(name)) for name in ("friction", "cohesion") if soil.has(name))
    if not named:
        raise NotFoundError(f"neither friction nor cohesion is known for {soil.name}")
    known = {name: figure.value for name, figure in named}
    return known.get("friction", 0.0), known.get("cohesion", 0.0), named


def _soil(case: Case) -> Kind:
    if case.of.place.soil is None:
        raise NotFoundError("no soil is given; write soil or hand_test under [place]")
    return case.of.place.soil


def bearing(case: Case) -> Finding:
    """Whether the ground bears the pressed edge of a base.

    Raises:
        NotFoundError: wind, masses, soil or its bearing are not known.
        OutOfRangeError: the piece tips over before it presses, or past the tables.
    """
    piece, factors = case.piece, case.of.factors
    allowed, turned = _soil(case).figure("bearing"), case.about_base
    pressed = [(_pressed(piece, weight, factors.service.value * turned.moment), weight) for weight in _weights(case)]
    (demand, steps, note), weight = max(pressed, key=lambda found: found[0][0])
    return Finding(
        check="bearing", subject="", demand=demand, capacity=allowed.value, unit=PASCAL,
        because=told(_base_note(piece), note, _mesh_note(piece), *case.wind.notes, *weight.notes),
        working=(*case.wind.working, *weight.working, *turned.working, *steps),
        figures=(*case.of.figures, *weight.figures, ("bearing of the ground", allowed), *factors.allowable),
        mend="" if demand <= allowed.value else "wider footing",
    )  # fmt: skip


def _weights(case: Case) -> tuple[Weight, ...]:
    """Both weights where they differ: the light one stands farther off the middle, the heavy one presses more."""
    return (case.light,) if case.heavy is case.light else (case.light, case.heavy)


def _pressed(piece: Piece, weight: Weight, moment: float) -> tuple[float, tuple[Step, ...], str]:
    off = work(ground.eccentricity, why="how far off the middle the load stands", moment=moment, load=weight.total)
    pressed = work(
        ground.base_pressure, why="pressure under the toe", load=weight.total, width=piece.base.width,
        eccentricity=off.number,
    )  # fmt: skip
    result = pressed.result
    assert isinstance(result, ground.BasePressure)
    lifted = result.contact < piece.base.width
    return result.toe, (off, pressed), "the heel lifts: part of the base presses alone" if lifted else ""


def _base_note(piece: Piece) -> str:
    if piece.base.on_stone:
        return "tamped stone holds no wall down: it stands on its own lowest bed"
    return "" if piece.base.footing else "without footing: it stands on its own lowest bed"


def _mesh_note(piece: Piece) -> str:
    if piece.buildup.posts is None or carries_mesh(piece):
        return ""
    return "the fence above is carried by posts in the ground"
