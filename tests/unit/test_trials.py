"""Trials: the story of a plaster that cracks, slides and holds; what is told of it, and what cannot be told."""

from __future__ import annotations

import json
from dataclasses import replace
from importlib.resources import files

import pytest

from pinfold.actions.mix_trials import TrialsAsked, mix_next, mix_trials
from pinfold.actions.prefilling import filled_draft
from pinfold.actions.taking import take_entries
from pinfold.cli import main
from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.logbook.entries import Amount, entry_of
from pinfold.reports.trial_words import amount_shown
from pinfold.store import starting
from pinfold.store.planfile import plan_of
from pinfold.studies.lessons.holding import volumes_of
from pinfold.studies.lessons.things import Measures
from pinfold.studies.trials.ranges import factors_of
from pinfold.studies.trials.records import Asked
from pinfold.studies.trials.responses import blind_spots
from pinfold.studies.trials.scoring import score_of, weights_of
from pinfold.studies.trials.study import trials_told
from pinfold.tables.shelf import kind, shelf
from pinfold.units import System
from plaster_story import entries, raw_trial, story

MIX = kind("mixes", "plaster-scratch")
HOLDS = {"sticks": "holds", "spreads": "well", "cracks": "none", "hardness": "scratches"}


@pytest.fixture(scope="module")
def site_measures():
    text = files("pinfold.store").joinpath("samples/seed-garden/plan.toml").read_text(encoding="utf-8")
    plan = plan_of(text)
    return Measures(mixing=plan.mixing, volumes=volumes_of(plan.mixing)), plan.units


@pytest.fixture
def told(site_measures):
    measures, system = site_measures

    def tell(raws, asked=None, mix=MIX):
        return trials_told(entries(raws), mix, asked or Asked(), measures=measures, system=system)

    return tell


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    return folder


def sands(found):
    return [trial.values["sand"] for trial in found.next]


def waters(found):
    return [trial.values["water"] for trial in found.next]


# the story, a proposal after each trial


def test_before_any_trial_the_mix_as_it_ships_comes_first_and_the_corners_after(told):
    found = told([])
    assert found.filling
    assert found.next[0].values["sand"] == pytest.approx(3.2, abs=0.15)
    assert max(waters(found)) - min(waters(found)) > 0.03
    assert "0 of 5" in found.notes[-1]


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_after_rich_ones_that_crack_the_filling_goes_to_the_lean_end_first(told, count):
    found = told(story(count))
    richest = max(trial.values["sand"] for trial in found.trials)
    assert found.filling
    assert found.next[0].why == "fill"
    assert found.next[0].expected is None
    assert richest < sands(found)[0] <= 4.0


def test_after_a_lean_wet_one_that_slides_a_lean_dry_one_is_tried(told):
    found = told(story(5))
    assert not found.filling
    lean = max(found.next, key=lambda trial: trial.values["sand"])
    assert lean is found.next[0], "the rich end has cracked four times"
    assert lean.values["water"] < found.trials[-1].values["water"] - 0.05


def test_after_two_that_slide_nothing_wet_and_lean_is_proposed(told):
    for trial in told(story(6)).next:
        assert trial.values["water"] < 0.19 or trial.values["sand"] < 3.0


def test_once_one_sags_with_hair_cracks_the_next_are_as_lean_and_drier(told):
    found = told(story(7))
    assert found.best.trial.seq == 7
    assert min(sands(found)) > 3.3
    assert found.next[0].values["water"] < found.best.trial.values["water"]


def test_once_one_holds_it_is_the_best_and_the_next_lie_about_it_or_drier(told):
    found = told(story())
    assert found.best.trial.seq == 8
    assert 7 < found.best.mean < 9.5
    assert min(sands(found)) > 3.3
    assert max(waters(found)) < 0.165
    assert all(0 < trial.expected.gain < 2 for trial in found.next)
    assert {response.factor.key for response in found.responses} == {"sand", "water"}
    assert sum(response.share for response in found.responses) == pytest.approx(1)


# scores


@pytest.mark.parametrize(
    ("fields", "score"),
    [
        ({"score": "7"}, 7.0),
        ({"score": "7", "cracks": "open"}, 7.0),
        ({"cracks": "open"}, 1.0),
        ({"sticks": "holds", "cracks": "none"}, 10.0),
        ({"sticks": "holds", "cracks": "open"}, 10**0.5),
        ({"thickness": "10 mm"}, None),
    ],
)
def test_the_score_is_the_builders_own_or_what_was_said_weighed(fields, score):
    entry = entry_of(raw_trial(1, 5, 25, fields))
    assert score_of(entry, ()) == (None if score is None else pytest.approx(score))


def test_weights_asked_for_count_alone():
    entry = entry_of(raw_trial(1, 5, 25, {"score": "7", "cracks": "open", "sticks": "holds"}))
    assert score_of(entry, (("cracks", 1.0),)) == 1.0
    assert score_of(entry, (("score", 1.0), ("sticks", 1.0))) == pytest.approx(70**0.5)
    with pytest.raises(InvalidPlan, match="no such score"):
        weights_of((("crack", 1.0), ("sticks", -1.0)))
    with pytest.raises(InvalidPlan, match="all are 0"):
        weights_of((("cracks", 0.0),))


def test_a_score_out_of_range_is_told_and_not_written():
    with pytest.raises(InvalidPlan, match="0 to 10"):
        entry_of(raw_trial(1, 5, 25, {"score": "11"}))


def test_an_old_trial_with_its_old_fields_is_still_good():
    old = {"mix": "plaster-scratch", "amounts": [["sand", "5 bucket"]], "score": "6", "cracks": "hair", "dusts": "no"}
    entry = entry_of({**raw_trial(1, 5, 25, {}), "fields": old})
    assert entry.number("score") == 6


def test_a_trial_needs_nothing_but_its_mix():
    assert entry_of({**raw_trial(1, 5, 25, {}), "fields": {"mix": "plaster-scratch"}}).text("mix")


# what cannot be told


def test_a_trial_without_amounts_or_with_a_measure_nobody_knows_is_set_aside_with_its_reason(told):
    bare = raw_trial(9, 5, 25, HOLDS)
    bare["fields"]["amounts"] = []
    odd = raw_trial(10, 5, 25, HOLDS)
    odd["fields"]["amounts"][2] = ["sand", "20 shovel"]
    mute = raw_trial(11, 5, 25, {})
    found = told([*story(), bare, odd, mute])
    assert len(found.trials) == 8
    aside = "\n".join(found.set_aside)
    assert "how much cement went in was not written down" in aside
    assert "what a shovel of sand holds is not known" in aside
    assert "nothing that counts was said" in aside


def test_trials_all_alike_are_told_and_two_factors_taken_to_be_changed(told):
    found = told([raw_trial(at, 5, 25, HOLDS) for at in range(6)])
    assert any("all trials were alike" in note for note in found.notes)
    assert any("All scores are the same" in note for note in found.notes)
    assert len(found.factors) == 2
    assert found.repeats == 5
    assert found.next


def test_one_factor_only_is_told_and_a_second_taken_beside_it(told):
    found = told([raw_trial(at, 5, 22 + 2 * at, HOLDS) for at in range(6)])
    assert any("only water over dry weight varied" in note for note in found.notes)
    assert {factor.key for factor in found.factors} == {"sand", "water"}


def test_a_single_factor_asked_for_is_looked_at_alone(told):
    found = told(story(), Asked(factors=("sand",)))
    assert [factor.key for factor in found.factors] == ["sand"]
    assert set(found.held) == {"lime", "water"}


def test_water_is_counted_over_cement_where_that_is_asked(told):
    found = told(story(), Asked(factors=("sand", "water_cement")))
    assert set(found.held) == {"lime"}
    assert all("water_cement" in trial.values and "water" not in trial.values for trial in found.next)


def test_all_that_is_wrong_with_what_is_asked_is_told_at_once(site):
    asked = TrialsAsked(
        mix="plaster-scratch", factors=("salt", "sand", "sand"), weights=("cracks", "x=1"), many=3
    )  # fmt: skip
    with pytest.raises(InvalidPlan) as refused:
        mix_trials(site, asked)
    places = {problem.place for problem in refused.value.problems}
    assert places == {"factor salt", "factor sand", "weight cracks", "weight x"}


def test_a_mix_that_nobody_knows_is_not_found(site):
    with pytest.raises(NotFoundError, match="no mixes called"):
        mix_trials(site, TrialsAsked(mix="plaster-scrath"))


# trials that contradict each other


def test_alike_trials_far_apart_stand_side_by_side_with_what_differed(told):
    doubtful = raw_trial(9, *(6.25, 29.0), {**HOLDS, "sticks": "falls off", "cracks": "open", "base": "dry"})
    found = told([*story(), doubtful])
    (pair,) = [each for each in found.contradictions if {each.higher.seq, each.lower.seq} == {8, 9}]
    assert pair.apart > pair.allowed
    assert ("base", "damp", "dry") in pair.differed
    assert len(found.trials) == 9, "both count as they are"


def test_a_pair_does_not_excuse_itself_by_its_own_scatter(told):
    pair = [raw_trial(1, 5, 25, {"score": "9"}), raw_trial(2, 5, 25, {"score": "2"})]
    (found,) = told(pair).contradictions
    assert found.allowed < 2.1


def test_where_alike_trials_scatter_much_the_best_is_made_again(told):
    noisy = [
        raw_trial(at, 5 + at % 3, 26, {"score": str(score)}) for at, score in enumerate((9, 2, 6, 3, 8, 1, 8, 2, 5))
    ]
    found = told(noisy)
    assert found.next[-1].why == "repeat"
    assert found.next[-1].values["sand"] == pytest.approx(found.best.trial.values["sand"], abs=0.15)


# ranges


def test_outside_is_only_proposed_where_asked_and_then_told(told):
    lean = [raw_trial(at, sand, 30, {"score": str(score)}) for at, (sand, score) in
            enumerate([(5, 2), (5.5, 3), (6, 4), (6.5, 6), (7, 7), (7.5, 9)])]  # fmt: skip
    inside, outside = told(lean), told(lean, Asked(outside=True))
    assert max(sands(inside)) <= 4.0
    assert max(sands(outside)) > 4.0
    assert any("sand" in text for trial in outside.next for text in trial.outside)
    assert any("no publication speaks" in note for note in outside.notes)


def test_a_best_trial_outside_the_range_gives_way_to_one_inside_and_is_told(told):
    found = told([raw_trial(at, 9, 38, {"score": "9"}) for at in range(6)])
    assert not found.best.inside
    assert any("outside the range" in note for note in found.notes)


def test_where_nothing_is_known_is_told(told):
    near = [
        raw_trial(at, 5 + at / 8, 25 + at % 2, {"score": str(score)}) for at, score in enumerate((0, 9, 1, 8, 0, 9, 1))
    ]
    found = told(near)
    assert found.unknown > 0.05
    assert any(blind_spots(response) for response in found.responses)


# other mixes


def test_straw_in_an_earth_plaster_is_a_factor_and_goes_into_the_amounts(told):
    def earth(at, sand, straw, score):
        amounts = [
            ["clay-soil", "4 bucket"],
            ["sand", f"{sand} bucket"],
            ["straw", f"{straw} bucket"],
            ["water", "50 L"],
        ]
        raw = raw_trial(at, 1, 1, {"score": str(score)})
        raw["fields"] |= {"mix": "earth-plaster", "amounts": amounts}
        return raw

    rows = [(8, 0.5, 3), (10, 1, 5), (12, 2, 7), (14, 3, 6), (11, 3.5, 8), (9, 2, 5)]
    found = told([earth(at, *row) for at, row in enumerate(rows)], mix=kind("mixes", "earth-plaster"))
    assert {"sand", "straw"} <= {factor.key for factor in found.factors}
    assert any(amount.item == "straw" for trial in found.next for amount in trial.amounts)


def test_a_foamed_mix_is_tried_by_water_and_density(told):
    found = told([], mix=kind("mixes", "foamed-1000"))
    assert {factor.key for factor in found.factors} <= {"sand_cement", "water_cement", "wet_density"}
    assert all(0.5 <= trial.values["water_cement"] <= 0.6 for trial in found.next)
    assert all(trial.charge.foam is not None for trial in found.next)


def test_a_mix_by_mass_is_refused_with_a_reason(told):
    massed = replace(MIX, words={**MIX.words, "yield_method": "by-mass"})
    with pytest.raises(NotFoundError, match="neither"):
        told([], mix=massed)


# the doors


def test_the_page_names_best_factors_and_next_with_cautions(site, capsys):
    take_entries(site, story())
    assert main(["mix", "trials", "--site", str(site)]) == 0
    text = capsys.readouterr().out
    for words in ("Best so far: no. 8", "IRC-R702", "next trial 1: to gain", "burn skin", "score along each factor"):
        assert words in text
    assert max(map(len, [line for line in text.splitlines() if "://" not in line])) <= 80
    assert main(["mix", "next", "plaster-scratch", "--site", str(site), "--many", "1"]) == 0
    assert "next trial 2" not in capsys.readouterr().out


def test_json_has_it_all_in_si(site, capsys):
    take_entries(site, story())
    assert main(["mix", "trials", "--site", str(site), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["mixes"] == ["plaster-scratch"]
    assert found["told"]["best"]["trial"]["seq"] == 8
    assert found["told"]["next"][0]["expected"]["gain"] > 0
    assert len(found["scan"]) == len(found["told"]["next"])


def test_a_proposal_opens_the_form_with_all_that_goes_in(site):
    from urllib.parse import parse_qsl

    take_entries(site, story())
    answer = mix_next(site, TrialsAsked(factors=("sand", "water", "thickness")))
    trial, address = answer.record.told.next[0], answer.record.scan[0]
    draft, wrong = filled_draft(site, "trial", parse_qsl(address.partition("?")[2]))
    assert wrong == ()
    assert draft.values["mix"] == "plaster-scratch"
    assert draft.values["thickness"]
    rows = [row for row in draft.rows["amounts"] if row[0]]
    assert [row[0] for row in rows] == [amount.item for amount in trial.amounts]


def test_a_log_that_cannot_be_read_gives_filling_and_a_caution(site):
    (site / "log.sqlite").write_bytes(b"no log at all" * 100)
    answer = mix_trials(site, TrialsAsked())
    assert answer.cautions
    assert answer.record.told.filling


def test_the_binder_has_a_sheet_for_each_next_trial_once_there_are_trials(site):
    from pinfold.actions.binding import binder_of
    from pinfold.actions.sites import open_site

    def titles():
        binder = binder_of(open_site(site), printed_on="2026-05-03")
        mixed = next(part for part in binder.parts if part.title == "What to mix")
        return [block.title for block in mixed.blocks if hasattr(block, "title")]

    assert not any("Trial of" in title for title in titles())
    take_entries(site, story())
    assert sum("Trial of plaster-scratch: next trial" in title for title in titles()) == 3


def test_a_published_range_stands_once_and_trials_of_every_mix_find_it():
    for name, row in shelf("trial_ranges").items():
        where, _, published = row.word("published").partition("/")
        if published:
            theirs = shelf(where)[published]
            assert not {key for key in row.figures if theirs.has(key)}, name
            assert name in shelf("mixes")
    sand = next(factor for factor in factors_of(shelf("mixes")["mortar-K"]) if factor.key == "sand")
    assert (sand.low, sand.high, sand.source) == (2.25, 3.0, "ASTM-C270")


def test_amounts_of_a_proposal_are_told_as_they_are_measured():
    cup = 3.785411784e-3 / 16
    told = [
        amount_shown(Amount("sand", number, measure), System.US)
        for number, measure in [(1.875, "bucket"), (0.5, "bag"), (1.0, "bucket"), (29 * cup, "m3"), (8.1, "kg")]
    ]

    assert told == ["1 7/8 buckets", "1/2 bag", "1 bucket", "7 1/4 qt", "17.9 lb"]
