"""The jacking sheet of a structure on blocks: order of lifts, loads, what must hold."""

from __future__ import annotations

from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.level import LevelAsked, leveled, nothing
from pinfold.actions.level_site import SiteLevels, level_site
from pinfold.actions.sites import open_site
from pinfold.errors import NoSolutionError, NotFoundError, OutOfRangeError
from pinfold.figures import Figure, given
from pinfold.reports.level_jack import Jacking, jack_page
from pinfold.reports.level_page import Leveled
from pinfold.studies.leveling.carrying import Carried, carried
from pinfold.studies.leveling.checks import jacking_checks
from pinfold.studies.leveling.ordering import BEND, STEP, JackStep, Lifted, jacking_order
from pinfold.studies.leveling.program import Told
from pinfold.studies.stability.blocks.piers import load_of
from pinfold.units import KILOGRAM, METER, NEWTON, System


def jack_of(folder: Path, asked: LevelAsked, *, told: Told | None = None) -> Answer:
    """Every lift in order, with what each support carries and what must hold before the first.

    Args:
        folder: of the site
        asked: as typed
        told: of the progress

    Raises:
        NotFoundError, InvalidPlan, StoreError, NewerFileError: as `level_of`.
    """
    levels = level_site(folder, asked.neighbor)
    if levels is None:
        site = open_site(folder)
        bare = jacking_without(nothing(site))
        return answer_from(site, bare, jack_page(bare, site.plan.units))
    found = jacked(levels, leveled(levels, asked, told=told))
    return answer_from(levels.site, found, jack_page(found, levels.site.plan.units))


def jacking_without(leveled: Leveled) -> Jacking:
    """What is left to tell where nothing can be jacked."""
    return Jacking(
        leveled=leveled, steps=(), step=STEP[System.METRIC].value, bend=BEND.value, loads=(), checks=(), because=(),
        figures=(),
    )  # fmt: skip


def jacked(levels: SiteLevels, leveled: Leveled) -> Jacking:
    """The sheet out of how it lies."""
    moves = leveled.moves
    if moves is None or leveled.lie is None or not moves.touched:
        return jacking_without(leveled)
    step = _step(levels)
    loads, no_loads = _loads(levels)
    steps, no_steps = _order(levels, leveled, step.value)
    lifted = [move.mark for move in moves.touched]
    checks = jacking_checks(levels.neighbor, levels.blocks, levels.site.plan.place, loads, lifted) if loads else ()
    return Jacking(
        leveled=leveled, steps=steps, step=step.value, bend=BEND.value, loads=loads, checks=checks,
        because=tuple(text for text in (no_loads, no_steps) if text),
        figures=(*leveled.figures, ("lift before the next support", step), ("bend of neighbors", BEND),
                 *_weights(levels)),
    )  # fmt: skip


def _step(levels: SiteLevels) -> Figure:
    own = levels.blocks.leveling.step
    return STEP[levels.site.plan.units] if own is None else given(own, METER)


def _weights(levels: SiteLevels) -> tuple[tuple[str, Figure], ...]:
    blocks = levels.blocks
    return (("mass", given(blocks.mass or 0.0, KILOGRAM)), ("live", given(blocks.live, NEWTON)))


def _loads(levels: SiteLevels) -> tuple[tuple[Carried, ...], str]:
    blocks = levels.blocks
    try:
        load = load_of(blocks) + blocks.live
        return carried(blocks.leveling.supports, levels.neighbor.footprint, load=load), ""
    except (NotFoundError, OutOfRangeError) as fault:
        return (), f"{fault}; without it neither jack, crib nor ground can be shown to hold"


def _order(levels: SiteLevels, leveled: Leveled, step: float) -> tuple[tuple[JackStep, ...], str]:
    assert leveled.moves is not None, "asked where there are moves"
    places = {support.mark: support.at for support in levels.blocks.leveling.supports}
    supports = [
        Lifted(mark=move.mark, at=places[move.mark], height=move.after - move.lift, lift=move.lift)
        for move in leveled.moves.moves
    ]  # fmt: skip
    try:
        return jacking_order(supports, step=step), ""
    except NoSolutionError as fault:
        return (), str(fault)
