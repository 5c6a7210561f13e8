"""Faces of a plan: their names, sizes, ways they look, what shows on them, what stands against them."""

from __future__ import annotations

import math
from importlib.resources import files

import numpy as np
import pytest

from banked_plots import banked_text
from pinfold.errors import NotFoundError
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.sun.faces import faces_of, lengthened
from pinfold.studies.sun.positions import standpoint
from pinfold.studies.sun.records import Part
from pinfold.studies.sun.shade import points_of
from small_plots import SQUARE, Opening, Plot

DEG = math.radians(1)
COATED = """
[buildup.b.wall]
kind = "block-200-hollow"
height = "80 cm"

[[buildup.b.coat]]
kind = "cement-scratch"

[[buildup.b.coat]]
kind = "lime-finish"
faces = "outer"
absorptance = "25 %"

[buildup.b.coping]
kind = "flat-stone"
width = "30 cm"
"""


def named(layout):
    return {face.name: face for face in faces_of(layout)}


def sample(name):
    return lay_out(plan_of(files("pinfold.store").joinpath("samples", name, "plan.toml").read_text(encoding="utf-8")))


def test_a_square_looks_all_four_ways():
    faces = named(Plot(corners=SQUARE, is_closed=True).laid_out())

    ways = {name: round(face.facing / DEG) % 360 for name, face in faces.items() if face.is_upright}
    assert ways == {
        "s0/1 outer": 180, "s0/1 inner": 0, "s1/1 outer": 90, "s1/1 inner": 270, "s2/1 outer": 0, "s2/1 inner": 180,
        "s3/1 outer": 270, "s3/1 inner": 90,
    }  # fmt: skip
    assert {name for name in faces if name.endswith("top")} == {f"s{side}/1 top" for side in range(4)}


def test_round_the_other_way_outer_and_inner_are_the_same():
    faces = named(Plot(corners=SQUARE[::-1], is_closed=True).laid_out())

    assert faces["s0/1 outer"].facing / DEG % 360 == pytest.approx(0)  # the upper side comes first now


@pytest.mark.parametrize("name", ["seed-garden", "quinta"])
def test_each_face_is_as_long_as_the_layout_has_it(name):
    layout = sample(name)
    by_name = {stretch.name: stretch for stretch in layout.stretches}

    for face in faces_of(layout):
        stretch = by_name[face.stretch]
        long = sum(math.dist(strip.low[0][:2], strip.low[-1][:2]) for strip in face.strips)
        wanted = {Part.OUTER: stretch.outer, Part.INNER: stretch.inner}.get(face.part, stretch.length)
        assert long == pytest.approx(wanted), face.name
    for stretch in layout.stretches:
        if stretch.steps:
            left = stretch.inner if layout.outer_is_right else stretch.outer
            assert stretch.length + sum(lengthened(layout, stretch)) == pytest.approx(left)


def test_true_north_turns_what_the_faces_look_at():
    aslant = Plot(corners=SQUARE, is_closed=True).text().replace("[place]", '[place]\nnorth = "30 deg"')
    faces = named(lay_out(plan_of(aslant)))

    assert faces["s0/1 outer"].facing / DEG == pytest.approx(150)


def test_what_shows_is_the_last_coat_on_a_face_the_coping_on_top_and_the_plan_may_color_it():
    faces = named(Plot(buildup=COATED).laid_out())

    assert (faces["s0/1 outer"].shows, faces["s0/1 outer"].absorptance.value) == ("finish coat of lime plaster", 0.25)
    assert faces["s0/1 outer"].absorptance.source == "GIVEN"
    assert faces["s0/1 inner"].absorptance.value == 0.65
    assert faces["s0/1 coping"].shows == "flat stones bedded on the wall"
    assert faces["s0/1 coping"].area == pytest.approx(8 * 0.3)


def test_a_gate_leaves_a_gap_and_two_faces_on_each_side():
    faces = named(Plot(gates=(Opening(side=0, at=3.0),)).laid_out())

    assert {name.partition(" ")[0] for name in faces} == {"s0/1a", "s0/1b"}
    assert sum(face.area for face in faces.values() if face.part is Part.OUTER) < 7 * 0.8


def test_a_bank_hides_the_foot_of_the_face_it_lies_against():
    bare = named(sample("seed-garden"))
    faces = named(lay_out(plan_of(banked_text("seed-garden"))))
    covered = [name for name, face in faces.items() if face.against]

    assert covered == ["south/1b inner", "east/1a outer"]
    for name in covered:
        assert faces[name].area < bare[name].area - 0.5
    assert faces["south/1b outer"].area == pytest.approx(bare["south/1b outer"].area)


@pytest.mark.parametrize("name", ["seed-garden", "quinta"])
def test_points_stand_for_all_of_a_face_and_on_it(name):
    for face in faces_of(sample(name)):
        points = points_of(face)
        spots = np.array([spot for strip in face.strips for spot in strip.ring])

        assert points.weights.sum() == pytest.approx(1)
        assert (points.weights > 0).all()
        assert (points.spots >= spots.min(axis=0) - 1e-9).all()
        assert (points.spots <= spots.max(axis=0) + 1e-9).all()


def test_a_plan_without_coordinates_is_told_what_to_write():
    layout = Plot().laid_out()

    with pytest.raises(NotFoundError, match="latitude and longitude under"):
        standpoint(layout.plan.place)


def test_an_absorptance_that_is_no_share_is_refused():
    from pinfold.errors import InvalidPlan

    with pytest.raises(InvalidPlan, match="absorptance"):
        plan_of(Plot(buildup=COATED.replace("25 %", "140 %")).text())
