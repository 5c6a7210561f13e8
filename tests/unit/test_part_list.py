"""Parts of every kind: rails with their laps, wires off rolls, pins, sills, boards of forms; sides that add up."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from pinfold.actions.cut_gate import cut_gate
from pinfold.actions.cutting import cut_site
from pinfold.actions.sites import open_site
from pinfold.errors import InvalidPlan
from pinfold.plan.buildups import Rail, RailJoint
from pinfold.plan.cutting import METRIC
from pinfold.plan.stock import PilePiece
from pinfold.reports.cut_page import cut_page
from pinfold.store import planfile, starting
from pinfold.studies.cutting.rolls import unroll
from pinfold.studies.gates.frame import frame_of
from pinfold.studies.gates.passing import gaps_of
from pinfold.studies.gates.swing import swing_ways
from pinfold.studies.layout.lie import lies
from pinfold.studies.parts.flat import roll_orders
from pinfold.studies.parts.listing import parts
from pinfold.studies.parts.orders import Yard
from pinfold.studies.quantities.rails import rail_pieces
from pinfold.studies.quantities.reach import reaches
from pinfold.studies.quantities.take_off import take_off
from pinfold.tables.shelf import kind
from pinfold.units import System
from small_plots import Opening, Plot, straight

FENCE = """
[buildup.b.posts]
kind = "wood-round-5"
spacing = "2.4 m"
height = "1.2 m"
setting = "ground"
embed = "80 cm"

[[buildup.b.rail]]
kind = "{rail}"
at = "1.1 m"
{joint}

[buildup.b.mesh]
kind = "welded-50x50"
height = "1.2 m"
{mesh}
"""
SILL = 'sill = { kind = "wood-4x4", above = "2 cm" }\n'


def fence(joint="", *, length=12.0, rail="sawn-50x100", mesh=""):
    return straight(length, FENCE.format(joint=joint, rail=rail, mesh=mesh))


def of_sort(layout, *says):
    return [part for part in parts(layout) if part.says in says]


def counted(layout, layer, shelf):
    return [line for line in take_off(layout) if line.layer == layer and line.kind.shelf == shelf]


# --- rails ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("joint", ["", 'joint = "lap"\nlap = "20 cm"', 'joint = "half-lap"'])
@pytest.mark.parametrize("length", [2.0, 7.3, 12.0, 31.0])
def test_rails_cut_are_rails_counted_with_their_laps(joint, length):
    layout = fence(joint, length=length)
    (line,) = counted(layout, "rails", "rails")
    cut = sum(part.length * part.count for part in of_sort(layout, "rail", "rail, lapped", "rail, half-lapped"))

    assert cut == pytest.approx(line.net, abs=0.02)


@pytest.mark.parametrize(("joint", "lap"), [(RailJoint.BUTT, 0.0), (RailJoint.LAP, 0.2), (RailJoint.HALF_LAP, 0.127)])
@pytest.mark.parametrize("length", [6.1, 12.0, 31.0])
def test_rails_reach_from_end_to_end_lap_over_each_other_and_are_no_longer_than_any_in_stock(joint, lap, length):
    (reach,) = reaches(fence(length=length))
    rail = Rail(kind=kind("rails", "sawn-50x100"), at=1.1, joint=joint)
    found = rail_pieces(reach, replace(rail, lap=lap) if joint is RailJoint.LAP else rail)

    assert math.fsum(piece.length for piece in found) == pytest.approx(length + (len(found) - 1) * lap)
    assert all(piece.length <= 4.8 + 1e-9 for piece in found)
    assert [piece.lapped for piece in found] == [1, *[2] * (len(found) - 2), 1]


def test_a_bay_that_no_rail_reaches_over_is_shared_out_laps_and_all():
    (reach,) = reaches(straight(9.0, FENCE.format(joint="", rail="sawn-50x100", mesh="").replace("2.4 m", "9 m")))
    rail = Rail(kind=kind("rails", "sawn-50x100"), at=1.1, joint=RailJoint.LAP, lap=0.3)

    found = rail_pieces(reach, rail)
    assert len(found) == 2  # 9.3 m of rails of 4.8 m
    assert [piece.length for piece in found] == pytest.approx([4.65, 4.65])


def test_a_half_lapped_rail_says_which_of_its_ends_are_halved_and_how_far():
    first, inner = of_sort(fence('joint = "half-lap"', length=16.0), "rail, half-lapped")[:2]

    assert first.ends == "square; one end halved over 127 mm"
    assert inner.ends == "square; both ends halved over 127 mm"
    assert "upper half over the lower" in first.up


@pytest.mark.parametrize(
    ("words", "told"),
    [('rail="wire-3mm" joint = "lap"', "strained from end to end"), ('joint = "butt"\nlap = "5 cm"', "butt"),
     ('joint = "dovetail"', "joint")],
)  # fmt: skip
def test_a_joint_that_cannot_be_is_told(words, told):
    rail = "wire-3mm" if "wire" in words else "sawn-50x100"
    joint = words.replace('rail="wire-3mm" ', "") + ('\ntension = "80 N"' if "wire" in words else "")
    with pytest.raises(InvalidPlan, match=told):
        fence(joint, rail=rail)


# --- wires and pins ------------------------------------------------------------------------------------------


def test_a_wire_longer_than_its_rolls_is_joined_on_a_post_and_tied_off_on_both_sides_of_it():
    layout = fence('tension = "80 N"', rail="wire-3mm", length=12.0)
    yard = Yard(
        pile=(PilePiece(item="wire-3mm", count=3, length=9.0, amount=None, unit=None, note=""),), prices={},
        cutting=METRIC, mixing=layout.plan.mixing, system=System.METRIC,
    )  # fmt: skip
    wires = next(order for order in roll_orders(layout, yard, cut={}) if order.kind.name == "wire-3mm")
    posts = [round(post * 10_000) for bay in reaches(layout)[0].bays for post in bay]
    plan = unroll(replace(wires.rolls, rolls=wires.rolls.rolls[:-1]))
    pieces = [piece for unrolled in plan.unrolled for piece in unrolled.pieces]

    assert len(pieces) == 2
    for end in (end for piece in pieces for end in (piece.start, piece.end)):
        assert min(abs(end - post) for post in posts) <= 10  # the wire is rounded up to a millimeter
    assert sum(piece.length for piece in pieces) == pytest.approx(120_000 + 4 * 4_572, abs=10)


def test_pins_of_an_apron_are_cut_from_a_bar_where_the_plan_says_which():
    ready, cut = fence(mesh='apron = "30 cm"'), fence(mesh='apron = "30 cm"\npin = "8 mm"')
    (line,) = counted(ready, "apron", "fasteners")
    (bars,) = counted(cut, "apron", "bars")
    (pin,) = of_sort(cut, "apron pin")

    assert of_sort(ready, "apron pin") == []
    assert counted(cut, "apron", "fasteners") == []
    assert pin.count == line.net
    assert pin.count * 0.4064 == pytest.approx(bars.net)
    assert pin.ends == "one pointed, the other bent to a hook"


def test_a_pin_without_an_apron_is_told():
    with pytest.raises(InvalidPlan, match="apron"):
        fence(mesh='pin = "8 mm"')


# --- forms ---------------------------------------------------------------------------------------------------


def test_boards_of_forms_are_counted_as_they_are_cut():
    layout = straight(9.0, '[buildup.b.wall]\nkind = "foamed-poured"\nheight = "60 cm"\nthickness = "20 cm"\n')
    (line,) = (line for line in take_off(layout) if line.kind.shelf == "boards")
    boards = of_sort(layout, "form board")

    assert line.net == pytest.approx(sum(part.length * part.count for part in boards), abs=0.02)
    assert line.layer == "wall"
    assert line.place == layout.stretches[0].name
    assert "one set" in line.note


# --- sills ---------------------------------------------------------------------------------------------------


def gated(words=SILL, ground=()):
    gate = Opening(side=0, at=3.0, width=1.0)
    return Plot(gates=(replace(gate, words=f"{words}{gate.words}"),), ground=ground).laid_out()


def test_a_sill_fits_between_the_posts_and_is_counted_with_its_gate():
    layout = gated()
    (sill,) = of_sort(layout, "gate sill")
    (line,) = (line for line in take_off(layout) if line.layer == "gate" and line.kind.name == "wood-4x4")

    assert (sill.length, sill.count, sill.places) == (pytest.approx(1.0), 1, ("g0",))
    assert line.net == pytest.approx(1.0)


def test_a_leaf_hangs_its_gap_over_the_sill():
    bare, with_sill = gated("").gates["g0"], gated().gates["g0"]

    assert with_sill.hang == pytest.approx(bare.hang + 0.02)


SLANT = ((-5.0, -5.0, 0.0), (-5.0, 5.0, 0.0), (15.0, 5.0, 1.0), (15.0, -5.0, 1.0))


def test_a_sill_closes_the_gap_of_falling_ground_as_far_as_it_goes_down():
    def under(words):
        layout = gated(words, SLANT)
        place = layout.gates["g0"]
        return gaps_of(frame_of(place.gate, System.METRIC), place)[0].width

    assert under("") == pytest.approx(0.05 + 0.05)  # 5 cm of gap, 5 cm of fall across the opening
    assert under(SILL) == pytest.approx(0.05)  # its underside lies below the lowest ground
    assert under(SILL.replace("2 cm", "15 cm")) == pytest.approx(0.15 - 0.0889 + 0.05)


def test_a_leaf_comes_no_nearer_to_the_ground_than_to_its_sill():
    layout = gated()
    ways = swing_ways(layout.plan, layout.plan.gates[0], lies(layout.plan)[0])

    assert [way.clearance for way in ways] == pytest.approx([0.05] * 4)
    assert all(way.lift == way.cut == 0.0 for way in ways)


@pytest.mark.parametrize(
    "words", ['sill = { kind = "steel-tee-133" }\n', 'sill = { kind = "wood-4x4", above = "2 m" }\n']
)
def test_a_sill_that_cannot_be_is_told(words):
    with pytest.raises(InvalidPlan, match="sill"):
        gated(words)


def test_the_gate_to_build_tells_of_its_sill(tmp_path):
    starting.from_sample(tmp_path / "q", "quinta")
    text = (tmp_path / "q" / "plan.toml").read_text(encoding="utf-8")
    planfile.write_plan(
        tmp_path / "q" / "plan.toml", text.replace('swing = "out"             #', f"{SILL}swing = 'out' #")
    )
    told = str(cut_gate(tmp_path / "q", "foot gate").page.blocks[:3])

    assert "Sill: sawn treated post 4 x 4, 900" in told
    assert "above the highest ground" in told


# --- the list ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
def test_every_part_tells_section_ends_tolerance_and_place(sample, tmp_path):
    starting.from_sample(tmp_path / sample, sample)
    answer = cut_site(tmp_path / sample)
    told = str(answer.page)

    for part in answer.record.parts:
        assert part.kind.says
        assert part.ends
        assert part.tolerance > 0
        assert part.places
        assert f"{part.says.capitalize()}: to " in told
    assert "Wood; the plan does not know its species" in told


def test_flat_parts_tell_their_width():
    layout = fence(mesh='lap = "0 cm"')
    page = cut_page("plot", parts(layout), System.METRIC)
    heads = [block.heads for block in page.blocks if hasattr(block, "heads")]

    assert ("mark", "part", "count", "width", "length", "ends", "where") in heads
    assert ("mark", "part", "count", "length", "ends", "where") in heads


@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
def test_mesh_posts_of_gates_openings_and_neighbors_add_up_to_their_side(sample, tmp_path):
    starting.from_sample(tmp_path / sample, sample)
    layout = open_site(tmp_path / sample).layout
    pieces = {part.places: part.length for part in of_sort(layout, "mesh strip") if len(part.places) == 1}
    for side in layout.plan.sides:
        own = [reach for reach in reaches(layout) if reach.stretch.side == side.name]
        mesh = sum(pieces[(reach.stretch.name,)] * reach.stretch.length / reach.course_length for reach in own)
        gates = sum(gate.taken[1] - gate.taken[0] for gate in layout.plan.gates if gate.side == side.name)
        away = sum(run.end - run.start for at, run in layout.plan.runs if at.name == side.name and run.neighbor)
        whole = sum(run.end - run.start for at, run in layout.plan.runs if at.name == side.name)

        assert mesh + gates + away == pytest.approx(whole, abs=0.0016 * len(own))
