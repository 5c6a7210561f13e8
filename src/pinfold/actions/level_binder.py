"""The binder's chapter on what stands on blocks: how it lies, its jacking sheet with boxes, how it has settled."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pinfold.actions.level import LevelAsked, leveled
from pinfold.actions.level_jack import jacked
from pinfold.actions.level_settle import settling
from pinfold.actions.level_site import SiteLevels, levels_in, structures
from pinfold.actions.sites import Site
from pinfold.errors import StoreError
from pinfold.reports.binder.records import BinderBlock, BinderPart, Sheet, ticked
from pinfold.reports.level_jack import MUST_HOLD, jack_blocks
from pinfold.reports.level_page import cautions, level_blocks
from pinfold.reports.level_picture import level_sheet
from pinfold.reports.level_settle import settle_blocks
from pinfold.reports.pages import Block, Heading, Paragraph

TITLE = "What stands on blocks"


def level_part(site: Site, *, wide_mm: float) -> BinderPart:
    """The chapter; empty, and so left out, where no structure has supports in the plan.

    Args:
        site: as read
        wide_mm: width of a picture on paper
    """
    first = tuple(caution.text for caution in cautions())
    if not structures(site):
        return BinderPart(title=TITLE)
    try:
        known = [levels for each in structures(site) if (levels := levels_in(site, each.name)) is not None]
    except StoreError:
        return BinderPart(title=TITLE, blocks=(Paragraph(text="NOT SHOWN: the log cannot be read."),), cautions=first)
    return BinderPart(
        title=TITLE, cautions=first, blocks=tuple(block for levels in known for block in _blocks(levels)),
        sheets=tuple(sheet for levels in known for sheet in _sheets(levels, wide_mm)),
    )  # fmt: skip


def _blocks(levels: SiteLevels) -> Iterator[BinderBlock]:
    system, name = levels.site.plan.units, levels.neighbor.name
    found = leveled(levels, LevelAsked())
    yield Heading(text=f"Level: {name}")
    yield from level_blocks(found, system)
    if found.moves is not None and found.moves.touched:
        yield Heading(text=f"Jacking: {name}")
        yield from _ticked(jack_blocks(jacked(levels, found), system))
    if levels.surveys:
        yield Heading(text=f"Settlement: {name}")
        yield from settle_blocks(settling(levels), system)


def _ticked(blocks: Sequence[Block]) -> tuple[BinderBlock, ...]:
    """Boxes for every lift and shim; none for what is only to be read."""
    proof = next((at for at, block in enumerate(blocks) if block == Heading(text=MUST_HOLD)), len(blocks))
    return (*ticked(blocks[:proof]), *blocks[proof:])


def _sheets(levels: SiteLevels, wide_mm: float) -> Iterator[Sheet]:
    svg, high = level_sheet(leveled(levels, LevelAsked()), levels.neighbor, levels.site.plan.units, wide_mm=wide_mm)
    if svg:
        yield Sheet(title=f"{levels.neighbor.name} from above", svg=svg, width_mm=wide_mm, height_mm=high)
