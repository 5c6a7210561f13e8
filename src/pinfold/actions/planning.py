"""What is to be built: check the plan, lay it out, draw it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.sites import open_site
from pinfold.plan.grounds import Bank
from pinfold.reports.plan_page import plan_page
from pinfold.store import planfile
from pinfold.studies.layout.records import GatePlace, Layout, Post, Stretch
from pinfold.units import Meter, SquareMeter

DRAWN = tuple(f"{name}.{end}" for name in ("elevation-*", "section-*", "gate-*") for end in ("svg", "dxf"))
"""Files that drawing makes, besides the plan itself."""


@dataclass(frozen=True, kw_only=True)
class PlanAnswer:
    """How a plan lies on the ground.

    Attributes:
        name: of the plot.
        area: enclosed; None for an open plot.
        perimeter: of all sides.
        built: of what is to be built.
        stretches: of wall and fence.
        posts: all of them.
        gates: in their places.
        banks: earth that stands higher on one face of a wall.
        drawings: files written.
    """

    name: str
    area: SquareMeter | None
    perimeter: Meter
    built: Meter
    stretches: tuple[Stretch, ...]
    posts: tuple[Post, ...]
    gates: tuple[GatePlace, ...]
    banks: tuple[Bank, ...]
    drawings: tuple[str, ...]


def plan_site(folder: Path, drawings: Path | None, changes: Sequence[str] = ()) -> Answer:
    """Check a site's plan, lay it out, and draw it.

    Args:
        folder: site folder
        changes: values to change in the plan file first, each `place=value`; comments are kept
        drawings: folder the drawings go to, as SVG and DXF; None to draw nothing

    Raises:
        InputError: a change whose place is not there.
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and writing the drawings tell.
    """
    if changes:
        planfile.write_changes(folder / planfile.NAME, changes)
    site = open_site(folder)
    written = draw_all(site.layout, drawings, tidy=drawings == folder / "drawings") if drawings is not None else ()
    layout = site.layout
    answer = PlanAnswer(
        name=site.plan.name,
        area=layout.area,
        perimeter=layout.perimeter,
        built=layout.length,
        stretches=layout.stretches,
        posts=layout.posts,
        gates=tuple(layout.gates.values()),
        banks=site.plan.banks,
        drawings=tuple(str(path) for path in written),
    )
    shown = [str(path) for path in written if path.suffix == ".svg"]
    return answer_from(site, answer, plan_page(layout, shown))


def draw_all(layout: Layout, folder: Path, *, tidy: bool) -> tuple[Path, ...]:
    """Draw everything, then write it as SVG and DXF, and give the files.

    Args:
        layout: what to draw
        folder: where the files go
        tidy: take away drawings of an earlier plan that this one has no longer

    Raises:
        NoSolutionError: the texts of a drawing fit on no sheet; nothing is written.
        StoreError: the folder cannot be written.
    """
    from pinfold.drawings.all_scenes import largest_sheet, scenes
    from pinfold.drawings.dxf import placed_dxf
    from pinfold.drawings.svg import sheet_svg
    from pinfold.store.writing import remove, write_bytes

    contents: dict[Path, bytes] = {}
    for scene in scenes(layout):
        sheet = largest_sheet(scene, paper=layout.plan.paper, system=layout.plan.units)
        contents[folder / f"{scene.name}.svg"] = sheet_svg(sheet).encode("utf-8")
        contents[folder / f"{scene.name}.dxf"] = placed_dxf(sheet.placed)
    for path, content in contents.items():
        write_bytes(path, content, make_folder=True)
    if tidy:
        old = [path for pattern in DRAWN for path in folder.glob(pattern)]
        remove(path for path in old if path not in contents)
    return tuple(contents)
