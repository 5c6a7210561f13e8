"""What holds of money later whatever the figures."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from pinfold.formulas import ownership

AMOUNTS = st.floats(1.0, 1e7)
RATES = st.floats(0.0, 0.3)
YEARS = st.floats(0.5, 60.0)


@given(AMOUNTS, RATES, YEARS, YEARS)
def test_money_later_is_never_worth_more_than_now_and_the_later_the_less(amount, rate, one, other):
    sooner, later = sorted((one, other))
    near, far = (ownership.present_worth(amount=amount, rate=rate, years=years) for years in (sooner, later))

    assert far <= near * (1 + 1e-12) <= amount * (1 + 2e-12)


@given(AMOUNTS, RATES, st.integers(1, 60))
def test_yearly_payments_are_worth_what_each_of_them_is_worth(amount, rate, years):
    each = math.fsum(
        ownership.present_worth(amount=amount, rate=rate, years=float(year)) for year in range(1, years + 1)
    )

    whole = ownership.present_worth_of_yearly(amount=amount, rate=rate, years=float(years))
    assert math.isclose(whole, each, rel_tol=1e-6)


@given(AMOUNTS, RATES, YEARS)
def test_the_yearly_equivalent_pays_the_amount_off(amount, rate, years):
    yearly = ownership.yearly_equivalent(amount=amount, rate=rate, years=years)

    paid = ownership.present_worth_of_yearly(amount=yearly, rate=rate, years=years)
    assert math.isclose(paid, amount, rel_tol=1e-9)


@given(AMOUNTS, RATES, YEARS, st.floats(0.0, 0.2))
def test_without_interest_and_upkeep_owning_costs_its_first_cost_over_its_life(amount, rate, years, upkeep):
    bare = ownership.ownership_cost(first=amount, life=years, rate=0.0, upkeep=0.0)
    whole = ownership.ownership_cost(first=amount, life=years, rate=rate, upkeep=upkeep)

    assert math.isclose(bare * years, amount, rel_tol=1e-9)
    assert math.isclose(whole, bare + amount * (rate / 2 + upkeep), rel_tol=1e-9)
