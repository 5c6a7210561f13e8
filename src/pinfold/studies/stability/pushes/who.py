"""Who pushes, how hard and how high: the plan's kinds as level loads."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.findings import Step, work
from pinfold.formulas import pushes as formulas
from pinfold.formulas.walls import GRAVITY
from pinfold.plan.place import Family, Place
from pinfold.studies.stability.factors import PUSHES, Combination, Named
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Meter, Newton, NewtonPerMeter

USUAL = "person"
"""Who pushes where the plan does not say."""


@dataclass(frozen=True, kw_only=True)
class Push:
    """One way in which someone pushes.

    Attributes:
        who: in the builder's words.
        point: level force at one place; 0 for a load along the top.
        line: level force per length along the top; 0 for a force at one place.
        height: above the ground; what is lower is pushed at its top.
        working: how hard it is found to be.
        figures: behind it.
        factors: shares of it and of weight that go into the checks.
        said: whether the plan says that they push.
    """

    who: str
    point: Newton
    line: NewtonPerMeter
    height: Meter
    working: tuple[Step, ...]
    figures: Named
    factors: Combination
    said: bool

    @property
    def notes(self) -> tuple[str, ...]:
        """What the reader should know of it."""
        unsaid = "the plan does not say who pushes: one person is taken; write pushes under [place]"
        return (self.who, "" if self.said else unsaid)


def pushes_at(family: Family, place: Place) -> tuple[Push, ...]:
    """Every push on what stands at a place.

    Raises:
        NotFoundError: how hard a kind pushes is not known.
    """
    said = place.pushes is not None
    return tuple(push for each in pushers(place) for push in _of_kind(family, each, said=said))


def pushers(place: Place) -> tuple[Kind, ...]:
    """Who pushes: as the plan says, else one person."""
    return place.pushes if place.pushes is not None else (kind("pushes", USUAL),)


@lru_cache(maxsize=64)
def _of_kind(family: Family, one: Kind, *, said: bool) -> tuple[Push, ...]:
    found = [*_leaning(family, one, said=said), *_climbing(family, one, said=said)]
    if not found:
        raise NotFoundError(f"how hard {one.name} pushes is not known; write mass, grip and height beside it")
    return tuple(found)


def _leaning(family: Family, one: Kind, *, said: bool) -> tuple[Push, ...]:
    if not one.has("height"):
        return ()
    name = next((name for name in _names(family) if one.has(name)), "")
    steps: tuple[Step, ...] = ()
    figures: list[tuple[str, Figure]] = [("height of the push", one.figure("height"))]
    if name:
        size = one.value(name)
        figures.append((f"push, {name.removesuffix('_en')}", one.figure(name)))
    else:
        step = work(
            formulas.foothold_push, why="as hard as the feet hold", mass=one.value("mass"), grip=one.value("grip")
        )
        size, steps = step.number, (step,)
        figures += [(what, one.figure(what)) for what in ("mass", "grip")]
    along = name.startswith("line")
    return (
        Push(
            who=one.says, point=0.0 if along else size, line=size if along else 0.0, height=one.value("height"),
            working=steps, figures=tuple(figures), factors=PUSHES[family], said=said,
        ),
    )  # fmt: skip


def _names(family: Family) -> tuple[str, ...]:
    """Figures a push may stand in, the family's own first."""
    own = ("point_en", "line_en") if family is Family.EU else ()
    return (*own, "point", "line")


def _climbing(family: Family, one: Kind, *, said: bool) -> tuple[Push, ...]:
    """Its lean where its feet come to the top; what hangs there stands in the middle of a wall and is not counted."""
    if not one.has("lean"):
        return ()
    step = work(
        formulas.foothold_push, why="what it leans outward, a share of its weight", mass=one.value("mass"),
        grip=one.value("lean"),
    )  # fmt: skip
    return (
        Push(
            who=f"{one.says}: climbing", point=step.number, line=0.0, height=one.value("reach"), working=(step,),
            figures=tuple((what, one.figure(what)) for what in ("mass", "lean", "reach")), factors=PUSHES[family],
            said=said,
        ),
    )  # fmt: skip


def hanging(one: Kind) -> tuple[Newton, Named]:
    """Weight that a climber puts on what it climbs; 0 for who does not climb."""
    if not one.has("hangs"):
        return 0.0, ()
    weight = one.value("mass") * one.value("hangs") * GRAVITY
    return weight, tuple((what, one.figure(what)) for what in ("mass", "hangs"))
