"""Money as text: whole coins, with as many decimals as the currency has."""

from __future__ import annotations

import pytest

from pinfold.units import money


@pytest.mark.parametrize(
    ("coins", "currency", "digits", "shown"),
    [
        (123_450, "USD", 2, "USD 1 234.50"), (5, "EUR", 2, "EUR 0.05"), (0, "", 2, "0.00"), (1250, "yen", 0, "yen 1 250"),
        (-123_450, "USD", 2, "USD -1 234.50"), (12_345_678, "", 3, "12 345.678"), (None, "USD", 2, "not shown"),
    ],
)  # fmt: skip
def test_money_has_the_decimals_of_its_currency_and_thousands_apart(coins, currency, digits, shown):
    found = money(coins, currency, digits)

    assert found.replace("\u00a0", " ") == shown
    assert coins is None or " " not in found, "never broken at the end of a line"
