"""Banks of earth, structures on blocks and frost in the plan file: read whole, and every mistake told at once."""

from __future__ import annotations

import math
from importlib.resources import files

import pytest

from pinfold.errors import InvalidPlan
from pinfold.plan.buildups import Faces
from pinfold.plan.grounds import Stack
from pinfold.store import planfile

SEED = files("pinfold.store").joinpath("samples/seed-garden/plan.toml").read_text(encoding="utf-8")
BANK = '[[bank]]\nname = "bed"\nside = "south"\nfrom = "15 ft"\nto = "30 ft"\nheight = "18 in"\nface = "inner"\nsoil = "sand"\n'


def complaints(text):
    with pytest.raises(InvalidPlan) as stopped:
        planfile.plan_of(text)
    return {problem.place: problem.message for problem in stopped.value.problems}


def test_a_bank_is_read_and_what_is_left_out_is_the_careful_choice():
    (bank,) = planfile.plan_of(f"{SEED}\n{BANK}").banks

    assert (bank.start, bank.end) == pytest.approx((15 * 0.3048, 30 * 0.3048))
    assert bank.face is Faces.INNER
    assert not bank.drained
    assert not bank.passive
    assert (bank.slope, bank.wall_friction, bank.surcharge) == (0.0, 0.0, 0.0)


def test_own_earth_without_its_kind_is_told_in_one_complaint():
    own = BANK.replace('soil = "sand"', 'soil = { friction_angle = "32 deg", density = "1750 kg/m3" }')
    told = complaints(f"{SEED}\n{own}")

    assert list(told) == ["bank.bed.soil.kind"]
    assert "is missing; it is one of: bedrock" in told["bank.bed.soil.kind"]


def test_a_bank_of_the_builders_own_earth():
    own = BANK.replace(
        'soil = "sand"', 'soil = { kind = "unknown", friction_angle = "32 deg", density = "1750 kg/m3" }'
    )
    (bank,) = planfile.plan_of(f"{SEED}\n{own}").banks

    assert math.degrees(bank.soil.value("friction_angle")) == pytest.approx(32)


@pytest.mark.parametrize(
    ("old", "new", "place", "words"),
    [
        ('side = "south"', 'side = "souht"', "bank.bed.side", "there is no side called"),
        ('side = "south"', 'side = "west"', "bank.bed", "no wall that could hold earth"),
        ('height = "18 in"', 'height = "0 in"', "bank.bed.height", "out of bounds"),
        ('height = "18 in"', 'height = "30 m"', "bank.bed.height", "out of bounds"),
        ('height = "18 in"', 'height = "4 ft"', "bank.bed.height", "higher than the wall"),
        ('to = "30 ft"', 'to = "10 ft"', "bank.bed.to", "before it begins"),
        ('to = "30 ft"', 'to = "70 ft"', "bank.bed.to", "long"),
        ('face = "inner"', 'face = "both"', "bank.bed.face", "inner, outer"),
        ('face = "inner"\n', "", "bank.bed.face", "where the earth stands higher"),
        ('soil = "sand"', 'soil = "quicksand"', "bank.bed.soil", "one of"),
        ('soil = "sand"', 'soil = "sand"\nslope = "30 deg"', "bank.bed.slope", "friction angle of sand, 25 deg"),
        ('soil = "sand"', 'soil = "sand"\nwall_friction = "26 deg"', "bank.bed.wall_friction", "friction angle"),
    ],
)
def test_each_mistake_of_a_bank_is_told_at_its_place(old, new, place, words):
    found = complaints(f"{SEED}\n{BANK.replace(old, new)}")

    assert words in found[place], found


def test_earth_runs_out_through_a_gate():
    found = complaints(f"{SEED}\n{BANK}".replace('from = "15 ft"', 'from = "8 ft"'))

    assert "lies across the opening of 'foot gate'" in found["bank.bed.from"]


def test_all_mistakes_of_banks_come_at_once():
    second = BANK.replace('"bed"', '"second"').replace('"15 ft"', '"20 ft"').replace('"18 in"', '"4 ft"')
    found = complaints(
        f"{SEED}\n{BANK}\n{second}".replace(
            'side = "south"\nfrom = "15', 'side = "south"\nslope = "60 deg"\nfrom = "15'
        )
    )

    assert {"bank.bed.slope", "bank.second.from", "bank.second.height"} <= set(found)
    assert "may not lie over each other" in found["bank.second.from"]


BLOCKS = '[[neighbor]]\nname = "shed"\nheight = "8 ft"\nfootprint = [["70 ft", "0 ft"], ["80 ft", "0 ft"], ["80 ft", "8 ft"]]\n[neighbor.blocks]\nmass = "1500 lb"\ncount = 6\nstack_height = "16 in"\n'


def test_a_structure_on_blocks_is_read():
    shed = planfile.plan_of(f"{SEED}\n{BLOCKS}").neighbors[-1]

    assert shed.blocks.count == 6
    assert shed.blocks.stack is Stack.SINGLE
    assert shed.blocks.pad_length is None
    assert [neighbor.blocks is None for neighbor in planfile.plan_of(SEED).neighbors] == [True, False]


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ("count = 6\n", "", "neighbor.shed.blocks.count"),
        ("count = 6", "count = 0", "neighbor.shed.blocks.count"),
        ('stack_height = "16 in"', 'stack_height = "20 m"', "neighbor.shed.blocks.stack_height"),
        ('stack_height = "16 in"', 'stack_height = "16 in"\nstack = "triple"', "neighbor.shed.blocks.stack"),
        ('mass = "1500 lb"', 'mass = "0 lb"', "neighbor.shed.blocks.mass"),
    ],
)
def test_each_mistake_of_blocks_is_told_at_its_place(old, new, place):
    assert place in complaints(f"{SEED}\n{BLOCKS.replace(old, new)}")


def test_a_winter_is_read_in_both_degree_days():
    winter = 'frost_depth = "30 in"\nfreezing_index = "{}"\nfreezing_days = "110 day"\nmean_temperature = "48 °F"\nsurface = "turf"'
    ours, theirs = (
        planfile.plan_of(SEED.replace('frost_depth = "30 in"', winter.format(text))).place.freezing_index
        for text in ("900 °F day", "500 °C day")
    )

    assert ours == pytest.approx(theirs)
