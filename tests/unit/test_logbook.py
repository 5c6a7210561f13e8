"""One entry out of what was typed, and which entries stand."""

from __future__ import annotations

from itertools import permutations

import pytest

from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.logbook.cells import cell_of, fields_of, pairs_of
from pinfold.logbook.current import standing
from pinfold.logbook.entries import Amount, entry_of, raw_of
from pinfold.logbook.kinds import Sort, entry_kind, entry_kinds
from pinfold.tables.shelf import shelf

HEAD = {"id": "entry-0001", "at": "2026-05-03T14:20+02:00", "who": "ana", "device": "phone"}


def entry(kind="note", name="entry-0001", corrects="", **fields):
    return entry_of({**HEAD, "id": name, "kind": kind, "corrects": corrects, "fields": fields or {"text": "wet"}})


def places(raw):
    with pytest.raises(InvalidPlan) as stopped:
        entry_of(raw)
    return {problem.place: problem.message for problem in stopped.value.problems}


def test_quantities_are_kept_in_si_and_as_typed():
    made = entry("batch", mix="earth", wet_density="115 lb/ft3", temperature="54 °F", batches="3")

    assert made.number("wet_density") == pytest.approx(1842.1, abs=0.1)
    assert made.number("temperature") == pytest.approx(12.2, abs=0.05)
    assert made.number("batches") == 3
    assert made.typed["wet_density"] == "115 lb/ft3"


def test_amounts_are_masses_volumes_or_measures_of_the_site():
    made = entry(
        "batch", mix="earth", amounts=[["sand", "10 buckets"], ["water", "14 L"], ["lime", "25 kg"], ["straw", "bag"]]
    )

    assert made.values["amounts"] == (
        Amount("sand", 10, "bucket"), Amount("water", 0.014, "m3"), Amount("lime", 25, "kg"), Amount("straw", 1, "bag"),
    )  # fmt: skip


def test_money_is_kept_in_smallest_coins_exactly():
    raw = {**HEAD, "kind": "purchase", "fields": {"item": "sand", "packs": "3", "cost": "1234567.89"}}

    assert entry_of(raw).values["cost"] == 123456789
    assert entry_of({**raw, "fields": {**raw["fields"], "cost": "1200"}}, digits=0).values["cost"] == 1200
    assert "decimals" in places({**raw, "fields": {**raw["fields"], "cost": "1.005"}})["cost"]


def test_every_complaint_is_told_at_once_each_with_its_place():
    told = places(
        {"id": "short", "kind": "batch", "at": "yesterday", "who": "", "device": "x" * 50, "color": "red",
         "fields": {"wet_density": "1850", "batches": "0", "taste": "good"}}
    )  # fmt: skip

    assert set(told) == {"id", "at", "who", "device", "color", "mix", "wet_density", "batches", "taste"}


@pytest.mark.parametrize(
    ("key", "found", "says"),
    [
        ("at", "2026-05-03T14:20", "offset"), ("at", "1970-01-01T00:00Z", "clock"), ("id", "a b c d e f", "letters"),
        ("who", "a\nb", "letters"), ("corrects", "??", "id"), ("corrects", "entry-0001", "itself"),
        ("kind", "nothing", "kind of entry"), ("id", 12345678, "text"),
    ],
)  # fmt: skip
def test_a_wrong_head_is_told(key, found, says):
    assert says in places({**HEAD, "kind": "note", "fields": {"text": "wet"}, key: found})[key]


@pytest.mark.parametrize(
    "amounts",
    ["sand", [["sand"]], [["sand", "10"]], [["sand", "0 bucket"]], [["sand", "3 m"]], [["sa=nd", "1 kg"]], [["s;d", "1 kg"]],
     [["sa\0d", "1 kg"]], [["", "1 kg"]], [[1, 2]], [["sand", "1 kg"]] * 31, [["sand", "-1 kg"]], [["sand", "1e9 kg"]]],
)  # fmt: skip
def test_amounts_that_cannot_be_are_told(amounts):
    assert "amounts" in places({**HEAD, "kind": "batch", "fields": {"mix": "earth", "amounts": amounts}})


def test_blanks_around_and_line_ends_of_other_systems_make_no_other_entry():
    plain = entry(text="one\ntwo")

    assert entry_of({**HEAD, "kind": "note", "fields": {"text": "  one\r\ntwo \n"}}) == plain
    spaced = entry("batch", mix=" earth ", amounts=((" sand ", " 10 bucket "),))
    assert spaced.typed == {"mix": "earth", "amounts": [["sand", "10 bucket"]]}


def test_a_field_of_blanks_is_an_empty_one():
    assert "missing" in places({**HEAD, "kind": "note", "fields": {"text": "  "}})["text"]
    assert "mix" in places({**HEAD, "kind": "batch", "fields": {"amounts": []}})


@pytest.mark.parametrize(
    "raw", [None, [], "x", 3, {**HEAD, "kind": "note", "fields": []}, {**HEAD, "kind": "note", "fields": "x"}]
)
def test_what_is_no_table_is_told(raw):
    with pytest.raises(InvalidPlan):
        entry_of(raw)


def test_what_an_entry_is_made_from_makes_it_again():
    made = entry("batch", mix="earth", amounts=[["sand", "10 bucket"]], wet_density="1850 kg/m3", corrects="entry-0000")

    assert entry_of(raw_of(made)) == made


def test_every_kind_has_fields_and_bounds_that_make_sense():
    assert len(entry_kinds()) >= 14
    for kind in entry_kinds().values():
        assert kind.says
        assert kind.group in ("work", "money", "reading", "note")
        for field in kind.fields:
            assert field.low < field.high
            assert bool(field.unit) == (field.sort is Sort.QUANTITY)
            assert bool(field.choices) == (field.sort is Sort.CHOICE)
            assert field.suggest in ("", "places", "mixes", "items", "layers", "works", "marks", "last")


def test_the_ground_of_a_hole_is_any_that_the_plan_knows():
    assert set(entry_kind("hole").field("ground").choices) == set(shelf("soils"))


def test_a_lean_is_to_the_outside_or_below_zero_to_the_inside():
    out = entry("plumb", mark="P4", out="3/4 in", over="6 ft")
    within = entry("plumb", mark="south, middle", out="-12 mm", over="0.9 m", spread="2 mm")

    assert (out.number("out"), out.number("over")) == (pytest.approx(0.01905), pytest.approx(1.8288))
    assert within.number("out") == pytest.approx(-0.012)
    assert set(places({**HEAD, "kind": "hole", "fields": {"mark": "P4", "depth": "90"}})) == {"depth"}


def test_an_unknown_kind_is_told_with_those_there_are():
    with pytest.raises(NotFoundError, match="batch, coat"):
        entry_kind("bath")


def test_amounts_as_one_text_and_back():
    pairs = [["sand", "10 bucket"], ["water", "14 L"]]

    assert cell_of(pairs) == "sand=10 bucket; water=14 L"
    assert pairs_of(" sand = 10 bucket ;water=14 L; ") == pairs
    with pytest.raises(InputError, match="equals sign"):
        pairs_of("sand 10 bucket")
    with pytest.raises(InputError, match="semicolon"):
        pairs_of("sand=10 bucket, water=14 L")


def test_words_of_a_command_line_are_fields():
    fields = fields_of(entry_kind("batch"), {"mix": "earth", "amounts.sand": "10 bucket", "amounts.water": "14 L"})

    assert fields == {"mix": "earth", "amounts": [["sand", "10 bucket"], ["water", "14 L"]]}


def at(seq, made):
    return made.__class__(**{**vars(made), "seq": seq})


CHAIN = [
    entry(name="first-one"),
    entry(name="second-one", corrects="first-one"),
    entry(name="third-one", corrects="second-one"),
]


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_the_end_of_a_chain_of_corrections_stands_in_whatever_order_they_came(order):
    came = [at(seq, CHAIN[place]) for seq, place in enumerate(order, start=1)]

    assert [each.id for each in standing(came)] == ["third-one"]


def test_of_two_corrections_of_one_entry_the_later_stands():
    both = [at(1, CHAIN[0]), at(2, CHAIN[1]), at(3, entry(name="other-one", corrects="first-one"))]

    assert [each.id for each in standing(both)] == ["other-one"]


def test_what_was_taken_back_does_not_stand_and_what_corrects_nothing_does():
    taken = [at(1, CHAIN[0]), at(2, entry("withdrawn", "taken-back", "first-one", text="twice"))]

    assert standing(taken) == ()
    assert [each.id for each in standing([at(1, CHAIN[1])])] == ["second-one"]


def test_a_ring_of_corrections_leaves_one_standing():
    ring = [at(1, entry(name="first-one", corrects="other-one")), at(2, entry(name="other-one", corrects="first-one"))]

    assert [each.id for each in standing(ring)] == ["other-one"]
