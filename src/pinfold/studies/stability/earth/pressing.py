"""What a bank of earth does to a piece of wall: its push, what stands on it, water in it, and the wind beside it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.findings import Step, work
from pinfold.formulas import earth, walls
from pinfold.plan.grounds import Bank
from pinfold.plan.place import Place
from pinfold.studies.stability.answers import told
from pinfold.studies.stability.cases import Action, Case
from pinfold.studies.stability.earth.heaps import Heap, heap_of
from pinfold.studies.stability.earth.shares import PASSIVE_SHARE, WIND_BESIDE
from pinfold.studies.stability.factors import Combination
from pinfold.studies.stability.tipping import Acting, Turning, turning
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, NewtonPerMeter, Radian


class Push(NamedTuple):
    """Level force of one part of the push and its moment about the level asked for."""

    force: NewtonPerMeter
    moment: float
    working: tuple[Step, ...]


NOTHING = Push(force=0.0, moment=0.0, working=())


def pressed_by(bank: Bank, factors: Combination, *, wind: bool = True, resting: bool = False) -> Action:
    """A bank as something that acts on a piece of wall, with the wind that blows the same way or alone.

    Args:
        bank: as planned
        factors: shares that go with it
        wind: whether it blows too
        resting: whether the bank's weight on the ledge of a footing is set against what turns the wall over
    """

    def acting(case: Case) -> Acting:
        heap = heap_of(bank)
        share, beside, held = WIND_BESIDE[case.of.family], _wind_beside(case, bank) if wind else None, _held(case, bank)

        def about(below: Meter) -> Turning:
            rests = _resting(case, heap, factors) if resting and below >= case.piece.depth else NOTHING
            parts = (*_pushes(heap, below), rests, _taken(beside(below), share.value) if beside else NOTHING)
            return _together(parts, held(below))

        blown = case.wind if wind else None
        return Acting(
            about=about, factors=factors,
            working=(*heap.working, *(blown.working if blown else ())),
            notes=(*heap.notes, _BESIDE if blown else "", *(blown.notes if blown else ())),
            figures=(*heap.figures, *((*case.of.figures, ("share of the wind beside it", share)) if blown else ())),
        )  # fmt: skip

    return acting


_BESIDE = "earth and the wind from its side together govern; the wind against the earth is a finding of its own"


def _wind_beside(case: Case, bank: Bank) -> Callable[[Meter], Turning]:
    """The wind on what stands above the bank."""
    piece = case.piece
    above = replace(piece, exposed=max(piece.exposed - bank.height, 0.0), ground=piece.ground + bank.height)
    wind, panel = case.wind, case.panel
    return lambda below: turning(above, wind, below + bank.height, None if piece.base.footing > 0 else panel)


def _pushes(heap: Heap, below: Meter) -> tuple[Push, ...]:
    """Every part of the push above a level so far below the lower ground."""
    bank, height = heap.bank, heap.bank.height + below
    thrust = work(
        earth.earth_thrust, why="the earth pushes", coefficient=heap.coefficient, density=heap.density, height=height
    )
    parts = [_level(thrust, heap.lean, height / 3)]
    if bank.surcharge > 0:
        loaded = work(
            earth.surcharge_thrust, why="what stands on it pushes", coefficient=heap.coefficient,
            surcharge=bank.surcharge, height=height,
        )  # fmt: skip
        parts.append(_level(loaded, heap.lean, height / 2))
    if not bank.drained:
        parts.append(_level(work(earth.water_thrust, why="the water in it pushes", height=height), 0.0, height / 3))
    return tuple(parts)


def _level(thrust: Step, lean: Radian, arm: Meter) -> Push:
    level = thrust
    if lean > 0:
        level = work(earth.level_part, why="its level part", thrust=thrust.number, lean=lean)
    turned = work(
        walls.line_load_moment, why="it turns the wall", line_load=level.number, height=arm, below=0.0
    )  # fmt: skip
    steps = (thrust, turned) if level is thrust else (thrust, level, turned)
    return Push(force=level.number, moment=turned.number, working=steps)


def _held(case: Case, bank: Bank) -> Callable[[Meter], tuple[NewtonPerMeter, tuple[Step, ...]]]:
    """What earth in front takes off the level force, where it is asked for."""
    if not bank.passive:
        return lambda below: (0.0, ())
    soil = _front(case.of.place)
    return lambda below: _in_front(soil, below)


def _front(place: Place) -> Kind:
    if place.soil is None:
        raise NotFoundError("no soil is given; write soil or hand_test under [place]")
    return place.soil


def _in_front(soil: Kind, below: Meter) -> tuple[NewtonPerMeter, tuple[Step, ...]]:
    held = work(
        earth.passive_pressure_by_rankine, why="earth in front of the footing",
        friction_angle=soil.value("friction_angle"),
    )  # fmt: skip
    thrust = work(
        earth.earth_thrust, why="what it could hold; half of it counts", coefficient=held.number,
        density=soil.value("density"), height=below,
    )  # fmt: skip
    return PASSIVE_SHARE.value * thrust.number, (held, thrust)


def _resting(case: Case, heap: Heap, factors: Combination) -> Push:
    """The bank on the ledge of the footing turns the wall back, with the share of weight that helps."""
    piece, bank = case.piece, heap.bank
    ledge = (piece.base.width - piece.wall.thickness) / 2
    if piece.base.footing <= 0 or ledge <= 0:
        return NOTHING
    weight = work(
        walls.layer_weight, why="the bank on the ledge of the footing", density=heap.density, thickness=ledge,
        height=bank.height,
    )  # fmt: skip
    back = work(
        walls.resisting_moment, why="it helps to hold the wall down", weight=weight.number,
        arm=piece.base.width - ledge / 2,
    )  # fmt: skip
    share = factors.weight.value / factors.load.value
    return Push(force=0.0, moment=-share * back.number, working=(weight, back))


def _taken(wind: Turning, share: float) -> Push:
    return Push(force=share * wind.force, moment=share * wind.moment, working=wind.working)


def _together(parts: tuple[Push, ...], held: tuple[NewtonPerMeter, tuple[Step, ...]]) -> Turning:
    return Turning(
        moment=max(sum(part.moment for part in parts), 0.0),
        force=max(sum(part.force for part in parts) - held[0], 0.0),
        working=(*(step for part in parts for step in part.working), *held[1]),
    )  # fmt: skip


def said(bank: Bank) -> str:
    """What of the earth in front is counted."""
    if not bank.passive:
        return ""
    return told("half of what earth in front could hold is counted: it must be there, tamped, and never dug away")
