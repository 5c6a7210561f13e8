"""Where hinges and latch sit, whether a hand reaches the latch from both sides, and what the seasons do to its gap."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.figures import Figure, practice, printed
from pinfold.sources import Standing
from pinfold.studies.gates.records import GateFrame, HingePlaces, nearest_mark
from pinfold.studies.layout.records import GatePlace
from pinfold.tables.shelf import shelf
from pinfold.units import METER, RATIO, Meter

INSET = practice("15 cm", METER, "hinge from the edge of the leaf, no more than a sixth of its height")
HANDY = practice("1 m", METER, "height of a latch for a grown person, 90 cm to 1.1 m")
REACH_OVER = practice("1.35 m", METER, "highest edge that a hand reaches over")
REACH_DOWN = practice("35 cm", METER, "how far a hand reaches down behind it")
HAND = practice("10 cm", METER, "opening that a hand passes")
CHILD_LATCH = printed("54 in", METER, Standing.READ, "POOL-BARRIER", "latches under this are to sit inside, 3 in down")
CHILD_HOLE = printed("1/2 in", METER, Standing.READ, "POOL-BARRIER", "largest opening within 18 in of such a latch")
WET = practice("0.22", RATIO, "moisture of wood in a wet month")
DRY = practice("0.09", RATIO, "moisture of wood after a dry summer")
BUILT = practice("0.15", RATIO, "moisture of air-dried wood when the leaf is made")


@dataclass(frozen=True, kw_only=True)
class LatchPlace:
    """Where the latch sits and how it is worked from both sides.

    Attributes:
        at: height above the leaf's foot.
        above_ground: height above the sill.
        reach: over the top, through the infill, through a hole, or both sides by a rod.
        says: how, in words.
        notes: what else to mind.
    """

    at: Meter
    above_ground: Meter
    reach: str
    says: str
    notes: tuple[str, ...]


def hinge_places(frame: GateFrame) -> HingePlaces:
    """Two hinges a hand's breadth from the leaf's edges, nearer on a low leaf."""
    size = frame.size
    inset = min(INSET.value, size.meters(size.height) / 6)
    lower = max(nearest_mark(inset, size.system), frame.member // 2)
    return HingePlaces(lower=lower, upper=size.height - lower)


def latch_place(frame: GateFrame, place: GatePlace) -> LatchPlace:
    """At the height the plan says, or at a handy one within the leaf that a hand reaches over or through to."""
    gate, lift = place.gate, place.hang - place.sill
    top = lift + gate.height
    wanted = gate.hanging.latch_at
    if wanted is None:
        wanted = max(HANDY.value, top - REACH_DOWN.value + 0.05) if top <= REACH_OVER.value else HANDY.value
    edge = frame.size.meters(frame.member)
    at = min(max(wanted - lift, edge), gate.height - edge)
    reach, says = _reached(frame, top, at + lift)
    off = () if gate.hanging.latch_at is None or abs(at - wanted + lift) < 1e-6 else (_OFF_LEAF,)
    return LatchPlace(at=at, above_ground=at + lift, reach=reach, says=says, notes=(*off, *_notes(at + lift)))


_OFF_LEAF = "latch_at of the plan lies off the leaf: the nearest place on it is told"


def _reached(frame: GateFrame, top: Meter, at: Meter) -> tuple[str, str]:
    opening = mesh_opening(frame)
    if top <= REACH_OVER.value and top - at <= REACH_DOWN.value:
        return "over", "a hand reaches over the top to it from both sides"
    if opening is not None and opening[0] >= HAND.value:
        return "through", "a hand reaches through the infill to it"
    if top <= REACH_OVER.value:
        return "rod", "too far down to reach over the top: a rod or cord through the stile works it from the other side"
    return "hole", (
        "too high to reach over and too close to reach through: a hole of 10 cm (4 in) beside it, or a latch with a "
        "rod through the stile"
    )


def _notes(at: Meter) -> tuple[str, ...]:
    if at >= CHILD_LATCH.value:
        return ()
    return (
        "lower than 1.37 m (54 in) a young child reaches it: where water or an animal is a danger, set it on the inner "
        "side, 75 mm (3 in) under the top, with no opening over 13 mm (1/2 in) within 45 cm (18 in) of it",
    )


def mesh_opening(frame: GateFrame) -> tuple[Meter, Meter] | None:
    """Smaller and larger side of one opening of what fills the leaf; None for a sheet."""
    filling = shelf("meshes").get(frame.gate.kind.word("infill"))
    if filling is None or not (filling.has("opening_wide") and filling.has("opening_high")):
        return None
    low, high = sorted((filling.value("opening_wide"), filling.value("opening_high")))
    return low, high


SEASON_FIGURES: tuple[tuple[str, Figure], ...] = (
    ("moisture in a wet month", WET), ("moisture after a dry summer", DRY), ("moisture when made", BUILT),
)  # fmt: skip
