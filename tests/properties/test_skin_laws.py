"""What holds of coats as skins whatever the wind: rougher wind never asks less of them."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.findings import Finding, Verdict
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.exposures import exposures_of
from pinfold.studies.stability.skins.checks import skin_findings
from stand_plots import GROUND, plan

FOOTING = (
    '[buildup.run.footing]\nkind = "strip-concrete"\nwidth = "70 cm"\nthickness = "25 cm"\nbelow_ground = "40 cm"\n'
)
BARS = 'grout = "partial"\ngrout_spacing = "60 cm"\nbar = "12 mm"\nbar_spacing = "60 cm"'
WALLS = {
    "foamed": 'kind = "foamed-poured"\nflexural_tension_en = "0.3 MPa"',
    "weak": 'kind = "foamed-poured-800"\nflexural_tension_en = "0.02 MPa"\nthickness = "25 cm"',
    "earth": 'kind = "adobe"\nthickness = "44 cm"',
    "barred": f'kind = "block-200-hollow"\nmortar = "mortar-S"\n{BARS}',
    "undowelled": f'kind = "block-200-hollow"\nmortar = "mortar-S"\ndowels = false\n{BARS}',
}
COATS = {
    "lime": 'kind = "lime-first"\nthickness = "12 mm"',
    "cement": 'kind = "cement-scratch"\nthickness = "12 mm"',
    "meshed": 'kind = "lime-first"\nthickness = "12 mm"\nmesh = "plaster-lath-expanded"',
    "one face": 'kind = "cement-scratch"\nthickness = "12 mm"\nfaces = "outer"',
}


@cache
def tension(wall: str, coat: str, wind: float) -> Finding:
    layers = f'{FOOTING}[buildup.run.wall]\n{WALLS[wall]}\nheight = "90 cm"\n[[buildup.run.coat]]\n{COATS[coat]}\n'
    place = f'wind_speed = "{wind:.2f} m/s"\nexposure = "II"\n{GROUND}'
    standings = exposures_of(lay_out(plan(layers, place=place, family="eu")))
    return next(found for ask in standings.values() for found in skin_findings(ask) if found.check == "skin tension")


@pytest.mark.parametrize("coat", COATS)
@pytest.mark.parametrize("wall", WALLS)
@given(speeds=st.tuples(st.integers(30, 140), st.integers(30, 140)))
def test_rougher_wind_never_asks_less_of_skins_whether_they_stay_whole_or_crack(wall, coat, speeds):
    calm, rough = (tension(wall, coat, speed / 2) for speed in sorted(speeds))

    assert calm.verdict is not Verdict.NOT_SHOWN, calm.because
    assert (calm.use or 0.0) <= (rough.use or 0.0) * (1 + 1e-9)


@pytest.mark.parametrize("coat", COATS)
@pytest.mark.parametrize("wall", WALLS)
def test_coats_that_crack_take_nothing_from_what_the_wall_holds_by_itself(wall, coat):
    """What it holds is one figure in every wind: the larger of whole coats and of the wall without them."""
    held = [tension(wall, coat, speed).capacity for speed in (15.0, 30.0, 60.0)]

    assert held == pytest.approx([held[0]] * 3)


def test_bars_out_of_the_footing_hold_what_cracked_coats_let_go():
    barred, without = (tension(wall, "cement", 45.0) for wall in ("barred", "undowelled"))

    assert "bars" in barred.because
    assert (barred.capacity or 0.0) > (without.capacity or 0.0)
    assert any(step.formula == "masonry.moment_in_steel" for step in barred.working)
