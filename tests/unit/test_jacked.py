"""From a survey with a blunder and a twist through the jack to settlement that starts anew, as a builder goes."""

from __future__ import annotations

import json
import random
from datetime import UTC, datetime

import pytest
from click.testing import CliRunner

import sheds
from pinfold.actions.level import LevelAsked, level_of
from pinfold.actions.level_done import JackingDone, jacking_lines, write_jacking
from pinfold.actions.level_settle import settle_of
from pinfold.actions.level_site import level_site
from pinfold.actions.taking import log_of, take_entries
from pinfold.cli.commands import pinfold
from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.plan.supports import Leveling, Shim, Support
from pinfold.store import starting
from pinfold.studies.leveling.jacked import Jacked, since_jacked

INCH = 0.0254
TRUE = {"S1": 5.0, "S2": 4.75 - 1 / 16 + 1 / 16, "S3": 4.1875, "N1": 4.875, "N2": 4.8125, "N3": 4.5625}
"""Heights over the sill in inches that the sample's last survey was made from."""


def told(*words):
    said = CliRunner().invoke(pinfold, [*map(str, words)])
    assert said.exit_code == 0, said.output
    return said.stdout


def asked(folder, *words):
    return json.loads(told(*words, "--json", "--site", folder))


@pytest.fixture
def sample(tmp_path):
    folder = tmp_path / "seed-garden"
    told("new", folder, "--sample", "seed-garden")
    told("log", "in", folder / "levels.csv", "--site", folder)
    return folder


def read_anew(folder, heights):
    """Two setups read with the noise of a water level."""
    chance = random.Random(3)
    for setup, water in (("1", 41.0), ("2", 43.5)):
        rods = {"sill": water} | {mark: water - height + chance.gauss(0, 0.03) for mark, height in heights.items()}
        told("level", "read", *(f"{mark}={rod:.3f} in" for mark, rod in rods.items()), "--setup", setup,
             "--instrument", "water level", "--site", folder)  # fmt: skip


# --- the sample, all the way ----------------------------------------------------------------------------------------


def test_the_samples_blunder_and_twist_are_found_and_jacking_by_its_sheet_levels_it(sample):
    found = asked(sample, "level")
    (aside,) = found["survey"]["aside"]
    assert [(one["mark"], one["setup"]) for one in aside["readings"]] == [("N2", "2")]
    assert abs(aside["off_m"]) == pytest.approx(INCH, rel=0.1)
    assert abs(found["lie"]["twist_m"]) > 0.4 * INCH

    sheet = asked(sample, "level", "jack")
    assert {check["verdict"] for check in sheet["checks"]} == {"HOLDS"}
    heights = dict(TRUE)
    for step in sheet["steps"]:
        heights[step["mark"]] += step["lift_m"] / INCH
        assert step["bend"] <= step["allowed"] * (1 + 1e-6)
    assert max(heights.values()) - min(heights.values()) <= 0.25 + 2 * 1 / 16

    assert "S3" in told("level", "done", "--site", sample)
    assert "read all supports anew" in " ".join(told("level", "--site", sample).split())
    assert "not read since" in " ".join(told("level", "settle", "--site", sample).split())

    read_anew(sample, heights)
    after = asked(sample, "level")
    assert after["survey"]["aside"] == []
    assert not any(move["shims"] for move in after["moves"]["moves"])
    assert after["moves"]["lift_m"] == pytest.approx(0.0)
    settled = asked(sample, "level", "settle")
    assert settled["jacked_on"]
    assert len(settled["settlement"]["surveys"]) == 1
    assert len(asked(sample, "level", "settle", "--since", "2024-01-01")["settlement"]["surveys"]) == 4


def test_what_went_into_the_stacks_is_gone_from_what_is_on_hand(sample):
    before = level_site(sample).blocks.leveling
    write_jacking(sample, JackingDone(lines=("S3 +5/8 in: 1/2 in, 1/8 in", "S2 0 in: none"), asked=LevelAsked()))
    after = level_site(sample).blocks.leveling

    counts = [{round(shim.thickness / INCH, 4): shim.count for shim in each.shims} for each in (before, after)]
    assert counts == [{0.5: 4, 0.25: 6, 0.125: 8}, {0.5: 3, 0.25: 7, 0.125: 8}]
    stacks = {support.mark: [thick / INCH for thick in support.shims] for support in after.supports}
    assert (stacks["S3"], stacks["S2"]) == (pytest.approx([0.5, 0.125]), [])


def test_every_shim_is_in_a_stack_or_on_hand():
    plan = Leveling(
        supports=(Support(mark="A", at=(0, 0), shims=(0.006, 0.003)), Support(mark="B", at=(1, 0))),
        shims=(Shim(thickness=0.006, count=2), Shim(thickness=0.003, count=4)),
    )  # fmt: skip
    jacked = (
        Jacked(mark="A", at=1.0, lift=0.01, shims=(0.006, 0.006, 0.003)),
        Jacked(mark="B", at=2.0, lift=0.0, shims=None),
        Jacked(mark="A", at=3.0, lift=-0.006, shims=(0.006,)),
    )  # fmt: skip
    now = since_jacked(plan, jacked)

    def all_of(leveling):
        return sum(shim.thickness * shim.count for shim in leveling.shims) + sum(
            thick for support in leveling.supports for thick in support.shims
        )

    assert now.supports[0].shims == (0.006,)
    assert all_of(now) == pytest.approx(all_of(plan))
    assert since_jacked(plan, ()) == plan


# --- from when on surveys count -------------------------------------------------------------------------------------


@pytest.fixture
def shed(tmp_path):
    folder = tmp_path / "quinta"
    starting.from_sample(folder, "quinta")
    plan = folder / "plan.toml"
    plan.write_text(plan.read_text(encoding="utf-8") + "\n" + sheds.shed(), encoding="utf-8")
    return folder


def entry(number, kind, at, **fields):
    return {"id": f"entry-{number:04}", "kind": kind, "at": at, "who": "me", "device": "test", "fields": fields}


def rows(at, first, heights=sheds.TRUE):
    return [
        entry(first + number, "level", at, mark=mark, setup=setup, rod=f"{1e3 * value:.1f} mm")
        for number, (mark, setup, value) in enumerate(sheds.rods(heights))
    ]


def test_readings_of_one_day_before_and_after_the_jack_are_two_surveys(shed):
    level = dict.fromkeys(sheds.MARKS, 0.0)
    take_entries(shed, [
        *rows("2026-04-10T08:00:00+02:00", 0), entry(50, "jacking", "2026-04-10T11:00:00+02:00", mark="B3", lift="35 mm"),
        *rows("2026-04-10T16:00:00+02:00", 100, level),
    ])  # fmt: skip
    levels = level_site(shed)

    assert [survey.name for survey in levels.surveys] == ["2026-04-10", "2026-04-10, jacked"]
    assert [levels.overtaken(survey) for survey in levels.surveys] == [True, False]
    assert level_of(shed, LevelAsked()).record.moves.touched == ()
    assert level_of(shed, LevelAsked(survey="2026-04-10")).record.moves is None
    found = settle_of(shed).record
    assert (found.jacked_on, found.settlement.surveys) == ("2026-04-10", ("2026-04-10, jacked",))


def test_jacking_taken_back_counts_no_more(shed):
    take_entries(shed, [*rows("2026-04-10T08:00:00+02:00", 0),
                        entry(50, "jacking", "2026-05-10T11:00:00+02:00", mark="B3", lift="35 mm")])  # fmt: skip
    assert level_site(shed).last_jacked == datetime(2026, 5, 10, 9, tzinfo=UTC)
    told("log", "withdraw", log_of(shed).entries(kind="jacking")[0].seq, "--site", shed)

    assert level_site(shed).last_jacked is None
    assert settle_of(shed).record.jacked_on == ""


def test_jacking_of_marks_of_another_structure_is_not_its_own(shed):
    take_entries(shed, [*rows("2026-04-10T08:00:00+02:00", 0),
                        entry(50, "jacking", "2026-05-10T11:00:00+02:00", mark="X9", lift="35 mm")])  # fmt: skip

    assert level_site(shed).last_jacked is None


def test_shims_that_cannot_be_read_are_told_and_count_as_planned(shed):
    take_entries(shed, [
        entry(50, "jacking", "2026-04-01T11:00:00+02:00", mark="B3", lift="35 mm", shims="three thin ones"),
        *rows("2026-04-10T08:00:00+02:00", 0),
    ])  # fmt: skip
    found = level_of(shed, LevelAsked()).record

    assert any("three thin ones" in note and "entry 1" in note for note in found.notes)
    assert found.moves.touched


# --- telling it ------------------------------------------------------------------------------------------------------


def test_all_that_is_wrong_with_what_was_jacked_is_told_at_once_and_nothing_written(sample):
    lines = ("S9", "N3 +3 apples: 1/4 in", "S3: 1/2 in, 9 ft", "N1", "S2 1 m", "S2 +1/4 in")
    with pytest.raises(InvalidPlan) as wrong:
        write_jacking(sample, JackingDone(lines=lines, asked=LevelAsked()))

    complaints = [str(problem) for problem in wrong.value.problems]
    for place, word in (("S9", "S1, S2"), ("N3", "apples"), ("S3: shims", "9 ft"), ("N1", "say what was lifted"),
                        ("S2", "300 mm"), ("S2", "twice")):  # fmt: skip
        assert any(each.startswith(f"{place}:") and word in each for each in complaints), (place, complaints)
    assert log_of(sample).entries(kind="jacking") == ()


def test_the_planned_moves_stand_ready_as_they_are_typed(sample):
    lines = jacking_lines(sample, LevelAsked())

    assert lines == ("S3 5/8 in: 1/2 in, 1/8 in", "N3 1/4 in: 1/4 in")
    write_jacking(sample, JackingDone(lines=lines, asked=LevelAsked(), id="only-once"))
    assert write_jacking(sample, JackingDone(lines=lines, asked=LevelAsked(), id="only-once")) == (
        "Written down already.",
    )
    assert len(log_of(sample).entries(kind="jacking")) == 2


def test_nothing_to_jack_and_nothing_to_stand_on_blocks_are_told(shed, tmp_path):
    with pytest.raises(InvalidPlan, match="nothing is to be moved"):
        write_jacking(shed, JackingDone(lines=(), asked=LevelAsked()))
    bare = tmp_path / "bare"
    starting.from_sample(bare, "quinta")
    with pytest.raises(NotFoundError, match="support"):
        write_jacking(bare, JackingDone(lines=(), asked=LevelAsked()))


# --- bad input -------------------------------------------------------------------------------------------------------


def test_a_support_beside_its_structure_is_told_with_how_far(sample):
    plan = sample / "plan.toml"
    text = plan.read_text(encoding="utf-8")
    plan.write_text(text.replace('mark = "S1", x = "4 ft 3 in"', 'mark = "S1", x = "40 ft"'), encoding="utf-8")
    said = CliRunner().invoke(pinfold, ["level", "--site", str(sample)])

    with pytest.raises(InvalidPlan, match=r"S1 stands 24' .* beside the footprint"):
        level_site(sample)
    assert said.exit_code != 0


def test_a_tolerance_finer_than_a_tape_is_told_as_typed(sample):
    with pytest.raises(NotFoundError, match="name one of these: seed shed"):
        level_of(sample, LevelAsked(neighbor="barn"))
    told_why = level_of(sample, LevelAsked(tolerance="0.3 mm")).record.moves_because

    assert "no more than 0.3 mm" in told_why
