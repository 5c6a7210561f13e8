"""Walls that stand through the years drawn for them: when the lowest bed cracks, and when they fall."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pinfold.findings import Step
from pinfold.formulas import masonry, storms, walls
from pinfold.studies.stability.factors import STEEL_STRESS, YIELD_STRESS
from pinfold.studies.worlds.cantilever import Cantilever
from pinfold.studies.worlds.drawing import Drawn
from pinfold.studies.worlds.replay import Array, Numbers, figure_in, on_arrays, replayed, scaled

Yes = npt.NDArray[np.bool_]
_leaning = on_arrays(storms.leaning_moment)
_resisting = on_arrays(walls.resisting_moment)
_tension = on_arrays(masonry.flexural_tension)


@dataclass(frozen=True, kw_only=True)
class Lived:
    """Year by year, (walls, years): whether the lowest bed had cracked by then, and whether the wall had fallen."""

    cracked: Yes
    fallen: Yes


def lived(wall: Cantilever, drawn: Drawn) -> Lived:
    """Go through all years of all walls with the formulas of the checks.

    A wall falls when a gust turns it over on its base, or on its lowest bed once that has cracked; bars across the bed
    hold it until they yield. A gust counts as a steady push: a short one may only rock a wall.
    """
    body = _weight(wall, drawn)
    whole = body + sum((np.asarray(step.number) for step in wall.below), np.zeros(1))
    lean = _leaning(weight=body, height=wall.height, lean=drawn.lean)
    bed = _moment(wall.about_bed, drawn.pressure * wall.eased) + lean
    over = _moment(wall.about_base, drawn.pressure * wall.eased) + lean
    cracked = _ever(_cracks(wall, drawn, bed, body))
    fallen = over > _resisting(weight=whole, arm=wall.width / 2)
    if wall.bars is None:
        rocked = bed > _resisting(weight=body, arm=(wall.thickness + drawn.thickness) / 2)
        fallen = fallen | (cracked & rocked)
    else:
        fallen = fallen | (bed > _barred(wall, drawn))
    return Lived(cracked=cracked, fallen=_ever(fallen))


def _weight(wall: Cantilever, drawn: Drawn) -> Array:
    """Weight above the lowest bed, of every wall."""
    own, *others = wall.layers
    thicker = figure_in(own, "thickness") + drawn.thickness
    weight = replayed(own, density=figure_in(own, "density") * drawn.density, thickness=thicker)
    return np.asarray(weight + sum(step.number for step in others))


def _moment(steps: Iterable[Step], factor: Numbers) -> Array:
    """Moment of the wind with its pressure so many times as large."""
    on_wall = scaled(steps, "walls.wind_moment", "pressure", factor)
    on_mesh = scaled(steps, "walls.line_load_moment", "line_load", factor)
    return np.asarray(on_wall + on_mesh)


def _cracks(wall: Cantilever, drawn: Drawn, bed: Array, body: Array) -> Yes:
    """Whether a year's gust pulls the lowest bed apart; beds that pull nothing count as cracked from the start."""
    if wall.tension is None:
        return np.ones(bed.shape, dtype=bool)
    section = replayed(wall.section, thickness=wall.thickness + drawn.thickness)
    hollow = isinstance(section, masonry.WallSection)
    modulus, area = (section.modulus, section.area) if hollow else (section, wall.thickness + drawn.thickness)
    pulled = _tension(moment=np.maximum(bed, 0.0), modulus=modulus, load=body, area=area)
    return np.asarray(pulled > wall.tension.value * drawn.tension)


def _barred(wall: Cantilever, drawn: Drawn) -> Array:
    """Moment per length at which the bars yield."""
    assert wall.bars is not None
    grade = YIELD_STRESS.value / STEEL_STRESS.value * figure_in(wall.bars.step, "stress")
    return np.asarray(replayed(wall.bars.step, stress=grade * drawn.steel)) / wall.bars.spacing


def _ever(yes: Yes) -> Yes:
    """Whether it had happened by each year."""
    return np.logical_or.accumulate(yes, axis=1)
