"""Findings on cracks of a stretch: how wide its worst panel opens, and whether joints stand where walls part."""

from __future__ import annotations

from itertools import pairwise

from pinfold.figures import practice
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import cracking
from pinfold.studies.layout.records import EndKind, Stretch
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.cracking.holding import (
    CREEP,
    FOOTING_MODULUS,
    HALFWAY,
    TOLERATED,
    Panel,
    least_steel,
    steel_of,
    width_with,
)
from pinfold.studies.stability.cracking.shrinking import known_thickness, shortening_of
from pinfold.studies.stability.ends import has_wall
from pinfold.units import METER, RATIO

NEAR = practice("2 ft", METER, "a joint so near a step serves it")
LEFT_OUT = (
    "settlement; the first days' heat of thick pours; swelling and drying with the seasons; cracks in the coats, which "
    "follow those of the wall"
)


def cracking_findings(ask: Exposed) -> tuple[Finding, ...]:
    """Two findings on a stretch of wall; nothing without wall, or of dry stone, which moves by itself."""
    stretch = ask.stretch
    wall = stretch.buildup.wall
    if wall is None or not has_wall(stretch) or (wall.kind.word("make") == "stone"):
        return ()
    subject = f"stretch {stretch.name}"
    return (
        answered(Question(check="shrinkage", subject=subject, left_out=LEFT_OUT), lambda: _shrinkage(ask)),
        _set_out(stretch, subject),
    )


def longest_panel(ask: Exposed) -> Panel:
    """The longest panel of a stretch.

    Raises:
        NotFoundError: shrinkage, expansion, modulus or strain capacity are not known.
    """
    stretch, wall = ask.stretch, ask.stretch.buildup.wall
    assert wall is not None
    known_thickness(wall)
    places = [stretch.start, *(joint.at for joint in stretch.joints), stretch.end]
    return Panel(
        buildup=stretch.buildup, wall=wall, length=max(after - before for before, after in pairwise(places)),
        height=min(step.height for step in stretch.steps), shortens=shortening_of(wall, ask.place),
    )  # fmt: skip


def _shrinkage(ask: Exposed) -> Finding:
    """The crack its longest panel opens, as built; what drying alone does not open, cooling may."""
    panel = longest_panel(ask)
    restrained, opens, before = panel.strains()
    plain = work(
        cracking.crack_width, why="one crack takes all of the panel", strain=opens.number, spacing=panel.length
    )
    whole: tuple[float, tuple[Step, ...], str] = (0.0, (plain,), "it stays whole")
    width, steps, note = whole if plain.number <= 0 else _with_steel(panel, restrained.number, plain)
    holds, kind = keeps_to(width, TOLERATED.value), panel.wall.kind
    shown = panel.shortens.cooled or not holds
    return Finding(
        check="shrinkage", subject="", demand=width, capacity=TOLERATED.value if shown else None, unit=METER,
        because=told("" if shown else _DRYING_ALONE, note, *panel.shortens.notes),
        working=(*panel.shortens.working, *before, restrained, opens, *steps),
        figures=(
            *panel.shortens.figures, ("strain capacity", kind.figure("strain_capacity")),
            ("modulus", kind.figure("modulus")), ("modulus of the footing", FOOTING_MODULUS), ("creep", CREEP),
            ("height looked at", HALFWAY), ("crack width tolerated", TOLERATED),
        ),
        mend="" if holds else "joints nearer together, drier and older blocks, or steel in the beds",
    )  # fmt: skip


_DRYING_ALONE = "by drying alone it would hold"


def _with_steel(panel: Panel, strain: float, plain: Step) -> tuple[float, tuple[Step, ...], str]:
    """The crack with the steel laid, and what more of it would buy."""
    least, laid = least_steel(panel), steel_of(panel.wall)
    if laid < least.number:
        return plain.number, (plain, least), "" if laid <= 0 else _TOO_LITTLE
    spaced, wide = width_with(panel, laid, strain)
    return wide.number, (plain, least, spaced, wide), "steel in the beds makes fine cracks of one wide one"


_TOO_LITTLE = "the steel in its beds is too little to make fine cracks of one wide one; it keeps the wall together"


def _set_out(stretch: Stretch, subject: str) -> Finding:
    """Whether every place where walls part by themselves has a joint, or is an end already."""
    steps = [stretch.start + step.start for step in stretch.steps[1:]]
    jointed = [place for place in steps if any(abs(joint.at - place) <= NEAR.value for joint in stretch.joints)]
    ends = [_ENDS[kind] for kind in (stretch.start_kind, stretch.end_kind)]
    return Finding(
        check="joint set-out", subject=subject, demand=float(len(steps)), capacity=float(len(jointed)), unit=RATIO,
        because=told(_at_steps(len(steps), len(jointed)), *ends), figures=(("joint beside a step", NEAR),),
        mend="" if len(jointed) == len(steps) else "a joint at each step of the wall",
        left_out="joints in the footing, which goes on under openings; the filler and its width",
    )  # fmt: skip


_ENDS = {
    EndKind.CORNER: "at the corner the wall is bonded around: the first joint comes at half the distance, see its "
    "joints",
    EndKind.BUTT: "where it meets the next run, build a joint and do not bond them",
    EndKind.NEIGHBOR: "against the neighbor leave a joint: the two move apart",
    EndKind.GATE: "the opening of a gate parts it by itself",
    EndKind.OPEN: "",
}


def _at_steps(needed: int, jointed: int) -> str:
    if not needed:
        return "no step or change of height in it"
    if jointed < needed:
        return f"{needed - jointed} of its {needed} steps have no joint near"
    return f"a joint stands at each of its {needed} steps" if needed > 1 else "a joint stands at its step"
