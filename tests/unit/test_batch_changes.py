"""What each change of a batch did: against the batch before, alone or among others, one way or both."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from pinfold.logbook.entries import entry_of
from pinfold.plan.place import Mixing
from pinfold.reports.reckon_lessons import change_blocks, so_far
from pinfold.studies.lessons.batch_changes import batch_changes, effects
from pinfold.studies.lessons.things import Measures
from pinfold.units import System

MIXING = Mixing(batch=0.07, bucket=0.012, bag=25.0, lime_bag=25.0, sand_bulking=None)
MEASURES = Measures(mixing=MIXING, volumes={"bucket": 0.012})
NUMBERS = itertools.count(1)


def made(day, *, kind="batch", sand="30 L", water="12 L", lime="10 L", mix="lime-plaster", **seen):
    number = next(NUMBERS)
    amounts = [["hydraulic-lime", lime], ["sand", sand], *([["water", water]] if water else [])]
    raw = {"id": f"entry-{number:06}", "kind": kind, "at": f"2026-05-{day:02}T10:00+02:00", "who": "me", "device": "pc",
           "fields": {"mix": mix, "amounts": amounts, **seen}}  # fmt: skip
    return replace(entry_of(raw), seq=number)


def changes(*entries):
    return batch_changes(entries, MEASURES)


def wetter(slumps, *, start=1):
    """Batches each wetter than the one before, with these slumps."""
    return [made(start + at, water=f"{12 + at} L", slump=f"{slump} mm") for at, slump in enumerate(slumps)]


def test_what_was_changed_stands_beside_what_came_of_it():
    (change,) = changes(made(1, slump="80 mm"), made(2, water="14 L", slump="120 mm"))

    assert change.changes == (("more water", pytest.approx(14 / 12 - 1)),)
    assert change.is_alone
    assert [(seen.what, seen.way) for seen in change.seen] == [("slump", 1)]
    assert (change.before, change.day) == ("2026-05-01", "2026-05-02")


def test_a_batch_twice_as_large_is_not_changed():
    assert changes(made(1, slump="80 mm"), made(2, sand="60 L", water="24 L", lime="20 L", slump="120 mm")) == ()


def test_buckets_and_liters_are_the_same_where_the_bucket_is_known():
    assert changes(made(1, sand="36 L", slump="80 mm"), made(2, sand="3 bucket", slump="120 mm")) == ()


def test_a_part_measured_another_way_may_have_changed_so_that_no_other_change_is_alone():
    (change,) = changes(made(1, slump="80 mm"), made(2, lime="14 L", water="4 shovel", slump="120 mm"))

    assert [name for name, _ in change.changes] == ["more hydraulic lime", "water measured another way"]
    assert not change.is_alone
    assert effects([change]) == ()


def test_a_part_left_out_is_told():
    (change,) = changes(made(1, slump="80 mm"), made(2, water="", slump="20 mm"))

    assert change.changes == (("without water", None),)


def test_batches_of_other_mixes_stand_for_themselves():
    assert changes(made(1, slump="80 mm"), made(2, water="14 L", mix="mortar-O", slump="120 mm")) == ()


def test_little_differences_are_the_same():
    (change,) = changes(made(1, slump="80 mm"), made(2, water="14 L", slump="90 mm"))

    assert change.seen[0].way == 0


def test_several_changes_at_once_are_shown_and_not_counted():
    found = changes(made(1, slump="80 mm"), made(2, water="14 L", sand="36 L", slump="120 mm"))

    assert len(found) == 1
    assert not found[0].is_alone
    assert effects(found) == ()


def test_four_times_alike_is_enough_and_three_times_are_not():
    (four,) = effects(changes(*wetter((60, 90, 120, 150, 180))))
    (three,) = effects(changes(*wetter((60, 90, 120, 150))))

    assert (four.change, four.what, four.up, four.down) == ("more water", "slump", 4, 0)
    assert four.is_told
    assert so_far(four) == "up, sure to 97\u00a0%"
    assert not three.is_told
    assert so_far(three) == "not enough to tell"


def test_what_went_both_ways_is_shown_and_not_averaged_away():
    (effect,) = effects(changes(*wetter((60, 90, 60, 90, 60))))

    assert (effect.up, effect.down) == (2, 2)
    assert effect.contradicts
    assert so_far(effect) == "contradictory, not enough to tell"
    assert effect.chance == pytest.approx(0.5)


def test_one_that_went_the_other_way_stays_beside_many_that_did_not():
    (effect,) = effects(changes(*wetter((60, 80, 100, 120, 140, 160, 180, 200, 180))))

    assert (effect.up, effect.down) == (7, 1)
    assert so_far(effect).endswith("though it went the other way too")


def test_trials_are_seen_in_words_and_by_what_is_around_them():
    (change,) = changes(
        made(1, kind="trial", cracks="open", base="dry"), made(2, kind="trial", cracks="none", base="soaked"),
    )  # fmt: skip

    assert change.changes == (("base soaked instead of dry", None),)
    assert (change.seen[0].before, change.seen[0].after, change.seen[0].way) == ("open", "none", -1)


def test_the_order_in_which_entries_come_does_not_matter():
    entries = wetter((60, 90, 120))

    assert changes(*entries) == changes(*reversed(entries))


def test_a_page_says_where_there_is_nothing_to_compare():
    blocks = change_blocks((), (), System.METRIC)

    assert "nothing can be said of changes" in blocks[1].text
