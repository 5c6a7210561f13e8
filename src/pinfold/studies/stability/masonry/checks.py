"""The wall itself as masonry: every check of one stretch beyond the tension in its lowest bed."""

from __future__ import annotations

from pinfold.errors import NotFoundError
from pinfold.findings import Finding
from pinfold.studies.stability.beds import BARRED_CHECK
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.masonry.bars import of_bars
from pinfold.studies.stability.masonry.edges import CHECK as EDGE
from pinfold.studies.stability.masonry.edges import pressed_edge, pulls_nothing
from pinfold.studies.stability.masonry.levels import changes
from pinfold.studies.stability.masonry.panels import CHECK as PANEL
from pinfold.studies.stability.masonry.panels import panel
from pinfold.studies.stability.masonry.proportions import CHECK as SLENDER
from pinfold.studies.stability.masonry.proportions import slender
from pinfold.studies.stability.masonry.shear import CHECK as SHEAR
from pinfold.studies.stability.masonry.shear import shear
from pinfold.studies.stability.walls import over_steps


def of_masonry(ask: Exposed, feet: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Shear, changes on the way up, bars or the pressed edge of one stretch; nothing where no wall stands by itself.

    Args:
        ask: the stretch
        feet: what was found of its foot
    """
    if not has_wall(ask.stretch):
        return ()
    between = (over_steps(ask, PANEL, panel),) if ask.stretch.buildup.piers is not None else ()
    bent = next((found for found in feet if found.check == BARRED_CHECK), None)
    if bent is not None:
        return (*between, *changes(ask), *of_bars(ask, bent))
    found = (*between, over_steps(ask, SHEAR, shear), *changes(ask))
    if not _is_unbonded(ask):
        return found
    return (*found, over_steps(ask, EDGE, pressed_edge), over_steps(ask, SLENDER, slender))


def _is_unbonded(ask: Exposed) -> bool:
    """Whether no tension is taken across the lowest bed; False where that is not known, as its own finding tells."""
    try:
        return pulls_nothing(ask.cases[0])
    except NotFoundError:
        return False
