"""Faces through the hours: at every step the face is as warm as sun, sky, wind, vapor and wall let it be.

Each column of a wall has two ends; a face is one of them, and an end without a face lets nothing in or out. The
balance is that of `formulas.drying`, its parts that do not hang on the face's own warmth gathered beforehand: a week of
forty faces is a thousand steps. Tests hold it to the formulas.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

import numpy as np

from pinfold.formulas.drying import LEWIS, STEFAN_BOLTZMANN, VAPOR, heat_of_vapor, vapor_transfer
from pinfold.formulas.moist_air import saturation_pressure
from pinfold.studies.drying.conduction import Array, Columns, stepping
from pinfold.studies.worlds.replay import on_arrays
from pinfold.units import Second

HOUR: Second = 3600.0
STEPS = 6
"""In an hour, where water may end within it."""
ZERO = 273.15
ALWAYS = np.inf
"""Water on a face that is kept wet."""
_DRY_AIR = 287.05
_AT_REST, _FALL = float(heat_of_vapor(temperature_c=0.0)), 2361.0


@dataclass(frozen=True, kw_only=True, eq=False)
class Around:
    """What is around the ends of columns, hour by hour: arrays of (hours, 2, columns), first ends and last ones.

    Attributes:
        gain: sun taken in, and heat from sky, ground and cover taken in [W/m2].
        transfer: how fast vapor is carried off for a kelvin of the film of air on the face [m/(s K)].
        convection: heat exchanged with the air [W/(m2 K)].
        emittance: (2, columns), for heat that is given off.
        air_c: (hours,), of the air.
        density: (hours,), of the vapor in it [kg/m3].
    """

    gain: Array
    transfer: Array
    convection: Array
    emittance: Array
    air_c: Array
    density: Array

    def part(self, hours: slice) -> Around:
        """Some of the hours."""
        return Around(
            gain=self.gain[hours], transfer=self.transfer[hours], convection=self.convection[hours],
            emittance=self.emittance, air_c=self.air_c[hours], density=self.density[hours],
        )  # fmt: skip

    def beside(self, other: Around) -> Around:
        """The columns of both, in one air."""
        both = {name: np.concatenate((getattr(self, name), getattr(other, name)), axis=-1) for name in _AT_ENDS}
        return Around(**both, air_c=self.air_c, density=self.density)


_AT_ENDS = ("gain", "transfer", "convection", "emittance")


def transfer_of(convection: Array, dry_pressure: Array) -> Array:
    """How fast vapor leaves ends that heat leaves so fast, for a kelvin of the film of air on them.

    Args:
        convection: (hours, 2, columns)
        dry_pressure: (hours,), of the air less 0.378 of its vapor's
    """
    light = (dry_pressure / _DRY_AIR)[:, None, None]
    return on_arrays(vapor_transfer)(convection=convection, density=light, lewis=LEWIS)


class Marched(NamedTuple):
    """What came of it, arrays of (hours, 2, columns).

    Attributes:
        temperature: of each end, mean of the hour [°C].
        evaporation: from it, mean of the hour; below 0 where dew falls [kg/(m2 s)].
        water: left on it at the end of the hour [kg/m2].
        damp: share of the hour in which there is any.
        stored: (columns,), heat taken up by each column from beginning to end [J/m2].
        entered: (columns,), heat that entered it through its ends [J/m2].
        state: (columns, nodes), temperatures at the end.
    """

    temperature: Array
    evaporation: Array
    water: Array
    damp: Array
    stored: Array
    entered: Array
    state: Array


Wetted = Callable[[int, Array], Array]
"""At the beginning of an hour, given the water on all ends: the water after wetting."""


def march(
    columns: Columns, around: Around, *, start: Array, water: Array, wetted: Wetted | None = None, steps: int = STEPS
) -> Marched:
    """Step all columns through all hours.

    Args:
        columns: walls
        around: what is around their ends
        start: (columns, nodes), temperatures at the beginning
        water: (2, columns), on each end at the beginning: none, some, or ALWAYS
        wetted: what is put on at the beginning of each hour
        steps: in an hour
    """
    walk, whole = _Walk.of(columns, HOUR / steps), around.gain.shape
    temperature, evaporation, left, damp = (np.zeros(whole) for _ in range(4))
    state, entered = start, np.zeros(len(start))
    for hour in range(whole[0]):
        water = water if wetted is None else wetted(hour, water)
        at = _Hour.of(around, hour)
        for _ in range(steps):
            state, heat, leaving = walk.on(at, state, water)
            water = np.maximum(water - leaving * walk.step, 0.0)
            temperature[hour] += state[:, _ENDS].T
            evaporation[hour] += leaving
            damp[hour] += water > 0
            entered = entered + walk.step * heat.sum(axis=0)
        left[hour] = water
    stored = (columns.stores * (state - start)).sum(axis=1)
    return Marched(temperature / steps, evaporation / steps, left, damp / steps, stored, entered, state)


_ENDS = [0, -1]


class _Hour(NamedTuple):
    """What is around in one hour; `flow` is the gain and what the air would give a face of 0 °C."""

    flow: Array
    transfer: Array
    convection: Array
    emittance: Array
    air_c: float
    density: float

    @classmethod
    def of(cls, around: Around, hour: int) -> _Hour:
        air, convection = float(around.air_c[hour]), around.convection[hour]
        flow = around.gain[hour] + convection * air
        return cls(flow, around.transfer[hour], convection, around.emittance, air, float(around.density[hour]))


@cache
def _saturated() -> tuple[Array, Array]:
    """Vapor that air holds by its warmth [kg/m3]."""
    warmth = np.arange(-60.0, 120.05, 0.1)
    return warmth, on_arrays(saturation_pressure)(temperature_c=warmth) / (VAPOR * (warmth + ZERO))


class _Walk(NamedTuple):
    """One length of step for all columns: what each step keeps, and what a watt at either end does at both."""

    step: Second
    keeps: Array
    first: Array
    last: Array
    own: Array
    cross: Array

    @classmethod
    def of(cls, columns: Columns, step: Second) -> _Walk:
        found = stepping(columns, step)
        own = np.stack((found.first[:, 0], found.last[:, -1]))
        return cls(step, found.keeps, found.first, found.last, own, found.first[:, -1])

    def on(self, at: _Hour, state: Array, water: Array) -> tuple[Array, Array, Array]:
        """Temperatures after a step, the heat that went in at each end in it, and the water that left."""
        rest = np.matmul(self.keeps, state[:, :, None])[:, :, 0]
        base, face = rest[:, _ENDS].T, state[:, _ENDS].T
        transfer = self._wet_transfer(at, face, water)
        for _ in range(2):
            heat, slope, leaving, more = _flux(at, face, transfer)
            missed = face - base - self.own * heat - self.cross * heat[::-1]
            stiff = 1 - self.own * slope
            coupled = self.cross * slope[::-1]
            moved = (missed * stiff[::-1] + coupled * missed[::-1]) / (stiff * stiff[::-1] - coupled * coupled[::-1])
            face, heat, leaving = face - moved, heat - slope * moved, leaving - more * moved
        after = rest + self.first * heat[0, :, None] + self.last * heat[1, :, None]
        return after, heat, leaving

    def _wet_transfer(self, at: _Hour, face: Array, water: Array) -> Array:
        """How fast vapor leaves each end: none where it is dry, less where its water ends within the step."""
        transfer = at.transfer * ((at.air_c + face) / 2 + ZERO)
        potential = transfer * (np.interp(face, *_saturated()) - at.density) * self.step
        share = np.where(potential > 0, np.minimum(water / np.maximum(potential, 1e-12), 1.0), water > 0)
        spent: Array = transfer * share
        return spent


def _flux(at: _Hour, face: Array, transfer: Array) -> tuple[Array, Array, Array, Array]:
    """Heat into each end and its slope by the end's warmth; water leaving it and its slope."""
    warm = face + ZERO
    glow = at.emittance * STEFAN_BOLTZMANN * warm**4
    latent, full = _AT_REST - _FALL * face, np.interp(face, *_saturated())
    leaving = transfer * (full - at.density)
    more = transfer * full * (latent / (VAPOR * warm) - 1) / warm
    heat = at.flow - at.convection * face - glow - latent * leaving
    slope = -at.convection - 4 * glow / warm - latent * more + _FALL * leaving
    return heat, slope, leaving, more
