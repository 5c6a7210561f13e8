"""Laws of the study of stability: what must hold for any plan, whatever its numbers."""

from __future__ import annotations

import cmath
import math
import re
from dataclasses import replace
from importlib.resources import files

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pinfold.findings import Finding, Verdict
from pinfold.formulas import braces, fence_loads, steel, walls
from pinfold.formulas.catalog import contract_named
from pinfold.plan.place import Family
from pinfold.sources import publications
from pinfold.store.planfile import plan_of
from pinfold.studies.layout.records import Layout
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.air import Air
from pinfold.studies.stability.assess import assess
from pinfold.studies.stability.lattices import lattice_push
from pinfold.studies.stability.loads import wind_on
from pinfold.studies.stability.panels import held_on, panels_of, worst_panel

FEW = settings(max_examples=25, deadline=None)
CHECKS = ("overturning", "sliding", "bearing", "bed-joint tension", "resultant in the base", "embedment", "bending")
PLACES = {
    "us": 'wind_speed = "{speed} m/s"\nexposure = "C"\nwind_edition = "7-22"\nelevation = "300 m"\n',
    "eu": 'wind_speed = "{speed} m/s"\nexposure = "II"\n',
}

PLAN = """
format = 1
name = "Law"
units = "metric"
family = "{family}"
paper = "a4"
[place]
{place}
soil = "sand"
frost_depth = "30 cm"
{corners}
{sides}
[[line]]
name = "pipe"
carries = "water"
depth = "60 cm"
clearance = "30 cm"
located = true
points = [{pipe}]
[buildup.wall]
says = "wall and mesh"
[buildup.wall.footing]
kind = "strip-concrete"
width = "{footing} m"
thickness = "20 cm"
below_ground = "40 cm"
[buildup.wall.wall]
kind = "brick-double"
height = "{height} m"
thickness = "20 cm"
density = "{density} kg/m3"
[buildup.wall.posts]
kind = "wood-round-4"
spacing = "2.5 m"
height = "1 m"
setting = "wall"
embed = "60 cm"
[buildup.wall.mesh]
kind = "welded-2x4-14ga"
height = "1 m"
{grown}
[buildup.fence]
says = "mesh on the ground"
[buildup.fence.posts]
kind = "wood-round-4"
spacing = "2.5 m"
height = "1.2 m"
setting = "ground"
embed = "{embed} m"
[[buildup.fence.rail]]
kind = "wire-12ga-ht"
at = "1 m"
tension = "{tension} N"
[buildup.fence.mesh]
kind = "welded-2x4-14ga"
height = "1.2 m"
{grown}
"""

SHAPE = {"A": (0.0, 0.0), "B": (12.0, 0.0), "C": (12.0, 7.0), "D": (3.0, 9.0)}
PIPE = ((5.0, -3.0), (5.0, 12.0))


def moved(point, turned=0.0, mirrored=False):
    x, y = (-point[0] if mirrored else point[0]), point[1]
    return x * math.cos(turned) - y * math.sin(turned), x * math.sin(turned) + y * math.cos(turned)


def laid(family="us", turned=0.0, mirrored=False, grown=None, **sizes) -> Layout:
    numbers = {"speed": 40.0, "footing": 0.6, "height": 0.8, "density": 1900.0, "embed": 0.9, "tension": 300.0} | sizes
    names = list(SHAPE)
    corners, sides = "", ""
    for name, point in SHAPE.items():
        x, y = moved(point, turned, mirrored)
        corners += f'[[corner]]\nname = "{name}"\nx = "{x:.9f} m"\ny = "{y:.9f} m"\n'
    for number, (first, last) in enumerate(zip(names, [*names[1:], names[0]], strict=True)):
        kind = "fence" if number == 2 else "wall"
        sides += f'[[side]]\nname = "s{number}"\nfrom = "{first}"\nto = "{last}"\nbuildup = "{kind}"\n'
    pipe = ", ".join('["{:.9f} m", "{:.9f} m"]'.format(*moved(point, turned, mirrored)) for point in PIPE)
    text = PLAN.format(
        family=family, corners=corners, sides=sides, pipe=pipe, place=PLACES[family].format(speed=numbers["speed"]),
        grown=f'grown = "{grown:.6f}"' if grown is not None else "", **numbers,
    )  # fmt: skip
    return lay_out(plan_of(text))


def found(**plan) -> dict[tuple[str, str], Finding]:
    return {(finding.check, finding.subject): finding for finding in assess(laid(**plan))}


def uses(findings: dict[tuple[str, str], Finding]) -> dict[tuple[str, str], float]:
    return {key: finding.use for key, finding in findings.items() if key[0] in CHECKS and finding.use is not None}


def no_better(worse: dict[tuple[str, str], Finding], better: dict[tuple[str, str], Finding], *checks: str) -> None:
    """Every check shown in both is used at least as much in the first."""
    before, after = uses(better), uses(worse)
    shared = [key for key in before if key in after and (not checks or key[0] in checks)]
    assert shared
    for key in shared:
        if key[0] == "bearing" and after.get(("overturning", key[1]), 0.0) > 1.0:
            continue  # steps that tip over press on nothing any more: the worst of those that are left is told
        assert after[key] >= before[key] * (1 - 1e-9), (key, before[key], after[key])


FAMILY = st.sampled_from(["us", "eu"])
SPEED = st.floats(15.0, 60.0)


@given(family=FAMILY, slow=SPEED, more=st.floats(0.5, 20.0), grown=st.none() | st.floats(0.05, 0.95))
@FEW
def test_more_wind_never_helps(family, slow, more, grown):
    no_better(found(family=family, speed=slow + more, grown=grown), found(family=family, speed=slow, grown=grown))


@given(family=FAMILY, density=st.floats(900.0, 2200.0), more=st.floats(10.0, 400.0))
@FEW
def test_a_heavier_wall_never_slides_or_tips_sooner(family, density, more):
    light, heavy = found(family=family, density=density), found(family=family, density=density + more)
    no_better(light, heavy, "sliding", "overturning", "bed-joint tension")


@given(family=FAMILY, width=st.floats(0.3, 1.0), more=st.floats(0.02, 0.5))
@FEW
def test_a_wider_footing_never_tips_sooner(family, width, more):
    no_better(found(family=family, footing=width), found(family=family, footing=width + more), "overturning", "sliding")


@given(family=FAMILY, height=st.floats(0.3, 1.5), more=st.floats(0.1, 0.8))
@FEW
def test_a_higher_wall_is_turned_more(family, height, more):
    low, high = found(family=family, height=height), found(family=family, height=height + more)
    turned = {
        key for key, finding in low.items()
        if key[0] == "overturning" and finding.use is not None and "between two columns" not in finding.because
    }  # fmt: skip
    assert turned  # between two columns the worse counts, and a higher wall may leave that for the better one alone
    for key in turned:  # by its use: the step that governs may be another one, and hold on to a corner
        assert high[key].use is not None
        assert high[key].use > low[key].use


@given(family=FAMILY, depth=st.floats(0.3, 1.5), more=st.floats(0.05, 1.0))
@FEW
def test_a_deeper_post_is_never_worse(family, depth, more):
    no_better(found(family=family, embed=depth), found(family=family, embed=depth + more), "embedment")


@given(family=FAMILY, grown=st.floats(0.01, 0.69))
@FEW
def test_growth_on_the_mesh_never_helps_below_a_wall(family, grown):
    no_better(found(family=family, grown=grown), found(family=family))


@given(family=FAMILY, turned=st.floats(0.0, 2 * math.pi), mirrored=st.booleans(), grown=st.none() | st.just(0.9))
@FEW
def test_a_turned_or_mirrored_plan_gives_the_same_findings(family, turned, mirrored, grown):
    before = found(family=family, grown=grown)
    after = found(family=family, grown=grown, turned=turned, mirrored=mirrored)
    assert set(before) == set(after)
    for key, finding in before.items():
        other = after[key]
        assert other.verdict is finding.verdict or math.isclose(finding.use or 0.0, 1.0, rel_tol=1e-6)
        assert other.because == finding.because
        for one, two in ((finding.demand, other.demand), (finding.capacity, other.capacity)):
            assert (one is None) == (two is None)
            assert one is None or two == pytest.approx(one, rel=1e-6, abs=1e-6)


@given(speed=st.floats(45.0, 60.0), faster=st.floats(1.01, 1.3))
@FEW
def test_the_wind_scales_with_the_square_of_its_speed(speed, faster):
    """Past the least pressure of the standard, for a mesh whose wires stay in their column."""
    before, after = found(speed=speed, tension=0.0), found(speed=speed * faster, tension=0.0)
    for key, finding in before.items():
        if key[0] in ("overturning", "sliding") or (key[0] == "bending" and "post" in key[1]):
            assert finding.demand is not None
            assert after[key].demand == pytest.approx(finding.demand * faster**2, rel=1e-6)


@given(
    family=FAMILY, speed=st.floats(5.0, 80.0), footing=st.floats(0.25, 1.2), height=st.floats(0.2, 2.5),
    density=st.floats(100.0, 3000.0), embed=st.floats(0.1, 2.0), grown=st.none() | st.floats(0.0, 1.0),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_whatever_holds_has_two_finite_sides_and_a_source(family, **sizes):
    known = publications()
    for finding in assess(laid(family=family, **sizes)):
        if finding.verdict is Verdict.NOT_SHOWN:
            assert finding.because
            continue
        assert finding.demand is not None
        assert finding.capacity is not None
        assert math.isfinite(finding.demand)
        assert math.isfinite(finding.capacity)
        assert finding.working or finding.figures
        assert {figure.source for _, figure in finding.figures} <= set(known)
        assert (finding.mend == "") == (finding.verdict is Verdict.HOLDS)
        for line in finding.working:
            contract = contract_named(line.formula)
            assert contract.sources
            assert {name for name, _ in line.inputs} <= {argument.name for argument in contract.arguments}


@pytest.mark.parametrize("family", ["us", "eu"])
def test_what_is_not_a_number_never_holds(family):
    base = laid(family=family)
    for spoiled in ("wind_speed", "frost_depth"):
        place = replace(base.plan.place, **{spoiled: math.nan})
        for finding in assess(replace(base, plan=replace(base.plan, place=place))):
            rests = finding.check == "frost" if spoiled == "frost_depth" else finding.check in CHECKS
            if rests:
                assert finding.verdict is Verdict.NOT_SHOWN, (spoiled, finding.check, finding.demand)


@pytest.mark.parametrize("family", ["us", "eu"])
def test_the_same_plan_gives_the_same_findings_with_and_without_what_was_kept(family):
    base = laid(family=family, grown=0.4)
    first = assess(base)
    wind_on.cache_clear()
    assert assess(base) == first


def test_without_wind_the_least_pressure_of_the_standard_acts():
    base = laid()
    still = replace(base, plan=replace(base.plan, place=replace(base.plan.place, wind_speed=0.0)))
    sliding = [finding for finding in assess(still) if finding.check == "sliding"]
    assert sliding
    for finding in sliding:
        assert finding.verdict is Verdict.HOLDS
        assert finding.demand is not None
        assert finding.demand > 0
        assert "least pressure" in finding.because


@given(family=FAMILY, tension=st.floats(0.0, 2000.0), more=st.floats(1.0, 1000.0))
@FEW
def test_harder_strained_wires_never_help_their_posts(family, tension, more):
    slack, hard = found(family=family, tension=tension), found(family=family, tension=tension + more)
    no_better(hard, slack, "embedment", "bending")


@given(first=st.floats(0.0, 1e4), second=st.floats(0.0, 1e4), angle=st.floats(-math.pi, math.pi))
def test_pulls_add_as_arrows(first, second, angle):
    rival = abs(first + second * cmath.exp(1j * angle))
    for add in (fence_loads.force_together, fence_loads.moment_together):
        assert add(first=first, second=second, angle=angle) == pytest.approx(rival, rel=1e-9, abs=1e-8)


@given(pull=st.floats(1.0, 1e4), turn=st.floats(0.0, math.pi))
def test_a_corner_is_pulled_by_twice_the_sine_of_half_its_turn(pull, turn):
    together = fence_loads.force_together(first=pull, second=pull, angle=math.pi - turn)
    assert together == pytest.approx(2 * pull * math.sin(turn / 2), rel=1e-9, abs=1e-9)


@given(tension=st.floats(0.0, 5e3), height=st.floats(0.0, 3.0), tall=st.floats(0.5, 4.0))
def test_a_wire_turns_its_post_like_a_brace_holds_it(tension, height, tall):
    brace = braces.corner_brace(pull=tension, pull_height=height, rail_height=tall, rail_length=2 * tall)
    assert fence_loads.wire_moment(tension=tension, height=height) == pytest.approx(
        brace.rail * tall, rel=1e-9, abs=1e-9
    )


@given(load=st.floats(0.0, 1e3), bays=st.lists(st.floats(0.5, 4.0), min_size=1, max_size=6))
def test_panels_together_take_what_hangs_on_the_fence(load, bays):
    brought = [walls.panel_load(load=load, shares=bay, length=2.0) * 2.0 for bay in bays]
    assert math.fsum(brought) == pytest.approx(load * math.fsum(bays), rel=1e-9, abs=1e-9)


@given(
    diameter=st.floats(0.006, 0.036), stress=st.floats(1e6, 6e8), strength=st.floats(1e7, 5e7),
    factor=st.sampled_from([0.7, 1.0]), more=st.floats(1.01, 2.0),
)  # fmt: skip
def test_hooks_of_thicker_bars_or_in_weaker_concrete_go_no_less_deep(diameter, stress, strength, factor, more):
    def hook(d=diameter, fs=stress, fc=strength):
        return steel.hook_length(diameter=d, stress=fs, concrete_strength=fc, cover_factor=factor)

    assert hook() >= max(8 * diameter, 6 * 0.0254)
    assert hook(d=diameter * more) >= hook()
    assert hook(fs=stress * more) >= hook()
    assert hook(fc=strength * more) <= hook()


def test_a_half_inch_hook_at_the_full_yield_of_grade_60_goes_a_foot_deep():
    """0.02 × 1.0 × 60 000 × 0.5 / √2500 = 12 in; 0.7 of it well covered; 6 in at a tenth of the stress."""
    inch, psi = 0.0254, 6894.757293
    for stress, factor, wanted in ((60e3, 1.0, 12.0), (60e3, 0.7, 8.4), (6e3, 1.0, 6.0)):
        found_ = steel.hook_length(
            diameter=0.5 * inch, stress=stress * psi, concrete_strength=2500 * psi, cover_factor=factor
        )
        assert found_ / inch == pytest.approx(wanted, rel=1e-6)


@given(solidity=st.floats(0.01, 0.699))
@FEW
def test_european_growth_never_falls_under_the_straight_line_to_the_table(solidity):
    air = Air(pressure=500.0, working=())
    push = lattice_push(Family.EU, air, wire=0.002, solidity=solidity, flat=True)
    assert push.pressure >= 500.0 * 1.2 * solidity / 0.8
    assert push.pressure <= 500.0 * 1.2


@pytest.mark.parametrize("family", ["us", "eu"])
def test_posts_in_a_wall_hand_on_all_of_the_mesh_between_them(family):
    base = laid(family=family)
    for stretch in base.stretches:
        held = held_on(base)[stretch.name]
        in_wall = stretch.buildup.name == "wall"
        assert math.fsum(share for _, share in held) == pytest.approx(stretch.length if in_wall else 0.0, abs=1e-6)
        panel = worst_panel(panels_of(stretch, held), stretch, stretch.steps[0]) if in_wall else None
        assert panel is None or panel.shares / panel.length >= 1 - 1e-9 or len(stretch.steps) > 1


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(60 * 16, 75 * 16), st.integers(60, 120))
def test_no_place_of_a_corner_puts_a_wall_off_its_own_line(sixteenths, inches):
    text = files("pinfold.store").joinpath("samples", "seed-garden", "plan.toml").read_text(encoding="utf-8")
    moved = text.replace('x = "64 ft"', f'x = "{sixteenths / 16} ft"')
    wide = re.sub(r'(name = "cart gate"[^\[]*?width = )"[^"]*"', rf'\1"{inches} in"', moved, flags=re.DOTALL)
    findings = assess(lay_out(plan_of(wide)))
    assert [each.subject for each in findings if "windward edge is outside" in each.because] == []
