"""Codes that stay with their piece, and a plan that is carried on while it is carried out."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cutting_cases import orders, wrong_with
from pinfold.actions.correcting import correct, correction_draft
from pinfold.actions.cut_done import Done, cut_done
from pinfold.actions.cut_flat import rolls_of
from pinfold.actions.cut_labels import labels_for
from pinfold.actions.cut_pieces import CutAsked, pieces_of
from pinfold.actions.log_book import now_at
from pinfold.actions.sites import open_site
from pinfold.actions.taking import take_entries
from pinfold.store import pile, planfile, starting
from pinfold.studies.cutting.carrying import carried, left_of
from pinfold.studies.cutting.lengths import cut_lengths
from pinfold.studies.cutting.records import CutOrder, Defect, Stock
from pinfold.studies.cutting.sawing import Falls
from pinfold.studies.parts.codes import coded, digits_of, rest_codes

# --- codes ---------------------------------------------------------------------------------------------------


def test_the_same_cuts_have_the_same_code_whatever_stands_beside_them():
    contents = [("pipe", number) for number in range(12)]
    alone = {content: coded("E", [content])[0] for content in contents}
    for content, code in zip(contents, coded("E", contents), strict=True):
        assert code.startswith(alone[content])


@settings(max_examples=30)
@given(st.lists(st.integers(0, 5000), min_size=1, max_size=300))
def test_no_two_pieces_have_one_code_and_none_begins_with_another(numbers):
    codes = coded("E", numbers)
    plain = {code.partition("-")[0] for code in codes}

    assert len(set(codes)) == len(codes)
    assert not [(one, other) for one in plain for other in plain if one != other and other.startswith(one)]
    assert all(
        digits_of(number).startswith(code[1:].partition("-")[0]) for number, code in zip(numbers, codes, strict=True)
    )


def test_pieces_cut_alike_out_of_alike_are_told_apart_by_a_number_behind_the_code():
    one, other, third = coded("E", ["a", "a", "b"])

    assert other == f"{one}-2"
    assert third != one


def test_a_piece_that_is_cut_keeps_its_digits_to_itself():
    numbers = range(4000)
    shared = next((one, other) for one in numbers for other in numbers
                  if one != other and digits_of(one)[:4] == digits_of(other)[:4])  # fmt: skip

    assert coded("E", [shared[0]], among=[shared[1]]) == coded("E", shared)[:1]
    assert len(coded("E", [shared[0]])[0]) == 5


def test_rests_have_the_digits_of_their_piece():
    codes = rest_codes("Z", "E4170")

    assert [next(codes) for _ in range(3)] == ["Z4170", "Z4170b", "Z4170c"]


# --- plans carried on ----------------------------------------------------------------------------------------


def without(plan, cut: dict[int, int]) -> CutOrder:
    """The order that is left when some pieces are cut as planned; what is kept of them lies on the pile."""
    parts, used, back = Counter(), Counter(), []
    for place, many in cut.items():
        pattern = plan.patterns[place]
        parts.update({mark: count * many for mark, count in Counter(part.mark for part in pattern.parts).items()})
        used[pattern.stock] += many
        defects = next(each.defects for each in plan.order.stock if each.mark == pattern.stock)
        back += [rest_of(rest, defects, len(back)) for rest in pattern.offcuts if rest.kept for _ in range(many)]
    order = plan.order
    left = tuple(fewer(part, parts[part.mark]) for part in order.parts if part.count > parts[part.mark])
    stock = tuple(each if each.count is None else fewer(each, used[each.mark]) for each in order.stock)
    named = tuple(replace(each, mark=f"B{number}") for number, each in enumerate(back))
    return CutOrder(parts=left, stock=(*named, *stock), kerf=order.kerf, keep=order.keep, system=order.system)


def rest_of(rest, defects, number):
    inside = ((max(each.start, rest.start), min(each.end, rest.end), each.kind) for each in defects)
    own = tuple(Defect(a - rest.start, b - rest.start, kind) for a, b, kind in inside if a < b)
    return Stock(mark=f"B{number}", length=rest.length, defects=own)


def fewer(each, many):
    return replace(each, count=each.count - many)


@settings(max_examples=60, deadline=None)
@given(orders(most_parts=6), st.integers(0, 3), st.integers(0, 2**31))
def test_what_is_left_of_a_plan_costs_no_more_than_a_new_one_for_what_is_left(order, most, seed):
    plan = cut_lengths(order, limit=5)
    if plan.uncut or not plan.patterns:
        return
    cut = {place: min(pattern.times, (seed >> place) % (most + 1)) for place, pattern in enumerate(plan.patterns)}
    left = without(plan, cut)
    if not left.parts:
        return
    found = carried(plan, cut, left)
    kept = left_of(plan, found.patterns, left)

    assert found.as_planned
    assert found.lacking is None
    assert wrong_with(kept) == []
    assert kept.spent == cut_lengths(left, limit=5).spent
    assert kept.proof is plan.proof


@settings(max_examples=40, deadline=None)
@given(orders(most_parts=6), st.data())
def test_what_no_longer_fits_is_left_out_and_what_it_gave_is_lacking(order, data):
    plan = cut_lengths(order, limit=5)
    parts = tuple(fewer(part, data.draw(st.integers(0, part.count - 1))) for part in order.parts)
    less = tuple(
        each if each.count is None else fewer(each, data.draw(st.integers(0, each.count))) for each in order.stock
    )
    now = CutOrder(parts=parts, stock=less, kerf=order.kerf, keep=order.keep, system=order.system)
    found = carried(plan, {}, now)
    given_parts = Counter(
        part.mark for pattern in found.patterns for part in pattern.parts for _ in range(pattern.times)
    )
    lacking = {part.mark: part.count for part in found.lacking.parts} if found.lacking else {}

    assert {part.mark: given_parts[part.mark] + lacking.get(part.mark, 0) for part in parts} == {
        part.mark: part.count for part in parts
    }
    room = {each.mark: each.count for each in less}
    used = Counter({pattern.stock: 0 for pattern in found.patterns})
    for pattern in found.patterns:
        used[pattern.stock] += pattern.times
    assert all(room[mark] is None or many <= room[mark] for mark, many in used.items())


# --- on a site -----------------------------------------------------------------------------------------------


@pytest.fixture(params=["seed-garden", "quinta"])
def folder(request, tmp_path):
    starting.from_sample(tmp_path / request.param, request.param)
    return tmp_path / request.param


@pytest.fixture
def garden(tmp_path):
    starting.from_sample(tmp_path / "seed-garden", "seed-garden")
    return tmp_path / "seed-garden"


def told(folder):
    """Every piece of the cut plan: code, what it is, its cuts."""
    sections = pieces_of(open_site(folder), CutAsked())
    return {piece.code: (piece.item, piece.length, piece.steps) for each in sections for piece in each.pieces}


def times(folder):
    return {piece.code: piece.times for each in pieces_of(open_site(folder), CutAsked()) for piece in each.pieces}


def write(folder, kind, **fields):
    entry = {"id": f"entry-{kind}-{len(str(fields)):04}", "kind": kind, "at": now_at(folder), "who": "ana",
             "device": "phone", "fields": fields}  # fmt: skip
    (taken,) = take_entries(folder, [entry])
    assert taken.state == "new", taken


def test_entries_of_other_things_change_no_code(folder):
    before = told(folder), [roll.code for flat in rolls_of(open_site(folder)) for roll in flat.rolls]
    write(folder, "note", text="rain")
    write(folder, "hours", time="3 h")
    after = told(folder), [roll.code for flat in rolls_of(open_site(folder)) for roll in flat.rolls]

    assert after == before


def test_pieces_cut_as_planned_leave_all_others_as_they_were(folder):
    before, many = told(folder), times(folder)
    codes = sorted(before, key=digits_of)[:6]
    for code in codes:
        cut_done(folder, Done(count="1"), code=code)
    after = told(folder)

    gone = {code for code in codes if many[code] == 1}
    assert after == {code: piece for code, piece in before.items() if code not in gone}
    assert times(folder) == {code: many[code] - (code in codes) for code in after}


def test_labels_of_what_is_left_stay_what_they_were(garden):
    def offcuts():
        return {
            (label.code, label.length, label.source) for label in labels_for(open_site(garden), each=True) if label.kept
        }

    before = offcuts()
    code = next(code for code, (_, _, steps) in told(garden).items() if not any(s.falls is Falls.KEPT for s in steps))
    cut_done(garden, Done(count="1"), code=code)

    assert offcuts() == before


def test_what_is_typed_as_planned_counts_as_that_piece(garden):
    before = told(garden)
    cut_done(garden, Done(item="wood-6x6", length="10 ft", parts="T9"))
    (code,) = set(before) - set(told(garden))

    assert {entry.text("piece") for entry in open_site(garden).entries if entry.kind == "cut"} == {code}


def test_a_cut_corrected_by_a_form_still_counts_as_that_piece(garden):
    code = next(code for code, piece in told(garden).items() if piece[0] == "wood-6x6")
    cut_done(garden, Done(), code=code)
    entry = next(each for each in open_site(garden).entries if each.kind == "cut")
    draft = correction_draft(garden, entry.id)
    sent = {f"f.{key}": text for key, text in draft.values.items()} | {
        f"u.{key}": unit for key, unit in draft.units.items()
    }
    correct(
        garden,
        entry.id,
        {**sent, "id": "corrected-1", "who": "bo", "at": draft.at, "version": draft.version},
        pictures={},
    )
    (after,) = [each for each in open_site(garden).entries if each.kind == "cut"]

    assert "piece" not in draft.values
    assert (after.who, after.text("piece"), after.number("pieces")) == ("bo", code, 1)


def test_a_spoiled_part_is_planned_anew_and_nothing_else_moves(garden):
    before = told(garden)
    code = next(code for code, piece in before.items() if piece[0] == "wood-6x6")
    part = next(step.code for step in before[code][2] if step.falls is Falls.PART)
    cut_done(garden, Done(spoiled=part), code=code)
    after = told(garden)

    assert after == before  # the same cuts out of one more length, which have the same code
    cut_done(garden, Done(), code=code)
    assert set(told(garden)) == set(before) - {code}


def test_a_piece_found_after_cutting_began_moves_nothing_where_it_saves_nothing(garden):
    before, many = told(garden), times(garden)
    code = next(code for code in before if many[code] > 1)
    cut_done(garden, Done(count="1"), code=code)
    write(garden, "pile", way="in", item="#4", length="1 ft")

    assert told(garden) == before


def test_a_piece_found_after_cutting_began_is_used_where_it_saves_money(garden):
    code = next(iter(told(garden)))
    cut_done(garden, Done(count="1"), code=code)
    before = sum(section.money for section in pieces_of(open_site(garden), CutAsked()))
    write(garden, "pile", way="in", item="wood-6x6", length="12 ft", count="2")
    sections = pieces_of(open_site(garden), CutAsked())

    assert sum(section.money for section in sections) < before
    assert all(piece.row for section in sections if section.section == "wood-6x6" for piece in section.pieces)


def test_of_two_pieces_of_one_length_the_one_with_the_flaws_goes_off_the_pile(garden):
    path = garden / "pile.csv"
    heads = ",".join(pile.HEADS)
    path.write_text(f"{heads}\nwood-6x6,1,10 ft,,,,,,\nwood-6x6,1,10 ft,,knot 9 ft 8 in to 9 ft 10 in,,,,\n")
    sections = pieces_of(open_site(garden), CutAsked())
    flawed = next(piece for section in sections for piece in section.pieces if piece.flaws)
    cut_done(garden, Done(), code=flawed.code)
    (left,) = [row for row in open_site(garden).lessons.pile if row.item == "wood-6x6"]

    assert left.flaws == ()


def test_a_changed_plan_leaves_the_codes_of_what_it_does_not_change(garden):
    before = told(garden)
    text = (garden / "plan.toml").read_text(encoding="utf-8")
    planfile.write_plan(
        garden / "plan.toml",
        text.replace('embed = "3 ft 6 in"\ncollar = "18 in"', 'embed = "3 ft 8 in"\ncollar = "18 in"'),
    )
    after = told(garden)

    assert after != before
    same = {code: piece for code, piece in before.items() if not piece[0].startswith(("wood-6x6", "pipe-2in"))}
    assert {code: after.get(code) for code in same} == same
