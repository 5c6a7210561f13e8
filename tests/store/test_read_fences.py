"""What a plan says of anchors and braces: read as written, or complained of in the builder's words."""

from __future__ import annotations

from importlib.resources import files

import pytest

from pinfold.errors import InvalidPlan
from pinfold.plan.fences import BraceForm, Hold
from pinfold.store import planfile

SEED = files("pinfold.store").joinpath("samples/seed-garden/plan.toml").read_text(encoding="utf-8")
POSTS = '[buildup."block and mesh".posts]'
ANCHORED = SEED.replace('setting = "wall"', 'setting = "wall-top"')
ANCHORS = """
[buildup."block and mesh".posts.anchors]
hold = "bent"
count = 4
row_spacing = "4 in"
diameter = "1/2 in"
depth = "7 in"
hook = "2 in"
"""
BRACE = """
[buildup."block and mesh".brace]
rail_at = "2 ft 6 in"
rail_length = "7 ft"
rail = "wood-round-4"
wire = "wire-12ga-ht"
"""


def complaints(text):
    with pytest.raises(InvalidPlan) as stopped:
        planfile.plan_of(text)
    return {problem.place: problem.message for problem in stopped.value.problems}


def test_anchors_are_read():
    posts = planfile.plan_of(ANCHORED + ANCHORS).buildups["block and mesh"].posts

    assert posts.anchors.hold is Hold.BENT
    assert posts.anchors.count == 4
    assert posts.anchors.hook == pytest.approx(0.0508)
    assert posts.anchors.pull is None


def test_posts_on_the_walls_top_are_not_let_in():
    without = ANCHORED.replace('setting = "wall-top"\nembed = "2 ft 8 in"\n', 'setting = "wall-top"\n')

    assert without != ANCHORED
    for text in (ANCHORED, without):
        assert planfile.plan_of(text + ANCHORS).buildups["block and mesh"].posts.embed == 0.0
    assert complaints(SEED.replace('setting = "wall"\nembed = "2 ft 8 in"\n', ""))[
        "buildup.block and mesh.posts.embed"
    ].startswith("is missing")


def test_an_example_lies_within_the_limits():
    told = complaints(ANCHORED + ANCHORS.replace('diameter = "1/2 in"\n', ""))

    assert told["buildup.block and mesh.posts.anchors.diameter"] == 'is missing; write diameter = "14 mm"'


def test_a_brace_is_read():
    brace = planfile.plan_of(SEED + BRACE).buildups["block and mesh"].brace

    assert brace.form is BraceForm.RAIL
    assert brace.rail.name == "wood-round-4"
    assert brace.strands == 2


def test_what_goes_wrong_with_anchors_is_told():
    odd = complaints(ANCHORED + ANCHORS.replace("count = 4", "count = 3").replace('hook = "2 in"\n', ""))
    elsewhere = complaints(SEED + ANCHORS)
    straight = complaints(ANCHORED + ANCHORS.replace('"bent"', '"headed"'))

    at = "buildup.block and mesh.posts.anchors"
    assert "even number" in odd[f"{at}.count"]
    assert "is missing" in odd[f"{at}.hook"]
    assert "take them out" in elsewhere[at]
    assert "goes with hold = 'bent'" in straight[f"{at}.hook"]


def test_what_goes_wrong_with_a_brace_is_told():
    at = "buildup.block and mesh.brace"

    assert "above the posts" in complaints(SEED + BRACE.replace("2 ft 6 in", "3 ft 6 in"))[f"{at}.rail_at"]
    assert "is missing" in complaints(SEED + BRACE.replace('wire = "wire-12ga-ht"\n', ""))[f"{at}.wire"]
    assert "take one out" in complaints(SEED + BRACE + 'form = "strut"\n')[f"{at}.wire"]
    assert "one of" in complaints(SEED + BRACE.replace('rail = "wood-round-4"\n', ""))[f"{at}.rail"]
