"""The DXF writer, read back by an independent reader and by the library's own audit."""

from __future__ import annotations

import io
import math

import ezdxf
import numpy as np
import pyogrio
import pytest
import shapely

from pinfold.drawings.dxf import placed_dxf, write_dxf
from pinfold.drawings.placing import place
from pinfold.drawings.scales import metric
from pinfold.drawings.scenes import (
    HATCHES,
    LAYERS,
    Arc,
    Area,
    Circle,
    Dimension,
    Label,
    NorthArrow,
    Polyline,
    Scene,
    Shape,
    Tick,
)
from pinfold.drawings.styles import STYLES

SCALE = metric(20)
WALL = ((0.0, 0.0), (4.25, 0.0), (4.25, 1.1), (0.0, 1.1))
EVERYTHING: tuple[Shape, ...] = (
    Area(layer="wall", points=WALL, hatch="block", holes=(((1, 0.2), (2, 0.2), (2, 0.8)),)),
    *(
        Area(layer="coat", points=((x, 2), (x + 0.8, 2), (x + 0.8, 2.5), (x, 2.5)), hatch=hatch)
        for x, hatch in enumerate(HATCHES)
    ),
    Polyline(layer="line", points=((-1, -1), (2.125, -1.5)), dashed=True),
    Circle(layer="bar", center=(0.5, 0.2), radius=0.01, filled=True),
    Arc(layer="swing", center=(0, 0), radius=0.5, start=0, end=math.pi / 2),
    Arc(layer="gate", center=(3, 0), radius=0.5, start=1, end=1),
    Label(at=(0.5, 0.5), text="coping\nof stone", reach=12),
    Label(at=(0, 0), text="50 %% \\U+0041 ^J {a} <>", layer="note"),
    Dimension(start=(4.25, 0), end=(0, 0), offset=8, text="4.250 m"),
    Dimension(start=(0, 0), end=(0, 1.1), offset=8, text="{1.1} <> \\P"),
    Dimension(start=(0, 0), end=(0, 0), offset=8, text="none"),
    Tick(layer="mark", at=(1, 1), turn=0.5),
    NorthArrow(turn=0.3, at=(5, 1)),
    NorthArrow(),
)


def scene(*shapes: Shape) -> Scene:
    return Scene(name="trial", title="Trial", shapes=shapes)


@pytest.fixture(scope="module")
def written() -> bytes:
    return write_dxf(scene(*EVERYTHING), scale=SCALE)


@pytest.fixture(scope="module")
def read_back(written, tmp_path_factory) -> list[tuple[str, str, shapely.Geometry]]:
    """(layer, text, geometry) of every entity, as the independent reader has them."""
    file = tmp_path_factory.mktemp("dxf") / "trial.dxf"
    file.write_bytes(written)
    meta, _, geometry, columns = pyogrio.raw.read(file)
    fields = dict(zip(meta["fields"], columns, strict=True))
    return list(zip(fields["Layer"], fields["Text"], shapely.from_wkb(geometry), strict=True))


def on(layer: str, read_back: list[tuple[str, str, shapely.Geometry]]) -> list[shapely.Geometry]:
    return [geometry for name, _, geometry in read_back if name == layer]


def test_an_independent_reader_finds_every_layer(read_back):
    used = {shape.layer for shape in EVERYTHING}
    assert used <= {layer for layer, _, _ in read_back}
    assert {layer for layer, _, _ in read_back} <= {*LAYERS, "Defpoints"}


def test_an_independent_reader_finds_the_wall_where_it_stands(read_back):
    rings = [one for one in on("wall", read_back) if one.geom_type != "Point"]
    assert any(np.allclose(one.bounds, (0, 0, 4.25, 1.1)) for one in rings)
    areas = [one.area for one in rings if one.area > 0]
    assert areas[0] == pytest.approx(4.25 * 1.1 - 0.3)  # the hatch, less its hole


def test_an_independent_reader_finds_lines_circles_and_arcs(read_back):
    (line,) = on("line", read_back)
    assert shapely.get_coordinates(line).tolist() == [[-1, -1], [2.125, -1.5]]
    (swing,) = on("swing", read_back)
    assert swing.length == pytest.approx(math.pi / 4, rel=1e-3)
    (ring,) = on("gate", read_back)
    assert ring.length == pytest.approx(math.pi, rel=1e-3)
    assert any(one.area == pytest.approx(math.pi * 1e-4, rel=0.02) for one in on("bar", read_back))


def test_an_independent_reader_finds_the_texts(read_back):
    texts = [text for _, text, _ in read_back if text]
    assert {"coping", "of stone", "4.250 m", "none", "N"} <= set(texts)


def test_the_librarys_audit_has_no_complaint(written):
    audit = ezdxf.read(io.StringIO(written.decode("utf-8"))).audit()
    assert audit.errors == []
    assert audit.fixes == []


def test_dimensions_are_real_and_measure_what_they_say(written):
    document = ezdxf.read(io.StringIO(written.decode("utf-8")))
    found = {one.dxf.text: one for one in document.modelspace().query("DIMENSION")}
    assert found["4.250 m"].get_measurement() == pytest.approx(4.25)
    first, second = found["4.250 m"].dxf.defpoint2, found["4.250 m"].dxf.defpoint3
    assert first.x < second.x  # left to right, though it was given the other way
    assert found["4.250 m"].dxf.defpoint.y == pytest.approx(-8 * 0.02)  # still on the side it was asked for


def test_units_are_meters_and_the_release_is_r2010(written):
    document = ezdxf.read(io.StringIO(written.decode("utf-8")))
    assert document.header["$INSUNITS"] == 6
    assert document.dxfversion == "AC1024"


def test_every_layer_has_its_ink_and_weight(written):
    document = ezdxf.read(io.StringIO(written.decode("utf-8")))
    for layer in LAYERS:
        entry = document.layers.get(layer)
        assert "#{:02x}{:02x}{:02x}".format(*entry.rgb) == STYLES[layer].color
        assert entry.dxf.lineweight == round(STYLES[layer].weight * 100)


def test_signs_of_the_format_in_a_text_do_nothing(written):
    document = ezdxf.read(io.StringIO(written.decode("utf-8")))
    texts = [one.plain_text() for one in document.modelspace().query("TEXT[layer=='note']")]
    assert "50 % % \\ U+0041 ^J {a} <>" in texts


def test_the_same_scene_gives_the_same_bytes_twice(written):
    assert placed_dxf(place(scene(*EVERYTHING), SCALE)) == written


def test_the_librarys_settings_come_back():
    before = ezdxf.options.write_fixed_meta_data_for_testing
    write_dxf(scene(), scale=SCALE)
    assert ezdxf.options.write_fixed_meta_data_for_testing is before


def test_a_line_of_one_point_is_left_out():
    audit = ezdxf.read(io.StringIO(write_dxf(scene(Polyline(layer="wall", points=((0, 0),))), scale=SCALE).decode()))
    assert len(audit.modelspace()) == 0
