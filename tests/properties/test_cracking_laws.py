"""Laws of skins and cracks: balance of forces, rivals, limits; floats and arrays alike."""

from __future__ import annotations

import inspect
import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_bvp

from pinfold.errors import OutOfRangeError
from pinfold.formulas import cracking, skins, walls
from pinfold.formulas.contract import contract_of

E_CORE, E_SKIN = 2e9, 10e9
DAY = 86400.0
thin = st.floats(0.002, 0.05)
thick = st.floats(0.1, 0.6)
stiff = st.floats(1e8, 3e10)
share = st.floats(0.01, 1.0)

Layers = tuple[tuple[float, float, float], ...]


def sums(layers: Layers) -> tuple[float, float, float]:
    """EA, neutral axis, EI."""
    parts = [skins.layer_stiffness(modulus=e, near=a, far=b) for e, a, b in layers]
    axial, first, second = (sum(getattr(part, name) for part in parts) for name in ("axial", "first", "second"))
    return (
        axial, skins.neutral_axis(axial=axial, first=first),
        skins.bending_stiffness(axial=axial, first=first, second=second),
    )  # fmt: skip


def sandwich(outer: float, core: float, inner: float, e_skin: float, e_core: float) -> Layers:
    return (
        (e_skin, 0.0, outer), (e_core, outer, outer + core), (e_skin, outer + core, outer + core + inner),
    )  # fmt: skip


# --- the section -----------------------------------------------------------------------------------------


@given(thin, thick, thin, stiff)
def test_with_equal_moduli_the_layers_are_one_solid_wall(outer, core, inner, modulus):
    axial, middle, stiffness = sums(sandwich(outer, core, inner, modulus, modulus))
    whole = outer + core + inner

    assert axial == pytest.approx(modulus * whole)
    assert middle == pytest.approx(whole / 2)
    assert stiffness == pytest.approx(modulus * walls.solid_inertia(thickness=whole), rel=1e-9)


@given(st.floats(0.001, 0.003), thick)
def test_with_a_soft_core_it_is_the_sandwich_theory(skin, core):
    """Thin faces, weak core: D = E t d² / 2 and τ = V / d (Allen)."""
    _, _, stiffness = sums(sandwich(skin, core, skin, E_SKIN, 1e5))
    beyond = E_SKIN * skin * (core + skin) / 2
    tau = skins.shear_between(shear=1000.0, beyond=beyond, stiffness=stiffness)

    assert stiffness == pytest.approx(E_SKIN * skin * (core + skin) ** 2 / 2, rel=2e-3)
    assert tau == pytest.approx(1000.0 / (core + skin), rel=2e-3)


@given(thin, thick, thin, stiff, stiff, st.floats(-5e3, 5e3), st.floats(0.0, 2e4))
def test_stresses_over_the_section_balance_moment_and_weight(outer, core, inner, e_skin, e_core, moment, load):
    layers = sandwich(outer, core, inner, e_skin, e_core)
    axial, middle, stiffness = sums(layers)
    force = turned = 0.0
    for modulus, near, far in layers:

        def stress(y, modulus=modulus):
            return skins.layer_stress(
                modulus=modulus, moment=moment, distance=y - middle, stiffness=stiffness, load=load, axial=axial
            )

        force += quad(stress, near, far)[0]
        turned += quad(lambda y, stress=stress: stress(y) * (y - middle), near, far)[0]

    assert force == pytest.approx(-load, abs=1e-3 + 1e-6 * abs(moment))
    assert turned == pytest.approx(moment, abs=1e-3 + 1e-6 * load)


@given(thin, thick, thin, stiff, stiff, st.floats(0.0, 3e4))
def test_at_the_cracking_moment_the_stress_is_the_strength(outer, core, inner, e_skin, e_core, load):
    axial, middle, stiffness = sums(sandwich(outer, core, inner, e_skin, e_core))
    known = {"stiffness": stiffness, "load": load, "axial": axial, "modulus": e_skin, "distance": middle}
    moment = skins.cracking_moment(strength=1e6, **known)

    assert skins.layer_stress(moment=moment, **known) == pytest.approx(1e6)


@given(thin, thick, stiff, stiff)
def test_shear_between_layers_adds_up_to_the_shear_on_the_wall(skin, core, e_skin, e_core):
    layers = sandwich(skin, core, skin, e_skin, e_core)
    _, middle, stiffness = sums(layers)

    def tau(y):
        beyond = 0.0
        for modulus, near, far in layers:
            low = max(near, y)
            if far > low:
                part = skins.layer_stiffness(modulus=modulus, near=low, far=far)
                beyond += part.first - middle * part.axial
        return skins.shear_between(shear=500.0, beyond=max(beyond, 0.0), stiffness=stiffness)

    edges = [0.0, skin, skin + core, 2 * skin + core]
    total = sum(quad(tau, a, b)[0] for a, b in pairwise(edges))
    assert total == pytest.approx(500.0, rel=1e-6)


# --- drying of the skin, its ends, the mesh --------------------------------------------------------------


@given(thin, thick, stiff, stiff, st.floats(1e-5, 1e-3))
def test_a_drying_skin_and_the_core_it_presses_balance(skin, core, e_skin, e_core, shrinkage):
    held = skins.skin_restraint(skins=2 * e_skin * skin, core=e_core * core)
    pull = skins.drying_tension(modulus=e_skin, shrinkage=shrinkage, restraint=held, relaxation=1.0)
    shortened = shrinkage * (1 - held)

    assert 2 * skin * pull == pytest.approx(e_core * core * shortened)


def test_the_end_of_a_skin_is_held_by_as_much_shear_as_it_pulls():
    """A rival: the differential equation of shear lag, u'' = b² u, on scipy."""
    skin, core, e_skin, g_core, tension = 0.012, 0.2, 10e9, 1e9, 1e6
    peak = skins.edge_shear(
        tension=tension, skin=e_skin * skin, skin_thickness=skin, core_shear=g_core, core_thickness=core
    )
    rate = math.sqrt(6 * g_core / (e_skin * skin * core))
    far = 12 / rate
    found = solve_bvp(
        lambda _, s: np.vstack([s[1], rate**2 * (s[0] - tension)]),
        lambda a, b: np.array([a[0], b[0] - tension]),
        np.linspace(0, far, 200), np.zeros((2, 200)),
    )  # fmt: skip

    assert skin * found.sol(0.0)[1] == pytest.approx(peak, rel=1e-3)
    assert quad(lambda x: skin * found.sol(x)[1], 0, far, limit=200)[0] == pytest.approx(skin * tension, rel=1e-3)


@given(st.floats(0.0, 5e4), st.floats(1.0, 2e4), st.floats(0.15, 0.5))
def test_mesh_adds_to_what_the_weight_holds_and_forces_balance(pull, load, wall):
    strength = 5e6
    known = {"load": load, "mesh_depth": wall - 0.01, "load_depth": wall / 2, "strength": strength}
    with_mesh, bare = (skins.meshed_moment(pull=force, **known) for force in (pull, 0.0))
    block = (pull + load) / strength
    pressed = strength * block

    assert with_mesh >= bare
    assert with_mesh == pytest.approx(pull * (wall - 0.01) + load * wall / 2 - pressed * block / 2)
    assert bare <= load * wall / 2


def test_half_the_steel_of_a_square_mesh_runs_up_the_wall():
    area = skins.mesh_area(mass_per_area=2 * 7850 * 5e-5, density=7850.0, efficiency=0.5)

    assert area == pytest.approx(5e-5)


# --- how much it shortens --------------------------------------------------------------------------------


def test_drying_sizes_meet_for_a_wall_without_ends():
    wall = cracking.drying_size(thickness=0.2, faces="two")
    endless = cracking.unit_drying_size(length=1e6, height=1e6, width=0.2)

    assert wall == pytest.approx(0.1) == pytest.approx(endless, rel=1e-5)
    assert cracking.drying_size(thickness=0.2, faces="one") == 2 * wall
    assert cracking.unit_drying_size(length=0.4, height=0.2, width=0.2) < wall


@given(st.floats(0.4, 1.0), st.floats(0.4, 1.0))
def test_damper_air_never_shrinks_concrete_more(one, other):
    dry, damp = sorted((one, other))
    rest = {"size": 0.1, "slump": 0.08, "sand": 0.4, "cement": 350.0, "air": 0.02, "curing": 7 * DAY}
    factors = [cracking.aci209_factors(humidity=h, **rest).humidity for h in (dry, damp)]

    assert factors[0] >= factors[1] >= -1e-12
    assert cracking.shrinkage_by_aci209(correction=factors[0]) >= cracking.shrinkage_by_aci209(correction=factors[1])
    low, high = min(dry, 0.99), min(damp, 0.99)
    assert cracking.humidity_factor_by_mc90(humidity=low) >= cracking.humidity_factor_by_mc90(humidity=high)


@given(st.floats(0.0, 1e9), st.floats(0.0, 1e9), st.floats(0.01, 0.3))
def test_drying_goes_on_and_never_past_its_end(one, other, size):
    first, later = sorted((one, other))
    for curve in (
        lambda t: cracking.share_dried_by_aci209(drying=t),
        lambda t: cracking.share_dried_by_mc90(size=size, drying=t),
    ):
        assert 0.0 <= curve(first) <= curve(later) <= 1.0


@given(st.floats(0.0, 0.004), share)
def test_what_dried_before_and_what_is_left_are_the_whole(shrinkage, dried):
    left = cracking.shrinkage_left(shrinkage=shrinkage, dried=dried)

    assert left + shrinkage * dried == pytest.approx(shrinkage)


@given(st.floats(0.0, 0.003), st.floats(0.0, 2e-5), st.floats(0.0, 80.0), st.floats(0.1, 20.0))
def test_joints_spaced_by_movement_move_just_so_much(shrinkage, expansion, cooling, movement):
    strain = cracking.free_strain(shrinkage=shrinkage + 1e-6, expansion=expansion, cooling_c=cooling)
    spacing = cracking.spacing_by_movement(movement=movement / 1000, strain=strain)

    assert spacing * strain == pytest.approx(movement / 1000)


# --- what holds it back ----------------------------------------------------------------------------------


@given(st.floats(0.2, 60.0), st.floats(0.2, 60.0), st.floats(0.05, 1.0))
def test_a_longer_panel_is_never_held_less(one, other, level):
    short, long = sorted((one, other))
    held = [cracking.restraint_by_aci207(length=length, height=1.0, level=level) for length in (short, long)]

    assert 0.0 <= held[0] <= held[1] + 1e-12 < 1.0


@given(st.floats(1.1, 60.0), st.floats(0.3, 4.0), st.floats(0.1, 1.0))
def test_longest_panel_is_the_restraint_turned_round(slender, height, level):
    held = cracking.restraint_by_aci207(length=slender * height, height=height, level=level)
    panel = cracking.panel_by_restraint(height=height, restraint=held, level=level)

    assert panel == pytest.approx(slender * height, rel=1e-6)


def test_a_panel_whose_restraint_may_be_whole_has_no_end():
    assert cracking.panel_by_restraint(height=1.0, restraint=1.0, level=0.5) == math.inf


@given(st.floats(1.0, 1e10), st.floats(1.0, 1e10))
def test_a_yielding_base_holds_less(wall, base):
    assert 0.0 < cracking.base_yielding(wall=wall, base=base) < 1.0
    assert cracking.base_yielding(wall=0.0, base=base) == 1.0


@given(share, share, st.floats(0.0, 0.004), st.floats(1e-6, 0.001))
def test_cracks_open_only_past_what_the_wall_takes(restraint, creep, strain, capacity):
    held = cracking.restrained_strain(restraint=restraint, creep=creep, strain=strain)
    opens = cracking.crack_strain(restrained=held, capacity=capacity)

    assert held <= strain
    assert (opens > 0) == (held > capacity)
    assert opens <= held
    assert cracking.crack_width(strain=opens, spacing=6.0) == pytest.approx(
        2 * cracking.crack_width(strain=opens, spacing=3.0)
    )


def test_strain_capacity_is_strength_over_stiffness_where_nothing_creeps():
    assert cracking.strain_capacity(tension=1e6, modulus=1e10, sustained=1.0, creep=1.0) == pytest.approx(1e-4)


@given(st.floats(0.0, 4e6), st.floats(0.1, 0.3), share)
def test_the_least_steel_just_carries_what_the_wall_lets_go(tension, area, k):
    steel = cracking.crack_steel(tension=tension, area=area, stress=400e6, share=k)

    assert steel * 400e6 == pytest.approx(k * tension * area)


@given(st.floats(0.0005, 0.05), st.floats(0.0005, 0.05))
def test_more_steel_means_nearer_and_finer_cracks(one, other):
    little, much = sorted((one, other))
    known = {"cover": 0.04, "diameter": 0.008, "strain_shape": 1.0}
    spacings = [cracking.crack_spacing_by_en1992(steel=steel, **known) for steel in (little, much)]
    strains = [
        cracking.end_restraint_strain(modular_ratio=8.0, steel=steel, tension=2e6, steel_modulus=200e9)
        for steel in (little, much)
    ]

    assert spacings[0] >= spacings[1] > 3.4 * 0.04
    assert strains[0] >= strains[1] > 0


# --- floats and arrays, and what is refused --------------------------------------------------------------

_PARTS = [
    (module, function)
    for module in (skins, cracking)
    for _, function in inspect.getmembers(module, inspect.isfunction)
    if function.__module__ == module.__name__ and not function.__name__.startswith("_")
]


def arguments(function):
    text = contract_of(function).sections["Example"].split("\n>>>")[0].replace("\n...", "")
    call = text.split(">>> ", 1)[1].split("\n")[0]
    return eval(f"dict({call[call.index('(') + 1 :]}", {"__builtins__": {"dict": dict}})


@pytest.mark.parametrize(("module", "function"), _PARTS, ids=[function.__name__ for _, function in _PARTS])
def test_arrays_give_what_their_numbers_give_one_by_one(module, function):
    inputs = arguments(function)
    many = {name: np.array([value, value * 0.99]) if isinstance(value, float) else value
            for name, value in inputs.items()}  # fmt: skip
    both = [
        function(**{name: float(value[at]) if isinstance(value, np.ndarray) else value for name, value in many.items()})
        for at in (0, 1)
    ]
    got = function(**many)

    for name in vars(both[0]) if hasattr(both[0], "__dict__") else ("",):
        ones = [getattr(each, name) if name else each for each in both]
        assert np.broadcast_to(getattr(got, name) if name else got, 2) == pytest.approx(ones)


@pytest.mark.parametrize(("module", "function"), _PARTS, ids=[function.__name__ for _, function in _PARTS])
def test_a_number_below_nothing_is_refused(module, function):
    inputs = arguments(function)
    bound = {name for name, value in inputs.items() if isinstance(value, float)} - {"moment", "distance", "load"}

    for name in bound:
        with pytest.raises(OutOfRangeError):
            function(**(inputs | {name: -1.0}))
