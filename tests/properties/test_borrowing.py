"""What alike things say of each other, against the levels of strengths, plain integration, and one alone."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from pinfold.studies.lessons.belief import learned_from
from pinfold.studies.lessons.borrowing import SHARED, Member, learned_in_family
from pinfold.studies.lessons.levels import Spreads, Tried, believed
from pinfold.studies.lessons.records import Prior, Reading
from pinfold.units import RATIO

near = st.lists(st.floats(0.98, 1.02), min_size=1, max_size=2)
"""So few and so near that each counts in full and the usual scatter stands."""


def prior(value: float = 1.0, spread: float = 0.10, within: float = 0.05) -> Prior:
    return Prior(value=value, spread=spread, within=within, unit=RATIO, figure=None, says="")


def member(*values: float, **more: float) -> Member:
    return Member(prior(**more), [Reading(value, "2026-05-03") for value in values])


@given(st.floats(0.5, 1.5), st.lists(st.floats(0.8, 1.2), min_size=1, max_size=6))
def test_one_measured_alone_is_the_plain_update(value, values):
    alone = learned_in_family({"one": member(*values, value=value)})["one"]

    assert alone == learned_from(member(*values).readings, prior(value))


def test_nothing_measured_leaves_all_as_it_was():
    (found,) = learned_in_family({"one": member()}).values()

    assert (found.value, found.spread, found.weight) == (1.0, 0.10, 0.0)


@given(near, near, near)
def test_it_is_the_levels_of_strengths_without_age_and_batch(one, two, three):
    groups = {"one": one, "two": two, "three": three, "none": []}
    found = learned_in_family({name: member(*values) for name, values in groups.items()})
    spreads = Spreads(0.1 * math.sqrt(SHARED), 0.1 * math.sqrt(1 - SHARED), 1e-9, 0.0)
    tests = [Tried(name, f"{n}", value - 1, 0.0, 0.05) for name, values in groups.items()
             for n, value in enumerate(values)]  # fmt: skip
    levels = believed(tests, spreads, 1e12)

    for name in groups:
        assert found[name].value - 1 == pytest.approx(levels.level(name, 0.0).over, abs=1e-6), name
        assert found[name].spread == pytest.approx(levels.level(name, 0.0).spread, rel=1e-5), name


def test_plain_integration_agrees():
    found = learned_in_family({"one": member(1.02), "two": member(0.97), "none": member()})
    line = np.linspace(-0.5, 0.5, 301)
    family, one, two, none = np.meshgrid(line, line, line, [0.0], indexing="ij", sparse=True)
    shared, own = 0.1 * math.sqrt(SHARED), 0.1 * math.sqrt(1 - SHARED)
    chance = (
        stats.norm.pdf(family, 0, shared) * stats.norm.pdf(one, 0, own) * stats.norm.pdf(two, 0, own)
        * stats.norm.pdf(1 + family + one, 1.02, 0.05) * stats.norm.pdf(1 + family + two, 0.97, 0.05)
    )  # fmt: skip
    whole = chance.sum()

    assert found["one"].value == pytest.approx(1 + (chance * (family + one)).sum() / whole, abs=1e-6)
    assert found["none"].value == pytest.approx(1 + (chance * (family + none)).sum() / whole, abs=1e-6)
    spread = math.sqrt((chance * (family - (found["none"].value - 1)) ** 2).sum() / whole + own**2)
    assert found["none"].spread == pytest.approx(spread, rel=1e-5)


def test_what_was_never_measured_goes_part_of_the_way_and_stays_unsurer():
    found = learned_in_family({"one": member(*[0.9] * 20), "two": member(*[0.9] * 20), "none": member()})

    assert found["one"].value < found["none"].value < 1.0
    assert found["one"].spread < found["none"].spread < 0.10
    assert found["none"].weight < 0.5
    assert found["none"].working


@given(st.permutations(["one", "two", "three"]))
def test_the_order_of_members_does_not_matter(order):
    values = {"one": (0.9, 0.95), "two": (1.05,), "three": ()}
    expected = learned_in_family({name: member(*each) for name, each in values.items()})

    assert learned_in_family({name: member(*values[name]) for name in order}) == expected


def test_members_are_compared_in_their_own_spreads():
    """A coat that wastes twice as much is as far off as one that wastes a tenth more, where it is twice as unsure."""
    found = learned_in_family(
        {"one": member(1.2, value=1.0, spread=0.2, within=0.1), "none": member(value=5.0, spread=0.5, within=0.1)}
    )

    assert (found["none"].value - 5) / 0.5 == pytest.approx(
        (learned_in_family({"one": member(1.2, spread=0.2, within=0.1), "none": member(spread=0.2, within=0.1)})[
            "none"].value - 1) / 0.2
    )  # fmt: skip


def test_more_members_narrow_what_is_borrowed():
    spreads = [
        learned_in_family({**{f"m{n}": member(0.95, 0.97) for n in range(count)}, "none": member()})["none"].spread
        for count in (0, 1, 2, 4, 8)
    ]

    assert all(later < sooner for sooner, later in itertools.pairwise(spreads))
    assert spreads[-1] > 0.10 * math.sqrt(1 - SHARED)
