"""Bodies crushed and broken, as the log has them: stress by load and size, told as the body their family is told in."""

from __future__ import annotations

import math
from typing import NamedTuple

from pinfold.errors import OutOfRangeError
from pinfold.findings import Step, work
from pinfold.formulas import bodies
from pinfold.logbook.entries import Entry
from pinfold.studies.lessons.strength_prior import StrengthPrior
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Newton, Pascal

_CONCRETE = ("concrete", "grout")
"""Families whose cubes are told by their size; those of mortar are small by custom."""


class Body(NamedTuple):
    """A body as its family is told.

    Attributes:
        strength: in the body of the family.
        body: kind of body that the doubt is shared by; empty for the family's own.
        doubt: how unsure the turning of it is.
        working: lines of working.
    """

    strength: Pascal
    body: str
    doubt: float
    working: tuple[Step, ...]


def body_of(entry: Entry, prior: StrengthPrior) -> Body:
    """A body by its entry, told as the body of its family.

    Args:
        entry: of a body crushed or broken
        prior: what was thought of its mix

    Raises:
        OutOfRangeError: a size that is wanted is missing, or cannot be.
    """
    tried = kind("bodies", entry.text("body"))
    stress = _stress(entry, tried)
    if tried.name == "beam":
        turned = _by_bending(stress[-1].number if stress else _given(entry), prior.family)
    else:
        turned = _by_shape(stress[-1].number if stress else _given(entry), entry, prior.family)
    own = tried.name == prior.family.word("body")
    steps = (*stress, *turned)
    found = steps[-1].number if steps else _given(entry)
    if found <= 0:
        raise OutOfRangeError("it carried nothing")
    return Body(found, "" if own else tried.name, 0.0 if own else tried.value("doubt"), steps)


def _given(entry: Entry) -> Pascal:
    given = entry.number("strength")
    if given is None:
        raise OutOfRangeError("neither its strength nor what it carried is written down")
    return given


def _force(entry: Entry) -> tuple[Newton | None, tuple[Step, ...]]:
    hung = entry.number("hung")
    if hung is None:
        return entry.number("load"), ()
    step = work(bodies.hanging_force, why="what hung on it", mass=hung)
    return step.number, (step,)


def _stress(entry: Entry, tried: Kind) -> tuple[Step, ...]:
    """Stress by load and size; none where the strength itself is written down."""
    if entry.number("strength") is not None:
        return ()
    load, steps = _force(entry)
    width = entry.number("width")
    if load is None or width is None:
        raise OutOfRangeError("its strength, or what it carried and its width, must be written down")
    if tried.name == "beam":
        return (*steps, _rupture(entry, load, width))
    depth = width if tried.word("shape") == "round" else entry.number("depth") or width
    area = work(
        bodies.crushed_area, why="area under the load", width=width, depth=depth, shape=tried.word("shape")
    )  # fmt: skip
    stress = work(bodies.crushing_strength, why="stress when it gave way", load=load, area=area.number)
    return (*steps, area, stress)


def _rupture(entry: Entry, load: Newton, width: float) -> Step:
    span, depth = entry.number("span"), entry.number("depth")
    if span is None or depth is None:
        raise OutOfRangeError("of a beam, its span between the supports and its depth must be written down too")
    formula = bodies.rupture_at_thirds if entry.text("loading") == "at the thirds" else bodies.rupture_in_middle
    return work(formula, why="bending stress when it broke", load=load, span=span, width=width, depth=depth)


def _by_bending(rupture: Pascal, family: Kind) -> tuple[Step, ...]:
    if family.has("bending_share"):
        share = family.value("bending_share")
        return (work(bodies.compression_by_share, why="as if crushed", rupture=rupture, share=share),)
    crushed = work(bodies.compression_by_aci318, why="as if crushed", rupture=rupture)
    return (crushed, *_as(crushed.number, kind("bodies", "beam"), family))


def _by_shape(stress: Pascal, entry: Entry, family: Kind) -> tuple[Step, ...]:
    tried, width, height = kind("bodies", entry.text("body")), entry.number("width"), entry.number("height")
    steps: list[Step] = []
    if tried.name == "block" and width is not None and height is not None:
        lesser = min(width, entry.number("depth") or width)
        steps.append(work(bodies.unit_shape_factor, why="for its shape", height=height, width=lesser))
    elif tried.name == "cube" and family.name in _CONCRETE and width is not None:
        steps.append(work(bodies.cube_size_factor, why="for its size", width=width))
    if steps:
        factor = steps[0].number
        steps.append(work(bodies.strength_as_body, why="as a usual cube", strength=stress, factor=factor))
        stress = steps[-1].number
    return (*steps, *_as(stress, tried, family))


def _as(stress: Pascal, tried: Kind, family: Kind) -> tuple[Step, ...]:
    """Told as the family's body; no line where it is that one."""
    body = family.word("body")
    factor = tried.value(f"to_{body}")
    if math.isclose(factor, 1.0):
        return ()
    return (work(bodies.strength_as_body, why=f"as a {body}", strength=stress, factor=factor),)
