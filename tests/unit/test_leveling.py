"""Leveling from readings to the sheet: a planted twist and a planted blunder, hostile surveys, settlement, all doors."""

from __future__ import annotations

import json
import math
import random
from dataclasses import replace
from datetime import UTC, datetime

import pytest
from click.testing import CliRunner

import sheds
from pinfold.actions.level import LevelAsked, level_of
from pinfold.actions.level_binder import level_part
from pinfold.actions.level_jack import jack_of
from pinfold.actions.level_read import Run, write_run
from pinfold.actions.level_set_out import SetOutAsked, set_out_of
from pinfold.actions.level_settle import settle_of
from pinfold.actions.sites import open_site
from pinfold.cli.commands import pinfold
from pinfold.errors import InputError, InvalidPlan, NoSolutionError, NotFoundError, OutOfRangeError
from pinfold.findings import Verdict
from pinfold.plan.supports import DoorOpening, Shim, Support
from pinfold.reports.level_page import moves_in_words
from pinfold.store import starting
from pinfold.studies.leveling.adjusting import surveyed
from pinfold.studies.leveling.lying import lie_of, standing_out
from pinfold.studies.leveling.moving import Move, Moves, ShimMove, least_moves
from pinfold.studies.leveling.openings import racked
from pinfold.studies.leveling.ordering import Lifted, jacking_order, neighbors
from pinfold.studies.leveling.program import Place
from pinfold.studies.leveling.records import LevelReading
from pinfold.studies.leveling.setting_out import Wanted, set_out
from pinfold.studies.leveling.settling import DAY, YEAR, Ground, settled
from pinfold.studies.leveling.words import compass, fine
from pinfold.units import System

OWN = tuple(sheds.MARKS)
SUPPORTS = tuple(Support(mark=mark, at=at) for mark, at in sheds.MARKS.items())
SHIMS = tuple(Shim(thickness=thickness, count=count) for thickness, count in sheds.SHIMS)


def readings(heights=sheds.TRUE, spread=0.0015, **told):
    return [
        LevelReading(mark, setup, value, spread, number)
        for number, (mark, setup, value) in enumerate(sheds.rods(heights, **told), start=1)
    ]  # fmt: skip


def survey(heights=sheds.TRUE, *, name="", at=0.0, **told):
    return surveyed(readings(heights, **told), name=name, at=at, fixed="peg", own=OWN)


def lie(heights=sheds.TRUE):
    return lie_of(SUPPORTS, {mark: (height, 0.001) for mark, height in heights.items()}, axis=(1.0, 0.0), north=0.0)


# --- a blunder and a twist, all the way ------------------------------------------------------------------------------


def test_with_a_planted_blunder_and_twist_the_moves_end_within_the_tolerance():
    planted = [
        reading._replace(value=reading.value + 0.10) if (reading.mark, reading.setup) == ("B2", "s2") else reading
        for reading in readings(setups=(1.0, 1.2, 1.35))
    ]  # fmt: skip
    found = surveyed(planted, fixed="peg", own=OWN)
    heights = {mark: found.height(mark).height for mark in OWN}
    moves = least_moves([Place(mark, height) for mark, height in heights.items()], SHIMS, tolerance=0.004)
    steps = jacking_order(
        [Lifted(mark=m.mark, at=sheds.MARKS[m.mark], height=m.after - m.lift, lift=m.lift) for m in moves.moves],
        step=0.003,
    )  # fmt: skip

    true = dict(sheds.TRUE)
    for step in steps:
        true[step.mark] += step.lift
    left = max(true.values()) - min(true.values())

    assert [one.readings[0].mark for one in found.aside] == ["B2"]
    assert left <= 0.004 + 2 * 0.0015
    assert all(step.bend <= step.allowed * (1 + 1e-6) for step in steps)


def test_a_wrong_reading_in_two_setups_is_told_with_the_one_it_cannot_be_told_from():
    planted = readings()
    planted[2] = planted[2]._replace(value=planted[2].value + 0.1)
    found = surveyed(planted, fixed="peg", own=OWN)

    assert {reading.setup for reading in found.aside[0].readings} == {"s1", "s2"}
    assert "nothing tells which" in found.aside[0].says
    assert "100 mm" in found.aside[0].says
    assert [mark for mark, _ in found.missing] == ["A2"]


def test_two_wrong_readings_are_both_found():
    planted = readings(setups=(1.0, 1.2, 1.3, 1.4))
    planted[2] = planted[2]._replace(value=planted[2].value + 0.1)
    planted[10] = planted[10]._replace(value=planted[10].value - 0.05)
    found = surveyed(planted, fixed="peg", own=OWN)

    assert {one.readings[0].number for one in found.aside} == {planted[2].number, planted[10].number}
    assert all(abs(found.height(mark).height - sheds.TRUE[mark]) < 0.002 for mark in OWN)


def test_good_readings_are_all_kept_and_their_precision_told():
    found = survey(setups=(1.0, 1.2, 1.3))

    assert found.aside == ()
    assert found.spare == 12
    assert found.height("A3").spread < 0.0015
    assert found.spread_between("A1", "A3") < 0.0015


# --- hostile surveys -------------------------------------------------------------------------------------------------


def test_no_reading_is_refused():
    with pytest.raises(InputError, match="there is no reading"):
        surveyed([])


def test_one_setup_is_told_to_check_nothing():
    found = survey(setups=(1.0,))

    assert found.spare == 0
    assert "no mark was read twice" in found.notes[0]


def test_setups_that_share_no_mark_are_told():
    rows = [
        LevelReading("peg", "s1", 1.0, 0.001),
        LevelReading("A1", "s1", 1.1, 0.001),
        LevelReading("B1", "s2", 1, 0.001),
    ]
    found = surveyed(rows, fixed="peg", own=OWN)

    assert found.missing == (("B1", "setup s2 shares no mark with the others: read a mark of theirs from it"),)
    assert found.height("B1") is None


def test_without_a_mark_that_stays_the_whole_may_sink_unseen():
    found = surveyed([reading for reading in readings() if reading.mark != "peg"], fixed="peg", own=OWN)

    assert not found.steady
    assert any("sinking as a whole" in note for note in found.notes)


def test_heights_written_down_join_readings():
    rows = [
        LevelReading("A1", "", 0.05, 0.001),
        LevelReading("A1", "s1", 1.0, 0.001),
        LevelReading("A2", "s1", 0.9, 0.001),
    ]

    assert surveyed(rows, own=OWN).height("A2").height == pytest.approx(0.15)


@pytest.mark.parametrize(
    ("marks", "told"),
    [
        ({"A1": (0, 0), "A2": (2, 0)}, "2 of 6 supports have a height"),
        ({"A1": (0, 0), "A2": (2, 0), "A3": (4, 0)}, "stand in one line"),
    ],
)
def test_too_few_supports_or_three_in_a_line_are_told_with_what_mends_it(marks, told):
    with pytest.raises(OutOfRangeError, match=told):
        lie_of(SUPPORTS, dict.fromkeys(marks, (0.0, 0.001)), axis=(1.0, 0.0), north=0.0)


def test_three_supports_have_a_plane_and_no_twist():
    found = lie_of(
        SUPPORTS, {mark: (sheds.TRUE[mark], 0.001) for mark in ("A1", "A3", "B3")}, axis=(1.0, 0.0), north=0.0
    )  # fmt: skip

    assert found.twist is None
    assert found.missing == ("A2", "B1", "B2")


def test_a_support_far_off_the_others_is_worth_a_second_look():
    assert standing_out(lie()) == ()
    [(mark, off)] = standing_out(lie(sheds.TRUE | {"A2": -0.104}))

    assert mark == "A2"
    assert off < -0.05


# --- how it lies --------------------------------------------------------------------------------------------------


def test_a_floor_that_falls_to_the_east_is_told_so():
    found = lie({mark: -0.005 * x for mark, (x, _) in sheds.MARKS.items()})

    assert compass(found.toward) == "east"
    assert found.falls[0].fall == pytest.approx(0.021)
    assert found.falls[1].fall == pytest.approx(0, abs=1e-9)
    assert found.twist == pytest.approx(0, abs=1e-9)


def test_turned_to_true_north_the_same_fall_is_another():
    heights = {mark: (-0.005 * x, 0.001) for mark, (x, _) in sheds.MARKS.items()}

    turned = lie_of(SUPPORTS, heights, axis=(1.0, 0.0), north=math.radians(90))

    assert compass(turned.toward) == "north"


def test_a_tilt_racks_no_door_and_a_sagging_support_does():
    door = DoorOpening(name="door", start=(2.9, 0.0), end=(3.8, 0.0), height=2.0, gap=0.003)
    tilted = racked(door, lie({mark: -0.005 * x + 0.01 * y for mark, (x, y) in sheds.MARKS.items()}))
    sagging = racked(door, lie({mark: -0.02 * (mark == "A3") for mark in OWN}))

    assert tilted.racking == pytest.approx(0, abs=1e-9)
    assert sagging.by == ("A1", "A2", "A3")
    assert sagging.longer == "end"
    assert sagging.diagonals == pytest.approx(2 * sagging.racking * 0.9 * 2 / math.hypot(0.9, 2), rel=1e-3)
    assert sagging.left < 0


def test_of_a_door_in_a_wall_without_supports_nothing_is_shown():
    door = DoorOpening(name="door", start=(0.5, 1.2), end=(1.4, 1.2), height=2.0, gap=0.003)

    assert racked(door, lie()) is None


# --- moves --------------------------------------------------------------------------------------------------------


def test_a_level_structure_is_left_alone():
    moves = least_moves([Place(mark, 0.001 * (mark == "A1")) for mark in OWN], SHIMS, tolerance=0.003)

    assert moves.touched == ()


def test_a_support_comes_down_only_by_shims_in_its_stack():
    places = [Place("a", 0.008, shims=(0.005, 0.003)), Place("b", 0.0), Place("c", 0.0), Place("d", 0.0)]
    [move] = least_moves(places, (), tolerance=0.001).touched

    assert (move.mark, move.lift) == ("a", pytest.approx(-0.008))


@pytest.mark.parametrize(
    ("shims", "tolerance", "told"),
    [
        ((), 0.004, "no shims are on hand"),
        ((Shim(thickness=0.006, count=40),), 0.002, "shims thinner than 6 mm"),
        ((Shim(thickness=0.003, count=2),), 0.004, "More of the same would do"),
    ],
)
def test_what_cannot_be_leveled_is_told_with_what_would_mend_it(shims, tolerance, told):
    from pinfold.errors import NoSolutionError

    with pytest.raises(NoSolutionError, match=told):
        least_moves([Place(mark, height) for mark, height in sheds.TRUE.items()], shims, tolerance=tolerance)


def test_neighbors_are_those_with_nobody_between():
    assert neighbors([(0, 0), (2, 0), (4, 0)]) == ((0, 1), (1, 2))
    assert len(neighbors([(0, 0), (2, 0), (2, 2), (0, 2)])) == 6  # both diagonals too: a twist is seen on them


def test_lengths_are_told_as_a_tape_has_them():
    assert [fine(length, System.METRIC) for length in (0.0222, -0.0005, 0.0)] == ["22 mm", "-0.5 mm", "0 mm"]
    assert [fine(length, System.US) for length in (0.0222, -0.0254, 0.0, 0.03)] == [
        "7/8 in",
        "-1 in",
        "0 in",
        "1 3/16 in",
    ]


# --- settlement ------------------------------------------------------------------------------------------------------

DAYS = ("2026-05-01", "2026-08-01", "2026-11-01", "2027-02-01")
GROUND = Ground(latitude=0.7, frost_depth=0.8, pad_below=0.0, built=datetime(2026, 4, 1, tzinfo=UTC).timestamp())


def surveys(count, sinks=0.006):
    return [
        survey(
            {mark: height - number * sinks * (mark == "B3") for mark, height in sheds.TRUE.items()}, name=day, seed=number,
            at=datetime.fromisoformat(f"{day}T12:00+00:00").timestamp(), spread=0.0015,
        )
        for number, day in enumerate(DAYS[:count])
    ]  # fmt: skip


def test_one_survey_tells_nothing_and_two_a_difference():
    one, two = settled(surveys(1), SUPPORTS, GROUND), settled(surveys(2), SUPPORTS, GROUND)

    assert one.trends == ()
    assert any("before a second one" in note for note in one.notes)
    assert {trend.moves for trend in two.trends} == {None}
    assert two.again == 90 * DAY


def test_a_support_that_sinks_is_seen_and_looked_at_soon():
    found = settled(surveys(4), SUPPORTS, GROUND)
    sinking = next(trend for trend in found.trends if trend.mark == "B3")

    assert sinking.moves
    assert sinking.rate * YEAR == pytest.approx(0.0238, rel=0.1)
    assert sinking.settled == pytest.approx(0.018, abs=0.002)
    assert sinking.ahead > sinking.ahead_slowing > 0
    assert "B3" in found.uneven[0].pair
    assert found.again == 14 * DAY
    assert "2027-02-01" in " ".join(found.notes), "a survey in the season of frost"


def test_what_stands_still_is_looked_at_within_a_year():
    found = settled(surveys(4, sinks=0.0), SUPPORTS, Ground(latitude=0.7, frost_depth=0.2, pad_below=0.5, built=None))

    assert not any(trend.moves for trend in found.trends if trend.mark == "B3")
    assert found.again > 30 * DAY
    assert any("built" in note for note in found.notes)


def test_without_a_steady_mark_only_unevenness_is_told():
    loose = [
        surveyed([reading for reading in readings() if reading.mark != "peg"], name=day, at=number * 90 * DAY, own=OWN)
        for number, day in enumerate(DAYS[:3])
    ]  # fmt: skip
    found = settled(loose, SUPPORTS, GROUND)

    assert not found.steady
    assert any("against their mean" in note for note in found.notes)


# --- many supports ---------------------------------------------------------------------------------------------------


def many(count, seed=1):
    chance = random.Random(seed)
    return [Place(f"S{number}", round(chance.gauss(0, 0.008), 4)) for number in range(count)]


def test_thirty_supports_are_proven():
    told = []
    shims = [Shim(thickness=thickness, count=90) for thickness in (0.0125, 0.006, 0.003)]
    found = least_moves(many(30), shims, tolerance=0.006, told=lambda done, whole: told.append((done, whole)))

    assert found.proven
    assert found.fewest == len(found.touched)
    assert found.range <= 0.006 + 1e-6
    assert told == [(0, 3), (1, 3), (2, 3), (3, 3)]
    assert least_moves(many(30), shims, tolerance=0.006) is found, "what was found once is not sought again"


def test_too_few_shims_for_many_supports_are_told_with_how_near_they_come():
    shims = [Shim(thickness=0.006, count=10), Shim(thickness=0.003, count=10)]
    with pytest.raises(NoSolutionError, match=r"bring them to [\d.]+ mm.*More of the same would do"):
        least_moves(many(20), shims, tolerance=0.006)


def test_what_is_not_proven_says_how_few_could_do():
    moves = [Move(mark=mark, lift=0.01, shims=(ShimMove(thickness=0.01, count=1),), after=0.0) for mark in "ABC"]
    found = Moves(moves=tuple(moves), tolerance=0.006, range=0.004, lift=0.03, handled=3, proven=False, fewest=2)

    assert "none does with fewer than 2" in moves_in_words(found, System.METRIC)
    assert "None touches fewer; time ran out" in moves_in_words(replace(found, fewest=3), System.METRIC)


# --- setting out ----------------------------------------------------------------------------------------------------


def test_cut_fill_and_courses_by_hand():
    heights = [each for each in survey().heights if each.mark in ("A1", "A3")]
    high, low = set_out(heights, Wanted(string=0.1, down=0.65, course=0.2))

    assert high.string == pytest.approx(0.1, abs=2e-3)
    assert high.cut == pytest.approx(0.55, abs=2e-3)
    assert low.cut == pytest.approx(0.528, abs=2e-3)
    assert (high.courses, high.rest) == (3, pytest.approx(0.05))


# --- every door -----------------------------------------------------------------------------------------------------


@pytest.fixture
def site(tmp_path):
    folder = tmp_path / "quinta"
    starting.from_sample(folder, "quinta")
    plan = folder / "plan.toml"
    plan.write_text(plan.read_text(encoding="utf-8") + "\n" + sheds.shed(inner='tolerance = "4 mm"'), encoding="utf-8")
    return folder


def write(folder, rows=None, **told):
    rows = sheds.rods() if rows is None else rows
    for setup in dict.fromkeys(setup for _, setup, _ in rows):
        lines = tuple(f"{mark}={1e3 * value:.1f} mm" for mark, own, value in rows if own == setup)
        write_run(folder, Run(lines=lines, setup=setup, instrument="laser", **told))


def test_from_a_run_of_readings_to_the_sheet(site):
    write(site)
    found = level_of(site, LevelAsked()).record
    sheet = jack_of(site, LevelAsked()).record

    assert found.lie is not None
    assert found.moves.range <= 0.004 + 1e-6
    assert sheet.steps
    assert {check.verdict for check in sheet.checks} == {Verdict.HOLDS}
    assert sum(step.lift for step in sheet.steps) == pytest.approx(found.moves.lift)


def test_cautions_stand_first_on_every_sheet(site):
    write(site)
    runner = CliRunner()
    for words in (["level"], ["level", "jack"]):
        told = runner.invoke(pinfold, [*words, "--site", str(site)])
        assert told.exit_code == 0, told.output
        assert " ".join(told.output.split()).index("only a jack holds") < 120
        assert max(map(len, told.output.splitlines())) <= 80
    part = level_part(open_site(site), wide_mm=170.0)
    assert "only a jack holds" in part.cautions[0]
    assert part.sheets[0].svg.startswith("<svg")


def test_json_is_in_si_and_whole(site):
    write(site)
    for words in (["level"], ["level", "jack"], ["level", "settle"], ["level", "set-out"]):
        told = CliRunner().invoke(pinfold, [*words, "--json", "--site", str(site)])
        assert told.exit_code == 0, told.output
        assert json.loads(told.stdout)
    told = CliRunner().invoke(pinfold, ["level", "--json", "--site", str(site)])
    assert json.loads(told.stdout)["tolerance_m"] == pytest.approx(0.004)


def test_nothing_planned_and_nothing_read_are_told_and_no_fault(tmp_path, site):
    bare = tmp_path / "bare"
    starting.from_sample(bare, "quinta")

    assert "[[neighbor.blocks.support]]" in level_of(bare, LevelAsked()).record.because[0]
    assert "No level was read" in level_of(site, LevelAsked()).record.because[0]
    assert settle_of(bare).record.settlement is None
    assert set_out_of(bare, SetOutAsked()).record.marks == ()
    assert level_part(open_site(bare), wide_mm=170.0).blocks == ()


def test_a_structure_or_survey_of_no_such_name_is_told(site):
    write(site)
    with pytest.raises(NotFoundError, match="tool shed"):
        level_of(site, LevelAsked(neighbor="barn"))
    with pytest.raises(NotFoundError, match="there are"):
        level_of(site, LevelAsked(survey="spring"))


@pytest.mark.parametrize("typed", ["four", "0 mm", "1 m", "nan mm", "-3 mm"])
def test_a_tolerance_that_cannot_be_is_told(site, typed):
    with pytest.raises(InvalidPlan):
        level_of(site, LevelAsked(tolerance=typed))


def test_supports_without_a_height_keep_everything_where_it_is(site):
    write(site, [row for row in sheds.rods() if row[0] != "B2"])
    found = level_of(site, LevelAsked()).record

    assert found.moves is None
    assert "B2" in found.moves_because
    assert jack_of(site, LevelAsked()).record.steps == ()


def test_a_tolerance_finer_than_the_readings_is_doubted(site):
    write(site, spread="3 mm")

    assert any(
        "cannot be shown to be kept" in note for note in level_of(site, LevelAsked(tolerance="1.5 mm")).record.notes
    )


def test_a_weak_jack_is_told_before_anything_is_begun(site):
    plan = site / "plan.toml"
    plan.write_text(
        plan.read_text(encoding="utf-8").replace('capacity = "40 kN"', 'capacity = "9 kN"'), encoding="utf-8"
    )
    write(site)
    told = CliRunner().invoke(pinfold, ["level", "jack", "--site", str(site)]).output

    assert "Do not begin: jack does not hold" in " ".join(told.split())


def test_without_its_weight_nothing_is_shown_to_hold(site):
    plan = site / "plan.toml"
    plan.write_text(plan.read_text(encoding="utf-8").replace('mass = "1900 kg"\n', ""), encoding="utf-8")
    write(site)
    told = " ".join(CliRunner().invoke(pinfold, ["level", "jack", "--site", str(site)]).output.split())

    assert "Do not begin before they are" in told


def test_a_run_is_written_whole_or_not_at_all(site):
    with pytest.raises(InvalidPlan) as refused:
        write_run(site, Run(lines=("A1=412 mm", "A2=four", "A3")))
    assert {problem.place for problem in refused.value.problems} == {"line 3", "A2: rod"}
    with pytest.raises(InvalidPlan) as refused:
        write_run(site, Run(lines=("A1=412 mm", "A2=four mm", "A3=900 m")))
    assert {str(problem.place) for problem in refused.value.problems} == {"A2: rod", "A3: rod"}

    assert level_of(site, LevelAsked()).record.survey is None


def test_a_run_sent_twice_is_written_once(site):
    run = Run(lines=("peg 1000", "A1 1004"), unit="mm", id="a-run-of-readings")

    assert write_run(site, run)[0].startswith("Written down from setup 1")
    assert write_run(site, run)[0] == "Written down already."


def test_a_gap_over_the_blocks_is_shimmed_up(site):
    from pinfold.actions.log_book import log_entry

    write(
        site, [(mark, setup, round(value, 3)) for mark, setup, value in sheds.rods(dict.fromkeys(OWN, 0.0), spread=0)]
    )
    log_entry(site, "level", {"mark": "A2", "rod": "1 m", "setup": "s1", "gap": "6 mm"})
    [move] = level_of(site, LevelAsked()).record.moves.touched

    assert (move.mark, move.lift) == ("A2", 0.0)
    assert sum(each.thickness * each.count for each in move.shims) == pytest.approx(0.006)


def test_the_phone_offers_the_marks_the_fixed_one_first(site):
    from pinfold.actions.phone import phone_record

    [level] = [form for form in phone_record(site).forms if form.kind == "level"]
    fields = {field.key: field for field in level.fields}

    assert fields["mark"].offers == ("peg", *OWN)
    assert [field.key for field in level.fields if field.first] == ["rod", "setup"]


def test_in_inches_the_shed_is_told_in_thirty_seconds(tmp_path):
    folder = tmp_path / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    plan = folder / "plan.toml"
    plan.write_text(plan.read_text(encoding="utf-8") + "\n" + sheds.shed(), encoding="utf-8")
    write(folder)
    told = " ".join(
        CliRunner().invoke(pinfold, ["level", "--site", str(folder), "--neighbor", "tool shed"]).output.split()
    )

    assert "to the east over 13' 9 3/8\"" in told
    assert "1/4 in" in told
    assert " mm" not in told.partition("How it was worked out")[0]
