"""Parts out of the pile on both samples: each cut once, tape and labels true, what was really cut, hostile piles."""

from __future__ import annotations

import itertools
import math
from collections import Counter

import pytest

from pinfold.actions.cut_done import Done, cut_done, done_of, done_shown
from pinfold.actions.cut_flat import rolls_of, sheets_of
from pinfold.actions.cut_labels import labels_for, labels_shown
from pinfold.actions.cut_pieces import CutAsked, cut_pieces, cut_so_far, parts_by_mark, pieces_of
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import open_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.plan.cutting import METRIC, US
from pinfold.plan.flaws import flaws_of
from pinfold.plan.stock import Condition, PilePiece, RawEnds
from pinfold.reports.cut_labels import label_sheets
from pinfold.store import pile, planfile, starting
from pinfold.studies.cutting.lengths import cut_lengths
from pinfold.studies.cutting.records import STEP
from pinfold.studies.cutting.sawing import Falls
from pinfold.studies.parts.done import progress
from pinfold.studies.parts.labels import labels_of
from pinfold.studies.parts.listing import parts
from pinfold.studies.parts.orders import Yard, cut_from_lengths, section_orders
from pinfold.studies.parts.sawn import parts_given, sections_cut
from pinfold.studies.quantities.records import Part
from pinfold.tables.shelf import kind
from pinfold.units import System
from small_plots import straight

SAMPLES = ("seed-garden", "quinta")
MIXING = straight(6.0).plan.mixing


@pytest.fixture(params=SAMPLES)
def folder(request, tmp_path):
    starting.from_sample(tmp_path / request.param, request.param)
    return tmp_path / request.param


@pytest.fixture
def garden(tmp_path):
    starting.from_sample(tmp_path / "seed-garden", "seed-garden")
    return tmp_path / "seed-garden"


def pieces_in(sections):
    return [piece for section in sections for piece in section.pieces]


def test_every_part_of_the_plan_is_cut_once(folder):
    site = open_site(folder)
    found = parts_given(pieces_of(site, CutAsked()))
    for flat in sheets_of(site):
        for sheet in flat.sheets:
            found += Counter({mark: n * sheet.times for mark, n in Counter(p.code for p in sheet.parts).items()})
    bands = Counter((p.mark, p.place) for flat in rolls_of(site) for roll in flat.rolls for p in roll.pieces)
    wanted = {part.mark: part for part in parts(site.layout)}

    lengths = {mark: part.count for mark, part in wanted.items() if cut_from_lengths(part)}
    assert {mark: found[mark] for mark in lengths} == lengths
    off_rolls = {mark for mark, part in wanted.items() if part.kind.shelf == "meshes" or mark.startswith("W")}
    assert {mark for mark, _ in bands} == off_rolls


def test_the_tape_runs_true_and_all_of_a_piece_is_accounted_for(folder):
    site = open_site(folder)
    kerf = site.plan.cutting.kerf
    wanted = parts_by_mark(site)
    for piece in pieces_in(pieces_of(site, CutAsked())):
        fresh, either = 0.0, 0.0
        for step in piece.steps:
            assert step.running - step.measure == pytest.approx(fresh, abs=either + 1e-9)
            if step.falls is Falls.PART and not step.lean:
                assert step.measure <= wanted[step.code].length + 1e-9
            fresh = min(step.running + (kerf if step.sawn else 0.0), piece.length)
            either = (
                kerf if step.lean else 0.0
            )  # a blade that leans takes more, or at the end of a piece next to nothing
        assert piece.length - fresh < 1e-6 + either


def test_square_parts_measure_what_the_part_list_says(folder):
    site = open_site(folder)
    wanted = parts_by_mark(site)
    for piece in pieces_in(pieces_of(site, CutAsked())):
        for step in piece.steps:
            part = wanted.get(step.code)
            if part is not None and not part.left and not part.right:
                assert step.measure == pytest.approx(part.length, abs=1e-9)


def test_a_label_for_every_part_and_every_offcut(folder):
    site = open_site(folder)
    sections = pieces_of(site, CutAsked())
    labels = labels_for(site, each=True)
    by_code = Counter(label.code for label in labels)

    for mark, many in parts_given(sections).items():
        assert by_code[mark] == many
    kept = {step.code: piece.times for piece in pieces_in(sections) for step in piece.steps if step.falls is Falls.KEPT}
    assert {code: by_code[code] for code in kept} == kept
    assert all((label.code[0] in "XYZ") == label.kept for label in labels)


def test_labels_number_the_parts_alike_and_name_the_post_of_each(garden):
    labels = [label for label in labels_for(open_site(garden), each=True) if label.code == "T1"]

    assert [label.number for label in labels] == [1, 2, 3, 4, 5]
    assert [label.where for label in labels] == ["P1", "P11", "P17", "P20", "P26"]


def test_a_bundle_shares_a_label_unless_each_is_asked_for(garden):
    site = open_site(garden)
    some, every = labels_for(site, each=False), labels_for(site, each=True)

    assert [label.number for label in some if label.code == "B3"] == [0]
    assert len(every) > len(some)


def test_flaws_are_cut_out_and_raw_ends_come_off():
    layout = straight(6.0, POSTS)
    yard = Yard(
        pile=(PilePiece(item="pipe-60", count=1, length=6.0, amount=None, unit=None, note="",
                        flaws=flaws_of("bend 2 m to 2.1 m", length=6.0), raw_ends=RawEnds.BOTH),),
        prices={}, cutting=METRIC, mixing=MIXING, system=System.METRIC,
    )  # fmt: skip
    (order,) = section_orders(parts(layout), yard)
    (section,) = sections_cut([(order, cut_lengths(order.order))], System.METRIC)

    piece = next(piece for piece in section.pieces if piece.row == 1)
    assert piece.steps[0].falls is Falls.WASTE
    for step in piece.steps:
        if step.falls is Falls.PART:
            start = step.running - step.measure
            assert step.running <= 2.0 or start >= 2.1
            assert start >= METRIC.trim - 1e-9
            assert step.running <= 6.0 - METRIC.trim + 1e-9


POSTS = """
[buildup.b.posts]
kind = "pipe-60"
spacing = "2 m"
height = "1 m"
setting = "ground"
embed = "60 cm"

[buildup.b.mesh]
kind = "welded-50x50"
height = "1 m"
"""


def test_a_poor_piece_serves_for_no_post():
    layout = straight(6.0, POSTS)
    poor = PilePiece(item="pipe-60", count=9, length=3.0, amount=None, unit=None, note="", condition=Condition.POOR)
    yard = Yard(pile=(poor,), prices={}, cutting=METRIC, mixing=MIXING, system=System.METRIC)
    (order,) = section_orders(parts(layout), yard)

    assert not [mark for mark in cut_lengths(order.order).used if mark.startswith("K")]


def test_a_part_longer_than_any_stock_is_told_with_what_would_mend_it():
    post = Part(mark="T1", says="line post", kind=kind("posts", "pipe-60"), length=40.0, count=2, places=("P1", "P2"))
    yard = Yard(pile=(), prices={}, cutting=METRIC, mixing=MIXING, system=System.METRIC)
    (order,) = section_orders((post,), yard)
    plan = cut_lengths(order.order)

    assert [(each.mark, each.many) for each in plan.uncut] == [("T1", 2)]
    assert plan.uncut[0].because
    assert plan.uncut[0].mend


def test_a_saw_that_takes_nothing_is_no_mistake(garden):
    whole = pieces_of(open_site(garden), CutAsked(kerf="0 in"))

    assert parts_given(whole) == parts_given(pieces_of(open_site(garden), CutAsked()))
    assert sum(each.money for each in whole) <= sum(each.money for each in pieces_of(open_site(garden), CutAsked()))


def test_ten_thousand_equal_parts_go_through_the_whole_door():
    stake = Part(mark="F1", says="form board", kind=kind("boards", "board-1x6"), length=14 * 0.0254, count=10_000,
                 places=("forms",))  # fmt: skip
    yard = Yard(pile=(), prices={}, cutting=US, mixing=MIXING, system=System.US)
    orders = section_orders((stake,), yard)
    sections = sections_cut([(orders[0], cut_lengths(orders[0].order))], System.US)
    labels = labels_of(sections, {"F1": stake}, each=True)

    assert parts_given(sections)["F1"] == 10_000
    assert sum(label.code == "F1" for label in labels) == 10_000
    assert len(labels_of(sections, {"F1": stake}, each=False)) < 10_000
    assert len(list(itertools.islice(label_sheets(labels, "letter", System.US), 3))) == 3


def test_a_section_can_be_asked_for_alone_and_an_unknown_one_is_told(garden):
    answer = cut_pieces(garden, CutAsked(section="wood-6x6"))

    assert [each.section for each in answer.record.sections] == ["wood-6x6"]
    with pytest.raises(NotFoundError, match="pipe-2in"):
        cut_pieces(garden, CutAsked(section="gold"))
    with pytest.raises(InputError):
        cut_pieces(garden, CutAsked(kerf="1,5 mm"))


def test_progress_is_told_section_by_section(garden):
    heard = []
    cut_pieces(garden, CutAsked(), told=lambda done, whole: heard.append((done, whole)))

    assert [done for done, _ in heard] == list(range(heard[0][1]))


# what was really cut


def first_old(folder):
    site = open_site(folder)
    pieces = pieces_in(pieces_of(site, CutAsked()))
    return next(piece for piece in pieces if piece.row is not None), site


def test_what_was_cut_as_planned_leaves_the_list_and_the_pile(garden):
    piece, site = first_old(garden)
    before = {part.mark: part.count for part in cut_so_far(site).left}
    lay = sum(row.count for row in site.lessons.pile if row.item == piece.item)
    cut_done(garden, Done(count="1"), code=piece.code)
    after = open_site(garden)
    given = Counter(step.code for step in piece.steps if step.falls is Falls.PART)

    assert {part.mark: before[part.mark] - part.count for part in cut_so_far(after).left if part.mark in given} == given
    kept = sum(step.falls is Falls.KEPT for step in piece.steps)
    assert sum(row.count for row in after.lessons.pile if row.item == piece.item) == lay - 1 + kept
    assert after.log_told == ""


def test_parts_cut_are_not_bought_again(garden):
    before = reckon_all(open_site(garden)).gathered
    cut_done(garden, Done(item="wood-6x6", length="10 ft", parts="T9"))
    after = reckon_all(open_site(garden)).gathered
    bought = [
        sum(lot.packs * lot.size for line in each.lines if line.kind.name == "wood-6x6" for lot in line.lots)
        for each in (before, after)
    ]

    assert bought[1] < bought[0]


def test_a_spoiled_part_is_cut_anew(garden):
    before = {part.mark: part.count for part in cut_so_far(open_site(garden)).left}
    cut_done(garden, Done(item="pipe-2in", length="21 ft", parts="T8, T1, T1", spoiled="T1"))
    after = {part.mark: part.count for part in cut_so_far(open_site(garden)).left}

    assert before["T8"] - after["T8"] == 1
    assert before["T1"] - after["T1"] == 1


def test_what_is_wrong_with_a_cut_is_told_all_at_once_and_nothing_is_written(garden):
    with pytest.raises(InvalidPlan) as stopped:
        cut_done(garden, Done(item="pipe-2in", length="long", count="many", parts="T8, Q9", kept="2", spoiled="T1"))

    assert {problem.place for problem in stopped.value.problems} == {"length", "count", "parts", "kept", "spoiled"}
    with pytest.raises(InvalidPlan, match="longer than the piece"):
        cut_done(garden, Done(item="pipe-2in", length="6 ft", parts="T8"))
    with pytest.raises(InvalidPlan):
        cut_done(garden, Done(item="unobtainium " * 20, length="10 ft", parts="T8"))
    with pytest.raises(NotFoundError):
        cut_done(garden, Done(), code="E9999")
    assert not [entry for entry in open_site(garden).entries if entry.kind in ("cut", "pile")]


def test_what_is_cut_must_be_known_and_lie_where_it_is_said_to_lie(garden):
    with pytest.raises(InvalidPlan, match="nothing is known as 'gold'"):
        cut_done(garden, Done(item="gold", length="10 ft", parts="T8"))
    with pytest.raises(InvalidPlan, match="no pipe-2in of 33' on the pile, which has 5 of 10', 3 of 7' 6"):
        cut_done(garden, Done(item="pipe-2in", length="33 ft", parts="T8", pile="yes"))
    with pytest.raises(InvalidPlan, match="5 pipe-2in of 10' on the pile"):
        cut_done(garden, Done(item="pipe-2in", length="10 ft", parts="T8", pile="yes", count="6"))
    assert not open_site(garden).entries


def test_a_saw_that_takes_nothing_is_warned_of(garden):
    assert "told to take nothing" in str(cut_pieces(garden, CutAsked(kerf="0 in")).page)
    assert "told to take nothing" not in str(cut_pieces(garden, CutAsked()).page)
    with pytest.raises(InputError, match='to 1 3/16"'):
        cut_pieces(garden, CutAsked(kerf="2 ft"))


def test_a_part_the_plan_has_changed_since_is_told_and_not_counted(garden):
    cut_done(garden, Done(item="pipe-2in", length="10 ft", parts="T8"))
    text = (garden / "plan.toml").read_text(encoding="utf-8")
    planfile.write_plan(garden / "plan.toml", text.replace('height = "5 ft 2 in"', 'height = "5 ft 8 in"'))
    site = open_site(garden)

    assert "T8" in cut_so_far(site).told[0]
    assert cut_so_far(site).cut == {}
    assert "T8" in cut_pieces(garden, CutAsked(section="pipe-2in")).page.blocks[0].text


def test_what_is_typed_as_planned_reads_back_as_planned(folder):
    site = open_site(folder)
    for piece in pieces_in(pieces_of(site, CutAsked())):
        done = done_of(piece, site.plan.units)
        assert Counter(done.parts.split(", ")) == Counter(step.code for step in piece.steps if step.falls is Falls.PART)
        assert bool(done.pile) == (piece.row is not None)
    assert len(done_shown(folder).pieces) == len(pieces_in(pieces_of(site, CutAsked())))


def test_nothing_cut_is_no_progress():
    found = progress((), ())

    assert (found.left, dict(found.cut), found.told) == ((), {}, ())


# the pile


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("pipe-2in,10 ft,nails 3 ft to 14 ft,,", "longer than its piece"),
        ("pipe-2in,10 ft,nails 9 ft to 11 ft,,", "reaches past the end"),
        ("pipe-2in,10 ft,nails 4 ft to 3 ft,,", "ends after it begins"),
        ("pipe-2in,10 ft,gum 1 ft to 2 ft,,", "no such flaw"),
        ("pipe-2in,10 ft,nails at 3 ft,,", "written like"),
        ("pipe-2in,10 ft,nails 1 to 2 ft,,", "unit"),
        ("pipe-2in,,nails 1 ft to 2 ft,,", "length"),
        ("pipe-2in,10 ft,,top,", "raw_ends"),
        ("pipe-2in,10 ft,,,new", "condition"),
    ],
)
def test_each_mistake_in_the_pile_is_told_in_its_line(row, says):
    with pytest.raises(InvalidPlan, match=says) as stopped:
        pile.pile_of(f"item,length,flaws,raw_ends,condition\n{row}\n")

    assert [problem.place for problem in stopped.value.problems] == ["line 2"]


def test_an_old_pile_stays_good():
    (piece,) = pile.pile_of("item,count,length,amount,note\npipe-2in,2,10 ft,,old\n")

    assert (piece.flaws, piece.raw_ends, piece.condition, piece.width) == ((), RawEnds.NONE, Condition.SOUND, None)


def test_a_roll_without_its_height_is_left_out_and_told(garden):
    path = garden / "pile.csv"
    path.write_text(path.read_text().replace("38 ft,4 ft", "38 ft,"), encoding="utf-8")
    found = rolls_of(open_site(garden))

    assert any("write its width" in told for flat in found for told in flat.told)
    assert all(roll.row is None for flat in found for roll in flat.rolls)


def test_the_saw_of_the_plan_is_reckoned_with(garden):
    path = garden / "plan.toml"
    planfile.write_plan(path, path.read_text(encoding="utf-8") + '\n[cutting]\nkerf = "3/32 in"\nkeep = "2 ft"\n')
    order = open_site(garden).plan.cutting

    assert round(order.kerf / STEP[System.US]) == 6
    assert order.usual == ("trim", "keep_side", "mesh_lap")
    kept = [
        step.measure
        for piece in pieces_in(pieces_of(open_site(garden), CutAsked()))
        for step in piece.steps
        if step.falls is Falls.KEPT
    ]
    assert kept
    assert min(kept) >= 24 * 0.0254 - 1e-9


@pytest.mark.parametrize("wrong", ['kerf = "-1 in"', 'kerf = "3 ft"', 'kef = "1/8 in"', 'keep = "12"'])
def test_a_mistake_in_the_table_of_cutting_is_told(garden, wrong):
    text = (garden / "plan.toml").read_text(encoding="utf-8")
    with pytest.raises(InvalidPlan, match="cutting"):
        planfile.plan_of(f"{text}\n[cutting]\n{wrong}\n")


def test_form_boards_serve_the_longest_stretch_and_go_on_from_there():
    layout = straight(9.0, '[buildup.b.wall]\nkind = "foamed-poured"\nheight = "60 cm"\nthickness = "20 cm"\n')
    boards = [part for part in parts(layout) if part.says == "form board"]

    assert sum(part.length * part.count for part in boards) == pytest.approx(9.0 * 4, abs=0.02)
    assert all(part.mark.startswith("F") for part in boards)


def test_labels_come_sheet_by_sheet(garden):
    first = labels_shown(garden, each=True, first=1)

    assert first.whole > len(first.sheets)
    assert first.later == 11
    assert labels_shown(garden, each=True, first=10**8).first == first.whole
    assert math.ceil(first.labels / 21) == first.whole


def test_a_part_as_long_as_the_longest_length_sold_is_that_length():
    longest = 3.048  # 10 ft; a metric tape rounds a post of that up to its next mark
    post = Part(mark="T1", says="line post", kind=kind("posts", "wood-round-5"), length=longest + 0.0007, count=1,
                places=("P1",))  # fmt: skip
    yard = Yard(pile=(), prices={}, cutting=METRIC, mixing=MIXING, system=System.METRIC)
    (order,) = section_orders((post,), yard)

    assert not cut_lengths(order.order).uncut


def test_a_rest_of_a_roll_goes_back_with_its_height(garden):
    cut_done(garden, Done(item="welded-2x4-14ga", length="38 ft", width="4 ft", pile="yes", parts="M3", kept="16 ft"))
    site = open_site(garden)
    (row,) = [row for row in site.lessons.pile if row.item == "welded-2x4-14ga"]

    assert (row.length, row.width) == (pytest.approx(16 * 0.3048), pytest.approx(4 * 0.3048))
    assert "M3" not in {piece.mark for flat in rolls_of(site) for roll in flat.rolls for piece in roll.pieces}


def test_sheets_of_a_gate_are_as_wide_as_they_come(garden):
    text = (garden / "plan.toml").read_text(encoding="utf-8")
    planfile.write_plan(garden / "plan.toml", text.replace('kind = "wood-frame-mesh"', 'kind = "sheet-panel"'))
    (found,) = sheets_of(open_site(garden))

    assert not found.uncut
    assert sum(len(sheet.parts) * sheet.times for sheet in found.sheets) == sum(
        part.count for part in parts(open_site(garden).layout) if part.says == "gate sheet"
    )
