"""Drawings of a site for the screen: their list, one as SVG or DXF, all as one archive; nothing is written to disk."""

from __future__ import annotations

import io
import zipfile
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from pinfold.actions.sites import Site, open_site
from pinfold.drawings.all_scenes import largest_sheet, scenes
from pinfold.drawings.dxf import placed_dxf
from pinfold.drawings.lettering import FAMILY
from pinfold.drawings.scenes import Scene
from pinfold.drawings.sheets import Sheet
from pinfold.drawings.styles import night_rules
from pinfold.drawings.svg import sheet_svg
from pinfold.errors import NotFoundError
from pinfold.reports.binder.typeset import FONTS

FACES = {"AtkinsonHyperlegibleNext_400Regular.ttf": 400, "AtkinsonHyperlegibleNext_700Bold.ttf": 700}
"""Faces that drawings are lettered in, and their weights."""

GROUPS = {
    "elevation": ("from outside", ", seen from outside"), "section": ("sections", "section of "),
    "gate": ("gates", ", seen from outside"), "leaf": ("leaves", ", one leaf seen from outside"),
}  # fmt: skip
"""Kinds of drawings by how their names begin: in words, and what their titles have in common."""


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """One drawing in the list.

    Attributes:
        name: in addresses and file names.
        title: what it shows, without the plot's name.
        group: what kind of drawing it is, in words.
        label: what of, within its group.
    """

    name: str
    title: str
    group: str
    label: str


def drawings(folder: Path) -> tuple[Drawing, ...]:
    """Every drawing of a site's plan, in the order of the binder.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    return tuple(_listed(name, scene) for name, scene in _scenes(open_site(folder)).items())


def _listed(name: str, scene: Scene) -> Drawing:
    title = scene.title.partition(": ")[2] or scene.title
    group, told = GROUPS.get(name.partition("-")[0], ("from above", ""))
    return Drawing(name=name, title=title, group=group, label=title.replace(told, "") if told else title)


def drawing_svg(folder: Path, name: str) -> str:
    """One drawing as SVG text.

    Raises:
        NotFoundError: no drawing of that name, or no site; further as reading the site tells.
        NoSolutionError: its texts fit on no sheet.
    """
    return _svg(_known(open_site(folder), name), name)


def drawing_dxf(folder: Path, name: str) -> bytes:
    """One drawing as DXF; raises as `drawing_svg`."""
    return placed_dxf(_sheet(_known(open_site(folder), name), name).placed)


def all_drawings(folder: Path) -> bytes:
    """Every drawing as SVG and DXF in one ZIP archive; raises as `drawing_svg`."""
    return _packed(open_site(folder))


@lru_cache(maxsize=1)
def _packed(site: Site) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name in _scenes(site):
            for end, content in (("svg", _svg(site, name)), ("dxf", placed_dxf(_sheet(site, name).placed))):
                archive.writestr(zipfile.ZipInfo(f"{name}.{end}"), content, zipfile.ZIP_DEFLATED)
    return packed.getvalue()


def screen_style() -> str:
    """Style rules of drawings on a screen: the faces they are lettered in, and their inks after dark."""
    faces = [
        f'@font-face{{font-family:"{FAMILY}";src:url("/drawings/{name}") format("truetype");'
        f"font-weight:{weight};font-display:swap}}"
        for name, weight in FACES.items()
    ]
    return "\n".join([*faces, "@media screen and (prefers-color-scheme: dark) {", night_rules(), "}", ""])


def face(name: str) -> bytes:
    """A font file that `screen_style` names.

    Raises:
        NotFoundError: no such file.
    """
    if name not in FACES:
        raise NotFoundError("there is no such file")
    return (FONTS / name).read_bytes()


def _known(site: Site, name: str) -> Site:
    if name not in _scenes(site):
        raise NotFoundError(f"the plan has no drawing {name!r}; it has {', '.join(_scenes(site))}")
    return site


@lru_cache(maxsize=4)
def _scenes(site: Site) -> dict[str, Scene]:
    return {scene.name: scene for scene in scenes(site.layout)}


@lru_cache(maxsize=64)
def _sheet(site: Site, name: str) -> Sheet:
    return largest_sheet(_scenes(site)[name], paper=site.plan.paper, system=site.plan.units)


@lru_cache(maxsize=64)
def _svg(site: Site, name: str) -> str:
    return sheet_svg(_sheet(site, name))
