"""Every stretch, post and gate of a plan is the subject of a finding about its strength: nothing goes unasked."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.store.planfile import plan_of
from pinfold.store.starting import SAMPLES
from pinfold.studies.layout.records import Layout, Stretch
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from pinfold.tables.shelf import shelf
from small_plots import SQUARE, Opening, Plot

ELSE = ("frost", "surveyed ground", "clearance", "joints")
"""Checks that ask something else than whether it is strong enough."""
PLACE = """
[place]
wind_speed = "30 m/s"
exposure = "C"
soil = "sand"
frost_depth = "20 cm"
"""
POSTS = """
[buildup.b.posts]
kind = "{post}"
spacing = "2.4 m"
height = "1 m"
setting = "{setting}"
embed = "60 cm"
{more}
[buildup.b.mesh]
kind = "welded-50x50"
height = "1 m"
"""


def unasked(layout: Layout) -> list[str]:
    """Names of what no finding about strength speaks of."""
    subjects = {finding.subject for finding in assess(layout) if finding.check not in ELSE}
    posts = {number for subject in subjects for number in _post_numbers(subject)}
    silent = [f"stretch {each.name}" for each in layout.stretches if not _is_answered(each, layout, subjects)]
    silent += [post.name for post in layout.posts if post.name not in posts]
    return silent + [f"gate {name}" for name in layout.gates if f"gate {name}" not in subjects]


def _is_answered(stretch: Stretch, layout: Layout, subjects: set[str]) -> bool:
    """Whether a finding names it; for mesh or sheet alone, whether posts stand along it, which are asked in its place."""
    if f"stretch {stretch.name}" in subjects:
        return True
    wall = stretch.buildup.wall
    is_hung = wall is None or wall.kind.word("make") == "sheet"
    reach = (stretch.start - 0.3, stretch.end + 0.3)
    return is_hung and any(post.side == stretch.side and reach[0] <= post.along <= reach[1] for post in layout.posts)


def _post_numbers(subject: str) -> set[str]:
    if not re.search(r"\bposts? P", subject):
        return set()
    spans = re.findall(r"P(\d+)(?:–P(\d+))?", subject)
    return {f"P{number}" for first, last in spans for number in range(int(first), int(last or first) + 1)}


@pytest.mark.parametrize("sample", SAMPLES)
def test_nothing_of_a_sample_goes_unasked(sample):
    text = files("pinfold.store").joinpath("samples", sample, "plan.toml").read_text(encoding="utf-8")

    assert unasked(lay_out(plan_of(text))) == []


def built(name: str, *, posts: str) -> str:
    """Build-up of a wall kind, as low and thick as is asked for, and posts on it."""
    kind = shelf("walls")[name]
    thickness = "" if kind.has("thickness") else 'thickness = "30 cm"'
    return f'[buildup.b.wall]\nkind = "{name}"\nheight = "60 cm"\n{thickness}\n{posts}'


SETTINGS = ("ground", "collar", "wall", "wall-top")


def fence(post: str, setting: str) -> str:
    """Posts and mesh."""
    return POSTS.format(post=post, setting=setting, more='collar = "30 cm"' if setting == "collar" else "")


def of_plot(plot: Plot, *, known: bool) -> Layout:
    """Laid out, with or without what is known of the place."""
    text = plot.text().replace("[place]\n", PLACE) if known else plot.text()
    return lay_out(plan_of(text))


@pytest.mark.parametrize("known", [True, False], ids=["place known", "place unknown"])
@pytest.mark.parametrize("setting", [*SETTINGS, "none"])
@pytest.mark.parametrize("wall", sorted(shelf("walls")))
def test_nothing_on_any_kind_of_wall_goes_unasked(wall, setting, known):
    if shelf("walls")[wall].word("make") == "sheet" and setting not in ("ground", "collar"):
        return
    buildup = built(wall, posts="" if setting == "none" else fence("pipe-60", setting))
    layout = of_plot(
        Plot(buildup=buildup, corners=SQUARE, is_closed=True, gates=(Opening(side=1, at=4.0),)), known=known
    )

    assert unasked(layout) == []


@pytest.mark.parametrize("post", sorted(shelf("posts")))
@pytest.mark.parametrize("setting", ["ground", "collar"])
def test_no_kind_of_post_in_the_ground_goes_unasked(post, setting):
    layout = of_plot(Plot(buildup=fence(post, setting), corners=SQUARE, gates=(Opening(side=0, at=3.0),)), known=True)

    assert unasked(layout) == []


@given(st.floats(2.0, 30.0), st.floats(0.15, 0.7), st.sampled_from(SETTINGS), st.floats(-0.05, 0.05), st.booleans())
def test_nothing_of_a_small_plot_goes_unasked(length, share, setting, rise, gated):
    wall = setting in ("wall", "wall-top")
    buildup = built("block-200-hollow", posts=fence("pipe-60", setting)) if wall else fence("wood-round-5", setting)
    gates = (
        (Opening(side=0, at=length * share, width=0.9),)
        if gated and length * (1 - share) > 1.5 and length * share > 0.5
        else ()
    )
    spots = tuple((x * 40.0, y * 40.0, rise * x * 40.0) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    plot = Plot(buildup=buildup, corners=((0.0, 0.0), (length, 0.0), (length, 6.0)), gates=gates, ground=spots)

    assert unasked(of_plot(plot, known=True)) == []
