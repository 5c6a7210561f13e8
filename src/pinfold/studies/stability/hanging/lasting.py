"""Whether a leaf still latches: what it sinks in years, and what dry and wet months do to its gap."""

from __future__ import annotations

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import creep
from pinfold.studies.gates.latching import BUILT, DRY, SEASON_FIGURES, WET
from pinfold.studies.gates.records import GateFrame
from pinfold.studies.gates.sag import sag_of
from pinfold.studies.stability.hanging.figures import CATCH, LATCH_PLAY, LATCH_THROW, RUB
from pinfold.units import METER


def sunk(frame: GateFrame) -> Finding:
    """The most that the latch side sinks, against what a latch puts up with."""
    sag = sag_of(frame)
    holds = keeps_to(sag.high, LATCH_PLAY.value)
    return Finding(
        check="", subject="", demand=sag.high, capacity=LATCH_PLAY.value, unit=METER,
        because="the most of it: half is likely, a quarter the least; a latch puts up with so much up and down",
        working=sag.steps, figures=(*sag.figures, ("play of the latch", LATCH_PLAY)),
        mend="" if holds else "a wire with a turnbuckle beside the strut, dry wood, tighter joints, a lighter leaf",
    )  # fmt: skip


def seasoned(frame: GateFrame) -> Finding:
    """What the gap at the latch loses when the wood is wet, and how little of the latch is caught when it is dry."""
    made, size = frame.made, frame.size
    if made.word("material") != "wood":
        return _steel(frame)
    across, leaves = made.figure("across"), frame.gate.leaves
    wide = 2 * size.meters(frame.member)
    wetter = work(
        creep.swollen, why="both stiles, made dry, wet at last", width=wide, coefficient=across.value, wet=WET.value,
        dry=BUILT.value,
    )  # fmt: skip
    drier = work(
        creep.swollen, why="both stiles after a dry summer", width=wide, coefficient=across.value, wet=BUILT.value,
        dry=DRY.value,
    )  # fmt: skip
    sides = 1 if leaves == 1 else 2
    latch_gap = size.meters(size.gaps[1] if leaves == 2 else size.gaps[-1])
    closes = sides * wetter.number + RUB.value
    caught = LATCH_THROW.value - latch_gap - sides * drier.number
    loose = caught < CATCH.value
    return Finding(
        check="", subject="", demand=latch_gap + sides * drier.number + CATCH.value if loose else closes,
        capacity=LATCH_THROW.value if loose else latch_gap, unit=METER,
        because="dry wood opens the gap so far that the latch lets go" if loose
        else "wet wood closes the gap; across the grain of both stiles, the rails do not lengthen",
        working=(wetter, drier),
        figures=(("swelling across the grain", across), *SEASON_FIGURES, ("what must be left", RUB),
                 ("reach of the latch", LATCH_THROW), ("caught", CATCH)),
        mend="a latch that reaches further, or a smaller gap" if loose
        else "" if keeps_to(closes, latch_gap) else "a wider gap, or wood made at the moisture it will have",
    )  # fmt: skip


def _steel(frame: GateFrame) -> Finding:
    size = frame.size
    latch_gap = size.meters(size.gaps[1] if frame.gate.leaves == 2 else size.gaps[-1])
    if latch_gap <= 0:
        raise NotFoundError(
            "the plan leaves no gap at the latch: it jams; write gap beside the gate, 1/2 in (13 mm) is usual"
        )
    demand = latch_gap + CATCH.value
    return Finding(
        check="", subject="", demand=demand, capacity=LATCH_THROW.value, unit=METER,
        because="steel moves under a millimeter with the seasons: the latch must bridge the gap and stay caught",
        figures=(("reach of the latch", LATCH_THROW), ("caught", CATCH)),
        mend="" if keeps_to(demand, LATCH_THROW.value) else "a latch that reaches further, or a smaller gap",
    )  # fmt: skip
