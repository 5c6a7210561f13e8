"""Cells of the structural tables by name: tension in bed joints and safe heights of garden walls."""

from __future__ import annotations

from pinfold.figures import Figure
from pinfold.tables.shelf import kind


def flexural_figure(*, bedding: str, mortar: str, basis: str) -> Figure:
    """Tension that bed joints of unreinforced masonry stand, normal to the joints.

    Args:
        bedding: `solid`, `hollow` or `grouted`
        mortar: `cement-lime-s`, `cement-lime-n`, `masonry-cement-s` or `masonry-cement-n`
        basis: `allowable` (working stress), `rupture` (strength, later code) or `rupture08` (strength, 2008 code,
            few cells)

    Raises:
        NotFoundError: no such cell; `rupture08` knows the cells that were read only.
    """
    return kind("flexure", bedding).figure(f"{basis}_{mortar.replace('-', '_')}")


def safe_height_figure(*, wall: str, zone: str) -> Figure:
    """Height of a straight garden wall by British guidance.

    Args:
        wall: `half-brick`, `one-brick`, `one-and-a-half-brick`, `block-100` or `block-200`
        zone: wind zone, `1` to `4`

    Raises:
        NotFoundError: no such cell.
    """
    return kind("safe_heights", wall).figure(f"zone_{zone}")
