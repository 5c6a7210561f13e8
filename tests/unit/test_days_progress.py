"""How far the job is by the log: areas, lengths, batches, holes; the more counts, never the sum of two ways."""

from __future__ import annotations

import uuid
from datetime import datetime

import pytest

from days_jobs import job, plan
from pinfold.logbook.entries import entry_of
from pinfold.logbook.works import Work, named_works
from pinfold.studies.days.progress import progress_of

AT = "2026-05-04T15:00-06:00"


def entry(kind, at=AT, **fields):
    return entry_of({"id": uuid.uuid4().hex, "kind": kind, "at": at, "who": "b", "device": "d", "fields": fields})


@pytest.fixture(scope="module")
def whole():
    return job(plan())


def test_nothing_logged_is_all_to_be_done(whole):
    found = progress_of(whole, [])

    assert set(found.left.values()) == {1.0}
    assert found.share(whole) == 0.0
    assert found.in_part == ()


def test_half_a_coat_is_half_left_and_all_before_it_is_done(whole):
    task = whole.task("coat slant/1 outer 1")
    found = progress_of(whole, [entry("coat", place="slant/1", face="outer", layer="cement-scratch",
                                      area=f"{task.measures.m2 / 2:.4f} m2")])  # fmt: skip

    assert found.left["coat slant/1 outer 1"] == pytest.approx(0.5, abs=1e-3)
    assert found.in_part == ("coat slant/1 outer 1",)
    for key in ("set out", "dig slant/1", "footing slant/1", "lay slant/1 1", "grout slant/1", "backfill slant/1"):
        assert found.left[key] == 0.0
        assert key in found.by_order
    assert found.left["coat slant/1 inner 1"] == 1.0
    assert found.left["dig south/1b"] == 1.0


def test_a_coat_without_its_name_goes_on_the_first_that_is_not_whole(whole):
    area = f"{whole.task('coat north/1 outer 1').measures.m2:.4f} m2"
    once = progress_of(whole, [entry("coat", place="north/1", face="outer", area=area)])
    twice = progress_of(whole, [entry("coat", place="north/1", face="outer", area=area) for _ in range(2)])

    assert (once.left["coat north/1 outer 1"], once.left["coat north/1 outer 2"]) == (0.0, 1.0)
    assert twice.left["coat north/1 outer 2"] == pytest.approx(0.0, abs=0.01)


def test_hours_and_batches_of_one_day_are_not_added(whole):
    task = whole.task("footing north/3")
    half = f"{task.measures.m / 2:.4f} m"
    hours = entry("hours", time="6 h", layer="footing", place="north/3", done_length=half)
    batches = entry("batch", mix="concrete-footing", layer="footing", place="north/3",
                    batches=str(round(task.doses[0].batches / 2)))  # fmt: skip

    assert progress_of(whole, [hours]).left[task.key] == pytest.approx(0.5, abs=0.01)
    assert progress_of(whole, [hours, batches]).left[task.key] == pytest.approx(0.5, abs=0.05)


def test_when_it_was_done_is_the_last_entry(whole):
    task = whole.task("coat slant/1 outer 1")
    area = f"{task.measures.m2 / 2 + 0.01:.4f} m2"
    first, second = "2026-05-02T10:00-06:00", "2026-05-03T10:00-06:00"
    found = progress_of(whole, [
        entry("coat", at, place="slant/1", face="outer", layer="scratch", area=area) for at in (second, first)
    ])  # fmt: skip

    assert found.done[task.key] == datetime.fromisoformat(second)


def test_a_length_without_a_place_goes_along_the_wall_in_order(whole):
    dug = sum(whole.task(key).measures.m for key in ("dig south/1a", "dig south/1b"))
    found = progress_of(whole, [entry("hours", time="20 h", layer="trench", done_length=f"{dug:.4f} m")])

    assert found.left["dig south/1a"] == found.left["dig south/1b"] == 0.0
    assert found.left["dig east/1a"] == pytest.approx(1.0, abs=1e-3)


def test_holes_are_counted_among_those_of_their_run(whole):
    one = progress_of(whole, [entry("hole", mark="P1", depth="1 m", place="west/1")])
    four = progress_of(whole, [entry("hole", mark=f"P{n}", depth="1 m", place="west/1") for n in range(4)])

    assert one.left["holes west/1"] == pytest.approx(0.75)
    assert four.left["holes west/1"] == 0.0


def test_a_side_stands_for_all_its_runs_and_stretches(whole):
    """The log asks for a side or stretch, so both count."""
    dug = [task for task in whole.tasks if task.work is Work.DIG and task.place.startswith("south/")]
    length = sum(task.measures.m for task in dug)
    for fields in ({"done_length": f"{length:.4f} m"}, {"done_length": f"{length / 2:.4f} m"}):
        found = progress_of(whole, [entry("hours", time="6 h", layer="dig", place="south", **fields)])
        left = sum(task.measures.m * found.left[task.key] for task in dug)
        assert length - left == pytest.approx(float(fields["done_length"].split()[0]), rel=0.03)
        assert found.unplaced == ()
    laid = progress_of(whole, [entry("batch", mix="mortar-S", batches="2", layer="mortar", place="south")])
    assert any(0 < laid.left[task.key] < 1 for task in whole.tasks if task.place.startswith("south/"))
    coat = progress_of(whole, [entry("coat", place="north", face="outer", layer="cement-scratch", area="1 m2")])
    assert coat.unplaced == ()


def test_a_side_is_not_another_whose_name_begins_alike(whole):
    found = progress_of(whole, [entry("hours", time="6 h", layer="dig", place="sou", done_length="2 m")])

    assert len(found.unplaced) == 1


def test_posts_holes_and_gates_are_told_by_the_piece(whole):
    posts = whole.task("posts west/1").measures.each
    found = progress_of(whole, [entry("hours", time="3 h", layer="holes", place="west/1", done_count=str(int(posts))),
                                entry("hours", time="3 h", layer="posts", place="west/1", done_count="1")])  # fmt: skip

    assert found.left["holes west/1"] == 0.0
    assert found.left["posts west/1"] == pytest.approx(1 - 1 / posts)


@pytest.mark.parametrize("word", [*Work, "laying", "Plastering", "cement-scratch", "setting  out"])
def test_every_word_that_the_pages_use_for_work_means_some(word):
    assert named_works(word)


def test_work_that_no_task_knows_is_told(whole):
    found = progress_of(whole, [entry("hours", time="3 h", layer="pond", done_area="2 m2"),
                                entry("coat", place="nowhere", area="2 m2")])  # fmt: skip

    assert len(found.unplaced) == 2
    assert set(found.left.values()) == {1.0}


def test_batches_tried_somewhere_are_no_work(whole):
    assert progress_of(whole, [entry("batch", mix="mortar-S")]).unplaced == ()


@pytest.mark.parametrize("times", [1, 3])
def test_more_in_the_log_never_leaves_more(whole, times):
    entries = [entry("batch", mix="mortar-S", layer="mortar", place="slant/1", batches="1") for _ in range(times)]
    less, more = progress_of(whole, entries), progress_of(whole, entries * 2)

    assert all(more.left[key] <= less.left[key] + 1e-12 for key in less.left)
