"""Families of mixes: what is asked, how a wish is read, and a mix given by mass."""

from __future__ import annotations

import pytest

from pinfold.errors import InvalidPlan, NotFoundError
from pinfold.figures import practice
from pinfold.plan.place import Mixing
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.proportioning.families import FAMILIES, family_named
from pinfold.studies.proportioning.wishes import asks_of, read_wish
from pinfold.tables.shelf import Kind, kind
from pinfold.units import KG_PER_CUBIC_METER

SITE = Mixing(batch=0.06, bucket=0.012, bag=25.0, lime_bag=20.0, sand_bulking=None)


def material(name):
    return kind("materials", name)


def wish_of(name, **typed):
    return read_wish(family_named(name), typed, mixing=SITE, material=material)


@pytest.mark.parametrize("family", FAMILIES, ids=lambda family: family.name)
def test_each_family_asks_each_thing_once_and_has_a_default_that_can_be_read(family):
    keys = [ask.key for ask in asks_of(family)]
    assert len(keys) == len(set(keys))
    given = {ask.key: ask.example.partition(" or ")[0] for ask in family.asks if ask.needed}
    wish = read_wish(family, given, mixing=SITE, material=material)
    assert set(wish.numbers) | set(wish.words) == {
        ask.key for ask in asks_of(family) if ask.otherwise or ask.key in given
    }


def test_all_complaints_about_a_wish_come_at_once():
    with pytest.raises(InvalidPlan) as refused:
        wish_of("mortar", type="Q", volume="2 kg", area="-3 m2", colour="red")
    assert {problem.place for problem in refused.value.problems} == {"type", "volume", "area", "colour"}


def test_an_unknown_family_is_told_which_there_are():
    with pytest.raises(NotFoundError, match="mortar"):
        family_named("marzipan")


def by_mass(**per_meter):
    figures = {f"{part}_mass": practice(f"{mass} kg/m3", KG_PER_CUBIC_METER, "") for part, mass in per_meter.items()}
    uses = {"cement": "portland-cement", "sand": "sand", "gravel": "gravel"}
    words = {"says": "a trial", "family": "concrete", "yield_method": "by-mass", "uses": uses}
    return Kind(name="a-trial", shelf="mixes", figures=figures, words=words)


def test_a_mix_by_mass_weighs_what_its_cubic_meter_weighs():
    charge = charge_of(by_mass(cement=300, sand=750, gravel=1050, water=180), SITE)
    drunk = sum(charge.part(part).mass * material(part).value("absorption") for part in ("sand", "gravel"))
    whole = sum(part.mass for part in charge.ingredients) + charge.water * 1000 + drunk
    assert whole / charge.makes == pytest.approx(300 + 750 + 1050 + 180)
    assert charge.part("cement").bags == pytest.approx(0.5), "60 L hold 18 kg of cement: half a bag of 25 kg"
