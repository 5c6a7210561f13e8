"""When each face is wetted and with how much water, so that it stays damp; and how long it is dry for all that.

A round is made at whole hours while somebody is there: a face that might not last until the next round is wetted until
it holds all it can, and so is every face on the last round before the night. Before frost no round is made.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo

import numpy as np
from numpy.typing import NDArray

from pinfold.figures import Figure, practice
from pinfold.plan.buildups import Coat, Faces
from pinfold.studies.drying.balance import HOUR, march
from pinfold.studies.drying.conduction import Array
from pinfold.studies.drying.records import CATCH, Drying
from pinfold.studies.drying.study import Bench
from pinfold.studies.sun.records import Face, Part
from pinfold.units import CELSIUS, SECOND, Second

WATER = 1000.0
FROM, UNTIL = 6, 20
"""Rounds are made at whole hours of the clock from the one to the other."""
TOPPED_UP = 0.9
"""A face that holds this share is not wetted before the night."""
FROST: Figure = practice("2 °C", CELSIUS, "air in which a wet face may freeze under a clear sky")
DRAINED: Figure = practice("12 h", SECOND, "so long before frost nothing is wetted: what is soaked bursts")
BARE_CURE: Figure = practice("3 day", SECOND, "new masonry in heat, misted until it is three days old")


@dataclass(frozen=True, kw_only=True, eq=False)
class Wetting:
    """Rounds with water over some hours: arrays of (faces, hours).

    Attributes:
        faces: in the order of the arrays.
        start: of the first hour, in UTC.
        zone: clock of the place.
        poured: water to spray at the beginning of each hour, with what runs off [m3].
        damp: share of each hour in which the face is damp.
        kept: how long each face is to be kept damp from the first round on; 0 for one that is let dry [s].
        first: hour of the first round, by its place.
    """

    faces: tuple[Face, ...]
    start: datetime
    zone: tzinfo
    poured: Array
    damp: Array
    kept: NDArray[np.float64]
    first: int

    @property
    def total(self) -> Array:
        """Water for each face over these hours [m3]."""
        total: Array = self.poured.sum(axis=1)
        return total

    def rounds(self, face: int) -> tuple[tuple[datetime, float], ...]:
        """When a face is wetted, by the clock of the place, and the water [m3]."""
        return tuple(
            (self.moment(int(hour)), float(self.poured[face, hour])) for hour in np.flatnonzero(self.poured[face] > 0)
        )

    def moment(self, hour: int) -> datetime:
        """The beginning of an hour by the clock of the place."""
        return (self.start + timedelta(hours=hour)).astimezone(self.zone)

    def damp_share(self, face: int) -> float:
        """Share of the time it should be damp in which it is, as far as the hours go; 1 where it need not."""
        wanted = self.damp[face, self.first : self.first + round(self.kept[face] / HOUR)]
        return float(wanted.mean()) if len(wanted) else 1.0

    def reach(self, face: int) -> float:
        """Share of the time a face is to be kept damp to which the hours go."""
        kept = self.kept[face] / HOUR
        return min((self.damp.shape[1] - self.first) / kept, 1.0) if kept else 1.0


def cure_of(face: Face) -> Figure:
    """How long a face is kept damp: its last coat's cure; of a bare wall three days, of earth and sheet none."""
    coats = [coat for coat in face.buildup.coats if _covers(coat, face.part)]
    if coats and coats[-1].kind.has("wet_cure"):
        return coats[-1].kind.figure("wet_cure")
    assert face.buildup.wall is not None
    return _NEVER if face.buildup.wall.kind.word("material") in ("earth", "stone", "sheet") else BARE_CURE


_NEVER = practice("0 h", SECOND, "it does not cure by water")


def _covers(coat: Coat, part: Part) -> bool:
    if part in (Part.OUTER, Part.INNER):
        return coat.faces in (Faces.BOTH, Faces(part.value))
    return coat.top and part is Part.TOP


def before_frost(air_c: Array) -> NDArray[np.bool_]:
    """Hours in which nothing is wetted, for it freezes then or soon after.

    Args:
        air_c: of the air, hour by hour; not a number where it is not known
    """
    cold = air_c < FROST.value
    found: NDArray[np.bool_] = cold.copy()
    for ahead in range(1, round(DRAINED.value / HOUR)):
        found[:-ahead] |= cold[ahead:]
    return found


def wetting_of(bench: Bench, drying: Drying, hours: slice, *, kept: Second | None = None) -> Wetting:
    """Rounds with water from the first of some hours on.

    Args:
        bench: faces among their air
        drying: that was found with it
        hours: places of the hours among those of the drying
        kept: how long every face is kept damp; each for its own cure where None
    """
    begin, end, _ = hours.indices(len(drying.known))
    cures = np.array([cure_of(face).value if kept is None else kept for face in drying.faces])
    rounds = _Rounds(bench, drying, range(begin, end), np.ceil(cures / HOUR))
    around, columns = bench.wet.part(slice(begin, end)), bench.walls.columns
    found = march(
        columns, around, start=bench.start, water=np.zeros(around.emittance.shape), wetted=rounds.wetted
    )  # fmt: skip
    return Wetting(
        faces=drying.faces, start=drying.start + timedelta(hours=begin), zone=drying.zone, poured=rounds.poured,
        damp=bench.walls.of_faces(found.damp), kept=cures, first=rounds.first,
    )  # fmt: skip


class _Rounds:
    """What is sprayed, written down round by round while the hours go by."""

    def __init__(self, bench: Bench, drying: Drying, hours: range, kept: Array) -> None:
        self._walls, self._drying, self._kept = bench.walls, drying, kept
        clocks = [(drying.start + timedelta(hours=hour)).astimezone(drying.zone).hour for hour in hours]
        frost = before_frost(drying.air_c)[hours.start : hours.stop]
        self._made = [FROM <= clock <= UNTIL and not kept_off for clock, kept_off in zip(clocks, frost, strict=True)]
        self._night = [clock == UNTIL for clock in clocks]
        self.first = self._made.index(True) if any(self._made) else 0
        soon = np.nan_to_num(drying.evaporation[:, hours.start : hours.stop])
        self._soon = np.maximum(soon, 0.0) * HOUR * (1 + drying.asked.spread)
        self._areas = np.array([face.area for face in drying.faces])
        self._begun = np.zeros(len(drying.faces), dtype=bool)
        self.poured = np.zeros_like(self._soon)

    def wetted(self, hour: int, water: Array) -> Array:
        """The water on all ends after the round of an hour."""
        if not self._made[hour]:
            return water
        at, held = (self._walls.ends, self._walls.places), self._drying.held
        on = water[at]
        wanted = on < (TOPPED_UP * held if self._night[hour] else np.minimum(self._soon[:, hour], held))
        wet = wanted & (hour - self.first < self._kept)
        taken = np.where(self._begun, held - on, self._drying.first_drink)
        self._begun |= wet
        self.poured[:, hour] = np.where(wet, taken, 0.0) / CATCH.value * self._areas / WATER
        after = water.copy()
        after[at] = np.where(wet, held, on)
        return after
