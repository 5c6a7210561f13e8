"""A build-up that a search found is chosen by its code: read back without a search, written, undone, refused."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.actions.sites import open_site, start_site
from pinfold.actions.weigh_choose import choices, choose, offered, undo
from pinfold.actions.weigh_found import found_option
from pinfold.actions.weigh_search import SearchAsked, coder_of, scene_of, search_of
from pinfold.errors import InputError, NotFoundError
from pinfold.reports.weigh_search import search_page
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from pinfold.studies.weighing.axes import table_of
from pinfold.studies.weighing.layer_changes import layer_changes
from pinfold.studies.weighing.row_codes import Coder, is_code, spelled
from pinfold.studies.weighing.uses import uses_of
from pinfold.units import System

NARROW = (("wall", "block-8-hollow"), ("coats", "cement"), ("posts", "pipe-2in"), ("rails", "pipe-rail"),
          ("spacing", "96 in"))  # fmt: skip
LENGTHS = ("wall-height", "70 cm..80 cm")


@pytest.fixture
def folder(tmp_path):
    start_site(tmp_path / "garden", "seed-garden", {})
    return tmp_path / "garden"


@pytest.fixture
def quinta(tmp_path):
    start_site(tmp_path / "quinta", "quinta", {})
    return open_site(tmp_path / "quinta")


USUALLY = SearchAsked()


def codes_of(site, asked=USUALLY):
    """Some codes, and what they stand for."""
    scene = scene_of(site, asked)
    coder = coder_of(site, scene.name)
    some = [tuple((number * step) % many for many in scene.shape) for number, step in ((0, 1), (1, 1), (2, 3), (5, 7))]
    return [(coder.code(scene.axes, picks), table_of(scene.axes, picks, site.plan.units)) for picks in some]


@pytest.mark.parametrize("asked", [SearchAsked(), SearchAsked(every=True), SearchAsked(axes=(LENGTHS,))])
def test_a_code_is_read_back_to_the_build_up_it_was_made_of(folder, quinta, asked):
    for site in (open_site(folder), quinta):
        coder = coder_of(site, scene_of(site).name)
        for code, table in codes_of(site, asked):
            assert is_code(code)
            assert coder.read(code).layers == table
            assert coder.read(f" {code.lower()} ").layers == table


def test_a_code_hangs_on_what_is_picked_and_not_on_what_was_asked(folder):
    site = open_site(folder)
    usual, every = scene_of(site), scene_of(site, SearchAsked(every=True))
    coder = coder_of(site, usual.name)
    picks = tuple(len(axis.choices) - 1 for axis in usual.axes)
    same = tuple(all_.choices.index(few.choices[pick])
                 for few, all_, pick in zip(usual.axes, every.axes, picks, strict=True))  # fmt: skip

    assert coder.code(usual.axes, picks) == coder.code(every.axes, same)


def test_a_row_that_is_chosen_stands_in_the_plan_as_it_was_proven_and_is_undone(folder):
    text = (folder / "plan.toml").read_text(encoding="utf-8")
    site = open_site(folder)
    row = search_of(site, SearchAsked(axes=NARROW)).proven[-1]

    told = choose(folder, row.row.code)

    plan = open_site(folder).plan
    whole = uses_of(assess(lay_out(plan)))
    assert (whole.use, whole.check, whole.where) == (pytest.approx(row.use), row.check, row.where)
    named = {run.buildup for _, run in site.plan.runs if run.buildup}
    assert {run.buildup for _, run in plan.runs if run.buildup} == named - {"block and mesh"} | {
        f"found-{row.row.code}"
    }
    assert "block and mesh" in plan.buildups
    assert "in place of block and mesh:" in told
    assert "--undo" in told

    undo(folder)
    assert (folder / "plan.toml").read_text(encoding="utf-8") == text


def test_a_row_is_looked_at_before_it_is_written(folder):
    (code, _), *_ = codes_of(open_site(folder))

    offer = offered(folder, code)

    assert offer.name == code
    assert offer.where == "in place of block and mesh"
    assert offer.verdict
    assert all(name != code for name, _ in choices(folder)[1])


def test_codes_of_another_plan_and_mistyped_ones_are_refused_in_plain_words(folder, quinta):
    (code, _), *_ = codes_of(quinta)
    wrong = code[:-1] + ("A" if code[-1] != "A" else "B")

    for site, asked in ((open_site(folder), code), (quinta, wrong)):
        with pytest.raises(NotFoundError, match=r"no code of this plan as it stands.*weigh search"):
            found_option(site, asked)
    with pytest.raises(NotFoundError, match="no build-up called"):
        choose(folder, "4-2")


ANCHORED = """setting = "wall-top"

[buildup."block and mesh".posts.anchors]
hold = "headed"
count = 4
row_spacing = "4 in"
diameter = "1/2 in"
depth = "7 in"

[buildup."block and mesh".brace]
rail_at = "2 ft"
rail_length = "6 ft"
rail = "pipe-2in"
wire = "wire-12ga-ht"
"""


def test_anchors_and_braces_of_the_plan_go_along_with_what_is_chosen(folder):
    plan = folder / "plan.toml"
    text = plan.read_text(encoding="utf-8")
    plan.write_text(text.replace('setting = "wall"\nembed = "2 ft 8 in"\n', ANCHORED, 1), encoding="utf-8")
    (code, _), *_ = codes_of(open_site(folder))

    choose(folder, code)

    site = open_site(folder)
    had, has = site.plan.buildups["block and mesh"], site.plan.buildups[f"found-{code}"]
    assert has.posts.anchors == had.posts.anchors is not None
    assert has.brace == had.brace is not None


def test_where_nothing_stands_what_fails_is_told(folder):
    tall = (("wall", "foamed-poured 16 in"), ("wall-height", "3 m..3.2 m"), ("coats", "cement-scratch"), ("mesh", ""))

    found = search_of(open_site(folder), SearchAsked(axes=tall))

    assert (found.stands, found.front) == (0, ())
    assert found.failing
    assert "None stands. In the first choice of every axis: FAILS" in search_page(found, System.US).blocks[1].text


def test_what_it_was_found_for_must_stand_somewhere(folder):
    (code, _), *_ = codes_of(open_site(folder))
    choose(folder, code)

    with pytest.raises(InputError, match="stands on no run any more"):
        found_option(open_site(folder), code)


@given(st.text(alphabet="0123456789ABCDEFGHJKMNPQRSTVWXYZ_.-ainchm ", max_size=40))
def test_whatever_is_typed_is_a_code_or_none(text):
    coder = Coder(buildup="a", whole=(), system=None)

    assert is_code(text) or coder.read(text) is None
    assert spelled(spelled(text)) == spelled(text)


def test_what_is_other_is_told_key_by_key():
    before = tomllib.loads('wall = {kind = "a", thickness = "8 in"}\ncoat = [{kind = "lime", thickness = "1 cm"}]')
    after = tomllib.loads('wall = {kind = "a", thickness = "1 ft"}\nfooting = {width = "2 ft"}')

    assert layer_changes(before, after) == (
        "wall thickness 8 in, then 1 ft", "coat lime 1 cm, then none", "footing width none, then 2 ft",
    )  # fmt: skip
    assert layer_changes(before, {**before, "says": "the same"}) == ()
    assert layer_changes({"posts": {"spacing": "8 ft"}}, {"posts": {"spacing": "96 in"}}) == ()
    assert layer_changes({}, {"coat": [{"kind": "lime", "mesh": True}]}) == ("coat none, then lime mesh",)
