"""All drawings of both samples go on paper with no text over another, and into files that open elsewhere."""

from __future__ import annotations

from dataclasses import replace
from xml.etree import ElementTree

import pyogrio
import pytest

from pinfold.drawings.all_scenes import largest_sheet, scenes
from pinfold.drawings.dxf import placed_dxf
from pinfold.drawings.placing import overlaps
from pinfold.drawings.scenes import LAYERS, NorthArrow, ScaleBar
from pinfold.drawings.sheets import ROOMS
from pinfold.drawings.svg import sheet_svg
from pinfold.plan.enclosure import Paper
from pinfold.studies.layout.resolve import lay_out


@pytest.fixture(scope="module", params=list(Paper))
def sheets(request, layout):
    found = [largest_sheet(scene, paper=request.param, system=layout.plan.units) for scene in scenes(layout)]
    return request.param, found


def test_no_text_stands_over_another(sheets):
    for sheet in sheets[1]:
        pairs = [(" / ".join(one.lines), " / ".join(other.lines)) for one, other in overlaps(sheet.placed)]
        assert pairs == [], sheet.placed.scene.name


def test_every_drawing_fits_its_sheet_at_a_scale_worth_looking_at(sheets):
    paper, found = sheets
    rooms = (ROOMS[paper.value], ROOMS[f"{paper.value} wide"])
    for sheet in found:
        assert any(sheet.width <= wide and sheet.height <= high for wide, high in rooms)
        assert sheet.placed.scale.ratio <= {"p": 200, "e": 128, "s": 25, "g": 64, "l": 24}[sheet.placed.scene.name[0]]


def test_names_differ_and_the_order_is_that_of_the_binder(layout):
    names = [scene.name for scene in scenes(layout)]
    assert len(set(names)) == len(names)
    assert [name.split("-")[0] for name in names] == sorted(
        (name.split("-")[0] for name in names), key=["plan", "elevation", "section", "gate", "leaf"].index
    )
    assert len(names) == 1 + len(layout.plan.sides) + len(layout.plan.buildups) + 2 * len(layout.plan.gates)


def test_sides_whose_names_differ_by_a_mark_only_get_drawings_of_their_own(layout):
    first, second = layout.plan.sides[:2]
    sides = (replace(first, name="east end"), replace(second, name="east-end"), *layout.plan.sides[2:])
    names = [scene.name for scene in scenes(lay_out(replace(layout.plan, sides=sides, gates=())))]

    assert {"elevation-east-end", "elevation-east-end-2"} <= set(names)
    assert len(set(names)) == len(names)


def test_each_drawing_is_well_formed_and_the_same_bytes_twice(layout, sheets):
    paper, found = sheets
    for sheet, scene in zip(found, scenes(layout), strict=True):
        text = sheet_svg(sheet)
        assert ElementTree.fromstring(text).tag.endswith("svg")
        assert sheet_svg(largest_sheet(scene, paper=paper, system=layout.plan.units)) == text


def test_each_drawing_opens_elsewhere_with_its_layers(layout, tmp_path):
    for scene in scenes(layout):
        sheet = largest_sheet(scene, paper=layout.plan.paper, system=layout.plan.units)
        file = tmp_path / f"{scene.name}.dxf"
        file.write_bytes(placed_dxf(sheet.placed))
        meta, _, _, columns = pyogrio.raw.read(file)
        found = set(dict(zip(meta["fields"], columns, strict=True))["Layer"])
        drawn = {
            shape.layer for shape in scene.shapes
            if not isinstance(shape, NorthArrow | ScaleBar) or shape.at is not None
        }  # fmt: skip
        assert drawn <= found <= {*LAYERS, "Defpoints"}


def test_every_drawing_tells_who_cannot_see_it_what_it_shows(layout):
    for scene in scenes(layout):
        assert len(scene.about) > 30
        assert scene.title.startswith(layout.plan.name)
