"""Names in entries that are known of nothing: told at the door, by the judgment that the lessons set aside by."""

from __future__ import annotations

from importlib.resources import files

import pytest

from pinfold.logbook.entries import entry_of
from pinfold.store.planfile import plan_of
from pinfold.store.prices import prices_of
from pinfold.studies.lessons.learned import learned
from pinfold.studies.lessons.naming import Doubt, Names, doubts, told

SHELF = files("pinfold.store").joinpath("samples", "quinta")
PLAN = plan_of(SHELF.joinpath("plan.toml").read_text(encoding="utf-8"))
PRICES = prices_of(SHELF.joinpath("prices.toml").read_text(encoding="utf-8"))
NAMES = Names(
    mixes=("earth-plaster", "lime-plaster", "mortar-N"), items=("sand", "hydrated-lime", "portland-cement", "field-fence"),
    coats=("earth-first", "earth-finish"), places=("lane/1a", "lane/1", "gate cart"),
)  # fmt: skip


def entry(kind, **fields):
    head = {"id": "entry-000001", "at": "2026-05-03T10:00+02:00", "who": "me", "device": "desk"}
    return entry_of({**head, "kind": kind, "fields": fields})


BATCH = {"made": "50 L", "amounts": [["sand", "6 bucket"], ["lime", "1 bag"], ["water", "10 L"]]}
COAT = {"place": "my corner", "area": "4 m2", "batches": "1"}
BUCKET = {"measure": "bucket", "mass": "20 kg"}
UNKNOWN = [
    (entry("batch", mix="earth", **BATCH), [("mix", "mix", "earth")]),
    (entry("batch", mix="mortar-n", **BATCH), [("mix", "mix", "mortar-n")]),
    (entry("bucket", item="snad", **BUCKET), [("item", "material", "snad")]),
    (entry("moisture", item="gravel", moisture="4 %"), [("item", "sand", "gravel")]),
    (entry("purchase", item="nails of gold", packs="1", cost="3"), [("item", "item", "nails of gold")]),
    (entry("pile", way="in", item="odd boards", count="3"), [("item", "item", "odd boards")]),
    (entry("coat", layer="skim", **COAT), [("layer", "coat", "skim")]),
    (entry("coat", **COAT), [("layer", "coat", "")]),
]
KNOWN = [
    entry("batch", mix="Lime Plaster", **BATCH),
    entry("bucket", item="Sand", **BUCKET),
    entry("bucket", item="lime", **BUCKET),
    entry("moisture", item="sand", moisture="4 %"),
    entry("purchase", item="portland cement", packs="1", cost="3"),
    entry("pile", way="in", item="sand", count="3"),
    entry("coat", layer="lime-first", **COAT),
]


def test_a_word_for_work_that_means_none_is_doubted_with_those_that_do():
    (doubt,) = doubts(entry("hours", time="3 h", layer="digg"), PLAN)
    said = told(doubt, NAMES)

    assert "did you mean dig?" in said
    assert "The ledger counts the hours" in said
    assert not doubts(entry("hours", time="3 h", layer="laying"), PLAN)
    assert not doubts(entry("hours", time="3 h"), PLAN)


@pytest.mark.parametrize(("written", "found"), UNKNOWN, ids=lambda each: getattr(each, "kind", None))
def test_what_nothing_is_known_by_is_doubted_and_the_lessons_set_it_aside(written, found):
    assert doubts(written, PLAN) == tuple(Doubt(*each) for each in found)
    assert len(learned(PLAN, PRICES, (), [written]).set_aside) == 1


@pytest.mark.parametrize("written", KNOWN, ids=lambda each: each.kind)
def test_what_the_lessons_know_by_any_spelling_is_not_doubted(written):
    assert doubts(written, PLAN) == ()
    named = [
        text for text in learned(PLAN, PRICES, (), [written]).set_aside if "called" in text or "which coat" in text
    ]
    assert named == []


def test_single_amounts_are_doubted_by_themselves_and_water_foam_and_parts_are_known():
    amounts = [["sand", "6 bucket"], ["snad", "1 bag"], ["Water", "10 L"], ["foam", "3 L"], ["cement", "1 bag"],
               ["straw", "1 bucket"]]  # fmt: skip

    assert doubts(entry("batch", mix="mortar-N", amounts=amounts), PLAN) == (Doubt("amounts.snad", "material", "snad"),)


@pytest.mark.parametrize(
    ("place", "doubted"),
    [("lane/1", 0), ("lane/1a", 0), ("lane", 0), ("behind the shed", 0), ("", 0), ("lnae/1", 1), ("lane/1 a", 1)],
)
def test_a_place_is_ones_own_word_unless_it_is_nearly_one_of_the_plans(place, doubted):
    assert len(doubts(entry("note", text="wet", place=place), PLAN)) == doubted


def test_without_a_plan_names_are_judged_by_what_is_shipped_and_places_and_coats_are_not():
    assert doubts(entry("batch", mix="earth"), None) == (Doubt("mix", "mix", "earth"),)
    assert doubts(entry("coat", layer="skim", **COAT), None) == ()
    assert doubts(entry("note", text="wet", place="lnae/1"), None) == ()


@pytest.mark.parametrize(
    ("doubt", "says"),
    [
        (Doubt("mix", "mix", "earth"),
         "the plan has no mix called 'earth'; did you mean earth-plaster? Known are earth-plaster, lime-plaster, mortar-N. "
         "It is written down as it is, and nothing is learned from it until it is corrected."),
        (Doubt("mix", "mix", "zzz"),
         "the plan has no mix called 'zzz'; known are earth-plaster, lime-plaster, mortar-N. "
         "It is written down as it is, and nothing is learned from it until it is corrected."),
        (Doubt("mix", "mix", "mortar n"), "did you mean mortar-N?"),
        (Doubt("mix", "mix", "lime"), "did you mean lime-plaster?"),  # rather than one the plan does not mix
        (Doubt("mix", "mix", "plaster brown"), "did you mean plaster-brown?"),
        (Doubt("item", "material", "snad"), "did you mean sand? Known are sand, hydrated-lime, portland-cement. It"),
        (Doubt("layer", "coat", ""), "which coat it was cannot be told; known are earth-first, earth-finish. It"),
        (Doubt("place", "place", "lnae/1"),
         "the plan has no place called 'lnae/1'; did you mean lane/1? It is written down as it is, as a place of your own."),
    ],
)  # fmt: skip
def test_a_doubt_says_what_is_known_what_may_be_meant_and_what_comes_of_it(doubt, says):
    assert says in told(doubt, NAMES)


def test_of_many_names_the_nearest_are_listed_and_the_rest_counted():
    many = Names(mixes=tuple(f"mix-{number}" for number in range(30)), items=(), coats=(), places=())

    assert "mix-17, " in told(Doubt("mix", "mix", "mx-17"), many)
    assert "and 22 more." in told(Doubt("mix", "mix", "mx-17"), many)
