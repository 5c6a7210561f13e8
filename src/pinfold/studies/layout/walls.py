"""Stretches of wall and fence: cut at gates and run ends, stepped on the ground, mitered at corners, jointed."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from string import ascii_lowercase

from pinfold.geometry.intervals import Interval, subtract
from pinfold.geometry.profiles import Profile, highest
from pinfold.geometry.spacing import joint_places
from pinfold.geometry.stepping import StepRules, Steps, TopLine, stepped
from pinfold.plan.buildups import Buildup, Wall
from pinfold.plan.enclosure import Enclosure
from pinfold.plan.outline import Follow, Run, Side
from pinfold.studies.layout.lie import Lie, turn_between
from pinfold.studies.layout.records import EndKind, Joint, Stretch
from pinfold.units import Meter, SquareMeter

SHORTEST_STEP: Meter = 1.2
"""Steps shorter than this are more trouble than they save (common practice)."""
STEP_SAVES: SquareMeter = 0.15
"""A step must save at least so much wall face to be worth setting out (common practice)."""
FREE_COURSE: Meter = 0.05
"""Stone and sheet have no courses of their own; their steps go by this (common practice)."""
MOST_STEP_PLACES = 300
"""More places for a step than this are not looked at on one stretch."""
SHARPEST = math.radians(150)
"""Past this turn a mitre would run away; the corner is then taken as square."""


def stretches_of(plan: Enclosure, sides: tuple[Lie, ...]) -> tuple[Stretch, ...]:
    """All stretches, in order around the plot."""
    datums = _datums(plan, sides)
    found: list[Stretch] = []
    for number, lie in enumerate(sides):
        corners = _Corners.of(plan, sides, number)
        for run in lie.side.runs:
            if run.buildup is not None:
                found.extend(_of_run(plan, lie, run, corners, datums))
    return tuple(found)


@dataclass(frozen=True, kw_only=True)
class _Corners:
    """What meets a side at its two corners: the turn and the wall there; None where no wall comes."""

    before: tuple[float, Meter] | None
    after: tuple[float, Meter] | None

    @staticmethod
    def of(plan: Enclosure, sides: tuple[Lie, ...], number: int) -> _Corners:
        count = len(sides)
        before = after = None
        if number > 0 or plan.is_closed:
            other = sides[(number - 1) % count]
            before = _meeting(plan, other.side.runs[-1], other.side, turn_between(other, sides[number]), at_end=True)
        if number < count - 1 or plan.is_closed:
            other = sides[(number + 1) % count]
            after = _meeting(plan, other.side.runs[0], other.side, turn_between(sides[number], other), at_end=False)
        return _Corners(before=before, after=after)


def _meeting(plan: Enclosure, run: Run, side: Side, turn: float, *, at_end: bool) -> tuple[float, Meter] | None:
    wall = plan.buildups[run.buildup].wall if run.buildup is not None else None
    place = run.end if at_end else run.start
    gates = (gate.taken for gate in plan.gates_in(side.name))
    if wall is None or any(start - 1e-6 <= place <= end + 1e-6 for start, end in gates):
        return None
    return turn, wall.thickness


def _datums(plan: Enclosure, sides: tuple[Lie, ...]) -> Mapping[str, Meter]:
    """A course line for each build-up, so that all its courses meet around the plot."""
    highs: dict[str, Meter] = {}
    for lie in sides:
        for run in lie.side.runs:
            if run.buildup is not None and plan.buildups[run.buildup].wall is not None:
                top = highest(lie.ground(run.start, run.end)[0])
                highs[run.buildup] = max(highs.get(run.buildup, -math.inf), top)
    return {name: high + _height(plan.buildups[name]) for name, high in highs.items()}


def _height(buildup: Buildup) -> Meter:
    return buildup.wall.height if buildup.wall is not None else 0.0


def _of_run(
    plan: Enclosure, lie: Lie, run: Run, corners: _Corners, datums: Mapping[str, Meter]
) -> list[Stretch]:  # fmt: skip
    openings = [gate.taken for gate in plan.gates_in(lie.side.name)]
    parts = [part for part in subtract((run.start, run.end), openings) if part[1] - part[0] > 0.01]
    buildup = plan.buildups[run.buildup or ""]
    letters = [_letters(place) if len(parts) > 1 else "" for place in range(len(parts))]
    datum = datums.get(buildup.name)
    found = []
    for part, letter in zip(parts, letters, strict=True):
        kinds = (_kind_at(plan, lie, run, part[0], corners.before), _kind_at(plan, lie, run, part[1], corners.after))
        bare = _Bare(lie=lie, run=run, buildup=buildup, part=part, letter=letter, kinds=kinds, corners=corners,
                     datum=datum, outer_is_right=outside_is_right(plan))  # fmt: skip
        found.append(_stretch(bare))
    return found


def _letters(number: int) -> str:
    """a to z, then aa and on."""
    before, last = divmod(number, 26)
    return (_letters(before - 1) if before else "") + ascii_lowercase[last]


@dataclass(frozen=True, kw_only=True)
class _Bare:
    """All that a stretch is made of."""

    lie: Lie
    run: Run
    buildup: Buildup
    part: Interval
    letter: str
    kinds: tuple[EndKind, EndKind]
    corners: _Corners
    datum: Meter | None
    outer_is_right: bool


@lru_cache(maxsize=128)  # while one corner is dragged, most stretches stay what they were
def _stretch(bare: _Bare) -> Stretch:
    lie, run, buildup, (start, end) = bare.lie, bare.run, bare.buildup, bare.part
    ground, outside = lie.ground(start, end)
    steps = _steps(buildup, ground, lie.side.follow, bare.datum)
    left, right = _faces(buildup.wall, end - start, bare.kinds, bare.corners)
    outer, inner = (right, left) if bare.outer_is_right else (left, right)
    return Stretch(
        name=run.name + bare.letter, run=run.name, side=lie.side.name, buildup=buildup, start=start, end=end,
        points=(lie.at(start), lie.at(end)), start_kind=bare.kinds[0], end_kind=bare.kinds[1], outer=outer,
        inner=inner, ground=ground, outside=outside, steps=steps.steps if steps else (),
        tops=steps.tops if steps else (), joints=_joints(lie, bare.part, buildup.wall, steps, bare.kinds),
    )  # fmt: skip


def outside_is_right(plan: Enclosure) -> bool:
    """Whether the outside lies right of the way along the sides: for plots going round to the left, and open ones."""
    path = plan.path
    doubled = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(path, (*path[1:], path[0]), strict=True))
    return not plan.is_closed or doubled > 0


def _kind_at(
    plan: Enclosure, lie: Lie, run: Run, along: Meter, meeting: tuple[float, Meter] | None
) -> EndKind:  # fmt: skip
    inner = next((other for other in lie.side.runs if other is not run and along in (other.start, other.end)), None)
    if any(abs(along - edge) < 1e-6 for gate in plan.gates_in(lie.side.name) for edge in gate.taken):
        return EndKind.GATE
    if inner is not None and inner.neighbor:
        return EndKind.NEIGHBOR
    if inner is not None:
        bare = plan.buildups[run.buildup or ""].wall is not None and plan.buildups[inner.buildup or ""].wall is None
        return EndKind.OPEN if bare else EndKind.BUTT
    if meeting is not None:
        return EndKind.CORNER
    return EndKind.OPEN


def _steps(buildup: Buildup, ground: Profile, follow: Follow, datum: Meter | None) -> Steps | None:
    wall, footing = buildup.wall, buildup.footing
    if wall is None:
        return None
    rules = StepRules(
        course=_rise(wall, wall.height + max((footing.below_ground - footing.thickness) if footing else 0.0, 0.0)),
        height=wall.height,
        minimum_step=SHORTEST_STEP,
        footing_thickness=footing.thickness if footing else 0.0,
        depth=footing.below_ground if footing else 0.0,
        module=_module(wall, ground[-1][0]),
        datum=datum,
        worth=STEP_SAVES,
    )
    return stepped(ground, rules, TopLine.RAKED if follow is Follow.RAKE else TopLine.STEPPED)


def course_of(wall: Wall) -> Meter:
    """Height of one course or lift with its joint."""
    if wall.kind.has("unit_height") and wall.kind.word("make") != "sheet":
        return wall.kind.value("unit_height") + (wall.kind.value("joint") if wall.kind.has("joint") else 0.0)
    if wall.kind.word("make") == "poured" or not wall.kind.has("lift"):
        return FREE_COURSE  # a form is set to any height
    return wall.kind.value("lift")


def lift_of(wall: Wall) -> Meter:
    """Height poured or rammed at once, else a course."""
    return wall.kind.value("lift") if wall.kind.has("lift") else course_of(wall)


def _rise(wall: Wall, whole: Meter) -> Meter:
    """What steps go by: a course, or where there are none a part of the whole height, so that it comes out exact."""
    course = course_of(wall)
    return whole / max(round(whole / course), 1) if course == FREE_COURSE else course


def _module(wall: Wall, length: Meter) -> Meter:
    """Steps stand at half units, or at whole multiples of them on walls so long that nobody would look at each."""
    half = SHORTEST_STEP / 4
    if wall.kind.has("unit_length"):
        half = (wall.kind.value("unit_length") + (wall.kind.value("joint") if wall.kind.has("joint") else 0.0)) / 2
    return half * math.ceil(length / (half * MOST_STEP_PLACES))


def _faces(wall: Wall | None, length: Meter, kinds: tuple[EndKind, EndKind], corners: _Corners) -> tuple[Meter, Meter]:
    """Length of the left and the right face: at a corner the inner one loses what the outer one gains."""
    left = length
    if wall is not None:
        if kinds[0] is EndKind.CORNER and corners.before is not None:
            left += mitre(corners.before[0], wall.thickness, corners.before[1])
        if kinds[1] is EndKind.CORNER and corners.after is not None:
            left += mitre(corners.after[0], wall.thickness, corners.after[1])
    return left, 2 * length - left


def mitre(turn: float, own: Meter, other: Meter) -> Meter:
    """How much longer the left face is than the center line at a corner turning left by `turn` (negative for right).

    The left faces of two walls centered on their lines, of thickness `own` and `other`, meet at this distance past
    the corner; the right faces at the opposite distance, so that the plan area is center line times thickness exactly.
    """
    if abs(turn) < 1e-6:
        return 0.0
    bounded = math.copysign(min(abs(turn), SHARPEST), turn)
    return (own / 2 * math.cos(bounded) - other / 2) / math.sin(bounded)


def _joints(
    lie: Lie, part: Interval, wall: Wall | None, steps: Steps | None, kinds: tuple[EndKind, EndKind]
) -> tuple[Joint, ...]:  # fmt: skip
    if wall is None or steps is None:
        return ()
    start, length = part[0], part[1] - part[0]
    forced = [step.start for step in steps.steps[1:]]
    most = most_between_joints(wall, min(step.height for step in steps.steps))
    places = tuple(forced)
    if math.isfinite(most):
        places = joint_places(length, min(most, length * 2), [*forced, *_by_corners(length, most, kinds, forced)])
    return tuple(Joint(at=start + place, point=lie.at(start + place), why=_why(place, forced)) for place in places)


def _by_corners(length: Meter, most: Meter, kinds: tuple[EndKind, EndKind], steps: list[Meter]) -> list[Meter]:
    """Joints half a panel from each corner, where the wall beyond holds the end; one amid a short wall."""
    near = (any(step <= most / 2 for step in steps), any(length - step <= most / 2 for step in steps))
    first, last = (kind is EndKind.CORNER and not stepped for kind, stepped in zip(kinds, near, strict=True))
    if first and last and most / 2 < length <= most:
        return [length / 2]
    places = [most / 2] if first and length > most / 2 else []
    return [*places, *([length - most / 2] if last and length > most / 2 else [])]


def _why(place: Meter, forced: list[Meter]) -> str:
    return "step" if any(abs(place - other) < 1e-6 for other in forced) else "spacing"


def most_between_joints(wall: Wall, panel_height: Meter) -> Meter:
    """Longest panel between control joints: the plan's own, else the kind's rule; endless where there is none.

    Args:
        wall: as planned
        panel_height: from the footing to the top
    """
    if wall.joints is not None:
        return wall.joints
    by_ratio = wall.kind.value("joint_ratio") * panel_height if wall.kind.has("joint_ratio") else math.inf
    by_length = wall.kind.value("joint_spacing") if wall.kind.has("joint_spacing") else math.inf
    return min(by_ratio, by_length)
