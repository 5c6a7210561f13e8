"""Strengths out of the log: bodies told as each other, what is believed of a mix, where a lower one counts."""

from __future__ import annotations

import contextlib
import itertools
import json
import math
from dataclasses import replace
from importlib.resources import files

import pytest
from starlette.testclient import TestClient

from pinfold.actions.answers import told
from pinfold.actions.log_book import log_entry
from pinfold.actions.mix_strength import mix_strength, strength_picture
from pinfold.cli import main
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.formulas import bodies
from pinfold.logbook.entries import Entry, entry_of
from pinfold.logbook.kinds import entry_kind
from pinfold.sources import Standing
from pinfold.store import starting
from pinfold.store.pile import pile_of
from pinfold.store.planfile import plan_of
from pinfold.store.prices import prices_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.lessons.applying import as_taught, taught_kind
from pinfold.studies.lessons.learned import learned
from pinfold.studies.lessons.records import Topic
from pinfold.studies.lessons.strength_prior import DAY, DAYS_28, strength_family
from pinfold.studies.lessons.strengths import strength_at
from pinfold.studies.lessons.tried import strength_tests
from pinfold.studies.proportioning.families import FAMILIES
from pinfold.studies.proportioning.wishes import read_wish
from pinfold.studies.quantities.take_off import take_off
from pinfold.tables.shelf import kind, shelf
from pinfold.units import System
from pinfold.web.app import make_app
from pinfold.web.desk import Desk

SHELF = files("pinfold.store").joinpath("samples", "quinta")
PLAN_TEXT = SHELF.joinpath("plan.toml").read_text(encoding="utf-8")
PLAN = plan_of(PLAN_TEXT)
PRICES = prices_of(SHELF.joinpath("prices.toml").read_text(encoding="utf-8"))
PILE = pile_of(SHELF.joinpath("pile.csv").read_text(encoding="utf-8"))
NUMBERS = itertools.count(1)
HOST = "127.0.0.1:8017"


def entry(of: str, day: int = 3, month: int = 5, **values: object) -> Entry:
    number = next(NUMBERS)
    raw = {
        "id": f"entry-{number:06d}", "kind": of, "at": f"2026-{month:02d}-{day:02d}T10:00+02:00", "who": "me",
        "device": "desk", "fields": values,
    }  # fmt: skip
    return replace(entry_of(raw), seq=number)


def cube(mix: str, strength: str, age: str = "28 day", **more: object) -> Entry:
    return entry("strength", mix=mix, body=more.pop("body", "cube"), age=age, strength=strength, **more)


def nail(mix: str, sign: str, age: str = "28 day", **more: object) -> Entry:
    return entry("hardness", mix=mix, sign=sign, age=age, **more)


def taught(*entries: Entry, plan=PLAN):
    return learned(plan, PRICES, PILE, entries)


def reading(*entries: Entry):
    tests = strength_tests([each for each in entries if each.kind == "strength"],
                           [each for each in entries if each.kind == "hardness"], ())  # fmt: skip
    (of_one,) = tests.readings.values()
    return of_one[0]


def at_28(mix: str, lessons=None):
    return strength_at(kind("mixes", mix), DAYS_28, lessons)


# ---- bodies


def test_load_and_size_are_the_same_as_the_stress_they_make():
    by_load = reading(cube("mortar-N", "", load="12.5 kN", width="50 mm"))
    by_stress = reading(cube("mortar-N", "5 MPa"))

    assert by_load.strength == pytest.approx(by_stress.strength) == pytest.approx(5e6)
    assert [step.formula for step in by_load.steps] == ["bodies.crushed_area", "bodies.crushing_strength"]


def test_what_stood_on_it_is_a_force():
    weighed = reading(cube("foamed-600", "", hung="500 kg", width="10 cm", depth="10 cm"))

    assert weighed.strength == pytest.approx(500 * 9.80665 / 0.01)


def test_a_cube_of_concrete_is_told_as_a_cylinder_by_its_size():
    small, usual = (reading(cube("concrete-footing", "25 MPa", width=width)) for width in ("100 mm", "150 mm"))

    assert usual.strength == pytest.approx(20e6)
    assert small.strength == pytest.approx(0.96 * 20e6)


def test_a_cylinder_of_mortar_is_told_as_a_cube():
    assert reading(cube("mortar-N", "4 MPa", body="cylinder")).strength == pytest.approx(5e6)


def test_a_block_is_told_by_its_shape_where_its_height_is_known():
    plain = reading(cube("stabilized-earth", "4 MPa", body="block"))
    flat = reading(cube("stabilized-earth", "4 MPa", body="block", width="150 mm", depth="300 mm", height="100 mm"))

    assert plain.strength == pytest.approx(4e6)
    assert flat.strength == pytest.approx(4e6 * bodies.unit_shape_factor(height=0.1, width=0.15))


def test_a_beam_hung_with_buckets_tells_what_it_would_crush_at():
    beam = {"body": "beam", "hung": "100 kg", "width": "10 cm", "depth": "10 cm", "span": "30 cm"}
    middle = reading(cube("foamed-1000", "", **beam))
    thirds = reading(cube("foamed-1000", "", loading="at the thirds", **beam))
    rupture = 1.5 * 100 * 9.80665 * 0.3 / 0.1**3

    assert middle.strength == pytest.approx(rupture / 0.25)
    assert thirds.strength == pytest.approx(middle.strength / 1.5)
    assert [step.formula for step in middle.steps] == [
        "bodies.hanging_force", "bodies.rupture_in_middle", "bodies.compression_by_share",
    ]  # fmt: skip


def test_a_beam_of_concrete_goes_by_the_code():
    assert reading(cube("concrete-wall", "3.27 MPa", body="beam")).strength == pytest.approx(27.6e6, rel=0.01)


@pytest.mark.parametrize("sign", [each.word("sign") for each in shelf("hardness").values() if each.word("sign")])
def test_every_sign_of_the_form_says_between_what_and_what(sign):
    tried = reading(nail("mortar-N", sign))

    assert sign in entry_kind("hardness").field("sign").choices
    assert not tried.is_exact
    assert (tried.low or 0) < (tried.high or math.inf)


def test_the_form_has_no_other_signs():
    signs = {each.word("sign") for each in shelf("hardness").values()} - {""}

    assert signs == set(entry_kind("hardness").field("sign").choices)
    assert set(shelf("bodies")) >= set(entry_kind("strength").field("body").choices)


# ---- entries that cannot be


@pytest.mark.parametrize(
    ("fields", "place", "words"),
    [
        ({"body": "cube"}, "strength", "nothing was read yet"),
        ({"body": "cube", "load": "5 kN"}, "load", "width"),
        ({"body": "cube", "load": "5 kN", "hung": "20 kg", "width": "5 cm"}, "hung", "not both"),
        ({"body": "cube", "load": "5 kN", "width": "5 cm", "strength": "2 MPa"}, "strength", "not both"),
        ({"body": "cube", "strength": "2 MPa", "span": "30 cm"}, "span", "beam"),
        ({"body": "beam", "hung": "20 kg", "width": "10 cm"}, "span", "wants span, width and depth"),
        ({"body": "beam", "hung": "20 kg", "width": "10 cm", "depth": "10 cm", "span": "15 cm"}, "span", "arching"),
        ({"body": "cube", "load": "5 N", "width": "5 cm"}, "load", "0.002 MPa, which cannot be"),
        ({"body": "cube", "load": "9000 kN", "width": "5 cm"}, "load", "cannot be"),
        ({"body": "cube", "strength": "2 MPa", "age": "3 min"}, "age", "cannot be"),
        ({"body": "egg", "strength": "2 MPa"}, "body", "cube, cylinder"),
    ],
)
def test_what_cannot_be_is_told_with_its_field(fields, place, words):
    with pytest.raises(InvalidPlan) as refused:
        entry("strength", **{"mix": "mortar-N", "age": "28 day", **fields})

    assert any(problem.place == place and words in problem.message for problem in refused.value.problems)


def test_a_width_beside_a_strength_is_welcome():
    assert entry("strength", mix="mortar-N", body="cube", age="7 day", strength="2 MPa", width="50 mm")


# ---- what is believed


def test_nothing_tried_is_the_law_alone():
    assert at_28("mortar-N", taught()) == at_28("mortar-N")
    assert at_28("mortar-N").standing is Standing.MEMORY
    assert at_28("mortar-N").mean == pytest.approx(kind("mixes", "mortar-N").value("strength"))


def test_cubes_of_a_mix_move_it_and_narrow_it():
    lessons = taught(*(cube("mortar-N", "8 MPa", day=day) for day in (3, 10, 17, 24)))
    before, now = at_28("mortar-N"), at_28("mortar-N", lessons)

    assert before.mean < now.mean < 8e6
    assert now.doubt < 0.5 * before.doubt
    assert now.before == before
    assert (now.own, now.others, now.standing) == (4, 0, Standing.LEARNED)
    assert "4 tests of it" in now.says


def test_other_mixes_of_the_family_move_it_a_part_of_the_way_and_other_families_not():
    lessons = taught(*(cube("mortar-N", "8 MPa", day=day) for day in (3, 10, 17, 24)))
    moved = {name: at_28(name, lessons).mean / at_28(name).mean for name in ("mortar-N", "mortar-S", "plaster-brown")}

    assert 1 < moved["mortar-S"] < moved["mortar-N"]
    assert moved["plaster-brown"] == 1
    assert at_28("mortar-S", lessons).others == 4


def test_seven_day_cubes_tell_of_28_days_less_surely_than_of_7():
    lessons = taught(*(cube("mortar-N", "4 MPa", age="7 day", day=day) for day in range(2, 12)))
    week, month = (strength_at(kind("mixes", "mortar-N"), age, lessons) for age in (7 * DAY, DAYS_28))

    assert week.doubt < month.doubt
    assert week.mean < month.mean


def test_it_never_weakens_with_age_whatever_was_crushed():
    """Old bodies weaker than young ones: another batch, another day; the curve goes flat and never down."""
    lessons = taught(*(cube("foamed-1000", "3 MPa", "3 day", day=d) for d in (3, 4, 5)),
                     *(cube("foamed-1000", "1.5 MPa", "90 day", day=d, month=9) for d in (3, 4, 5)))  # fmt: skip
    means = [strength_at(kind("mixes", "foamed-1000"), days * DAY, lessons).mean for days in (1, 3, 7, 28, 90, 365)]

    assert means == sorted(means)


def test_a_foamed_body_that_was_weighed_dry_is_held_against_its_own_density():
    """A heavy cube that is strong for it says nothing of the law; the same without its weight does."""
    strength = "4.1 MPa"
    heavy = taught(cube("foamed-600", strength, dry_density="1000 kg/m3"))
    unknown = taught(cube("foamed-600", strength))

    assert at_28("foamed-600", heavy).mean == pytest.approx(at_28("foamed-600").mean, rel=0.1)
    assert at_28("foamed-600", unknown).mean > 1.5 * at_28("foamed-600").mean


def test_a_nail_that_cuts_a_groove_softens_it_and_one_that_scratches_as_it_should_narrows_it_a_little():
    cut, scratched = (taught(*(nail("mortar-S", sign, day=day) for day in (3, 4, 5)))
                      for sign in ("a nail cuts a groove", "a nail scratches a line"))  # fmt: skip
    before = at_28("mortar-S")

    assert at_28("mortar-S", cut).mean < 0.9 * before.mean
    assert at_28("mortar-S", scratched).mean == pytest.approx(before.mean, rel=0.15)
    assert 0.5 * before.doubt < at_28("mortar-S", scratched).doubt < before.doubt


def test_unknown_mixes_and_what_has_no_strength_are_set_aside_with_the_reason():
    lessons = taught(cube("motar-N", "5 MPa"), nail("nothing", "a nail digs in"))

    assert any("'motar-N'" in line for line in lessons.set_aside)
    assert any("'nothing'" in line for line in lessons.set_aside)
    assert lessons.strengths.readings == {}


def test_every_shipped_mix_has_a_family_of_strength():
    for mix in shelf("mixes").values():
        assert strength_family(mix).has("batch_spread"), mix.name


def test_mixes_of_every_family_by_a_wish_have_a_strength_or_carry_nothing():
    asked = {"concrete": {"strength": "3000 psi"}, "foamed": {"cast": "1000 kg/m3"}}
    found = {}
    for family in FAMILIES:
        wish = read_wish(
            family, asked.get(family.name, {}), mixing=PLAN.mixing, material=lambda n: kind("materials", n)
        )
        with contextlib.suppress(NotFoundError):
            found[family.name] = strength_at(family.propose(wish).mix, DAYS_28, None)

    assert {family.name for family in FAMILIES} - set(found) == {"limewash", "cement-wash"}
    assert found["concrete"].mean > 1.2 * 3000 * 6894.757  # it is chosen by a mean above what was asked for
    assert found["stabilized-earth"].family == "stabilized-earth"


# ---- what it changes


def walled(wall: str):
    """The plan with its low wall of another kind."""
    return plan_of(PLAN_TEXT.replace('kind = "earth-block"', wall, 1)) if wall else PLAN


def mortar_of(plan):
    return next(b.wall.mortar for b in plan.buildups.values() if b.wall is not None and b.wall.mortar is not None)


def wall_of(plan):
    return next(b.wall.kind for b in plan.buildups.values() if b.wall is not None)


def test_three_weak_cubes_of_its_mortar_lower_what_a_wall_counts_on():
    name = mortar_of(PLAN).name
    weak = [cube(name, "0.4 MPa", day=day) for day in (3, 10, 17)]
    lessons = taught(*weak)
    lowered = mortar_of(lessons.plan)

    assert mortar_of(taught(*weak[:2]).plan) is mortar_of(PLAN)
    assert lowered.value("strength") == pytest.approx(at_28(name, lessons).sure)
    assert lowered.value("strength") < mortar_of(PLAN).value("strength")
    assert lowered.figure("strength").standing is Standing.LEARNED
    assert any("by your cubes" in str(note) for note in lowered.words["notes"])
    (lesson,) = lessons.about(Topic.STRENGTH)
    assert lesson.used == "will it stand"
    assert "is used" in lesson.told


def test_strong_cubes_raise_nothing():
    name = mortar_of(PLAN).name
    lessons = taught(*(cube(name, "15 MPa", day=day) for day in (3, 10, 17, 24)))

    assert mortar_of(lessons.plan) is mortar_of(PLAN)
    (lesson,) = lessons.about(Topic.STRENGTH)
    assert lesson.used == ""
    assert lesson.value > lesson.prior.value


def test_hands_alone_lower_nothing():
    name = mortar_of(PLAN).name
    lessons = taught(*(nail(name, "a nail digs in", day=day) for day in range(1, 20)))

    assert mortar_of(lessons.plan) is mortar_of(PLAN)


def test_what_tests_left_of_a_mortar_is_no_start_for_the_same_tests():
    name = mortar_of(PLAN).name
    lessons = taught(*(cube(name, "0.4 MPa", day=day) for day in (3, 10, 17)))

    again = strength_at(mortar_of(lessons.plan), DAYS_28, lessons)
    assert again.mean == pytest.approx(at_28(name, lessons).mean)


def test_a_kind_taught_twice_is_the_same_kind_so_that_a_mix_has_one_card():
    name = mortar_of(PLAN).name
    lessons = taught(*(cube(name, "0.4 MPa", day=day) for day in (3, 10, 17)))
    lines = as_taught(take_off(lay_out(lessons.plan)), lessons)

    assert taught_kind(mortar_of(lessons.plan), lessons.figures) is mortar_of(lessons.plan)
    assert len({line.kind for line in lines if line.kind.name == name}) == 1


def test_a_cast_wall_is_lowered_to_what_five_of_a_hundred_batches_lie_below():
    cast = [wall for wall in shelf("walls").values() if wall.word("mix") and wall.has("compressive")]
    assert cast
    for shipped in cast:
        mix, (name, buildup) = shipped.word("mix"), next(iter(PLAN.buildups.items()))
        wall = replace(next(b.wall for b in PLAN.buildups.values() if b.wall), kind=shipped, mortar=None)
        plan = replace(PLAN, buildups={name: replace(buildup, wall=wall)})
        weak = f"{shipped.value('compressive') / 4e6:.4f} MPa"
        lessons = taught(*(cube(mix, weak, day=day) for day in (3, 10, 17, 24)), plan=plan)
        lowered = wall_of(lessons.plan)

        assert lowered.value("compressive") == pytest.approx(at_28(mix, lessons).low), shipped.name
        ratio = lowered.value("compressive") / shipped.value("compressive")
        assert ratio < 1
        if shipped.has("shear"):
            by = math.sqrt(ratio) if shipped.word("material") == "concrete" else ratio
            assert lowered.value("shear") == pytest.approx(shipped.value("shear") * by)


# ---- doors


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "site"
    starting.from_sample(folder, "quinta")
    return folder


def test_all_mixes_of_the_plan_are_told_and_one_with_its_tests(site):
    log_entry(site, "strength", {"mix": "foamed-1000", "body": "cube", "age": "7 day", "strength": "2.2 MPa"})
    everything = told(mix_strength(site, "", ""), as_json=False)
    one = told(mix_strength(site, "foamed-1000", "90 d"), as_json=False)

    assert "foamed-1000" in everything
    assert "mortar-O" in everything
    assert "after 90 days" in one
    assert "2.2 MPa" in one
    assert "by its pores" in one
    assert "splinters" in one


def test_json_has_prior_beside_posterior_in_si(site):
    log_entry(site, "strength", {"mix": "foamed-1000", "body": "cube", "age": "28 day", "strength": "2.2 MPa"})
    record = json.loads(told(mix_strength(site, "foamed-1000", ""), as_json=True))

    assert record["asked"]["mean_pa"] < record["asked"]["before"]["mean_pa"]
    assert record["asked"]["before"]["before"] is None
    assert record["readings"][0]["strength_pa"] == pytest.approx(2.2e6)


@pytest.mark.parametrize("at", ["3 min", "200000 day", "week", "0"])
def test_an_age_that_cannot_be_is_told(site, at):
    with pytest.raises(InputError):
        mix_strength(site, "", at)


def test_a_mix_that_is_not_there_is_told(site):
    with pytest.raises(NotFoundError, match="no mixes called"):
        mix_strength(site, "morter", "")


def test_the_command_line_answers_and_refuses(site, capsys):
    assert main(["mix", "strength", "--site", str(site)]) == 0
    assert main(["mix", "strength", "mortar-O", "--at", "7 d", "--site", str(site)]) == 0
    said = capsys.readouterr().out
    assert "mortar-O: how strong after 7 days" in said
    assert max(len(line) for line in said.splitlines()) <= 80
    assert main(["mix", "strength", "mortar-O", "--at", "7", "--site", str(site)]) == 2


def test_the_picture_shows_curve_bands_and_tests(site):
    bare = strength_picture(site, "foamed-1000")
    log_entry(site, "strength", {"mix": "foamed-1000", "body": "cube", "age": "7 day", "strength": "2.2 MPa"})
    log_entry(site, "hardness", {"mix": "foamed-1000", "sign": "a nail digs in", "age": "3 day"})
    tried = strength_picture(site, "foamed-1000")

    assert 'class="batches"' in bare
    assert 'class="thought"' not in bare
    assert "nothing tried yet" in bare
    assert tried.count('class="tried"') == 1
    assert tried.count('class="felt"') == 1
    assert 'class="thought"' in tried
    assert "nan" not in tried


def test_the_page_shows_all_or_one_and_says_what_is_wrong(site):
    desk = Desk(folder=site, hosts=frozenset({HOST}), home=frozenset({HOST}), secret=b"a secret")
    client = TestClient(make_app(desk), base_url=f"http://{HOST}", client=("127.0.0.1", 1))

    everything = client.get("/mix/strength")
    one = client.get("/mix/strength?mix=mortar-O&at=7 days")
    wrong = client.get("/mix/strength?mix=mortar-O&at=soon")

    assert everything.status_code == one.status_code == 200
    assert "<svg" not in everything.text.partition("<main")[2]
    assert 'class="strengths"' in one.text
    assert wrong.status_code == 400
    assert "aria-invalid" in wrong.text
    assert client.get("/mix/strength?mix=nothing").status_code == 400


def test_both_systems_of_units_are_spoken():
    from pinfold.reports.mix_strength import age_words, stress

    assert stress(17.24e6, System.US) == "2\u00a0500 psi"
    assert [stress(each, System.METRIC) for each in (8e5, 5.2e6, 33e6)] == ["0.80 MPa", "5.2 MPa", "33 MPa"]
    assert [age_words(each * DAY) for each in (0.5, 7, 10.4, 2.5)] == ["12 h", "7 days", "10 days", "2.5 days"]
