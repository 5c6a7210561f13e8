"""What owning costs over the years, what fences cost, and how figures of weighing stand beside what is printed."""

from __future__ import annotations

import pytest

from pinfold.formulas import ownership
from pinfold.sources import publications
from pinfold.studies.costing import shared_out
from published import Printed
from rows import Row

RECOVERY = {
    (2, "3.5"): "0.52640", (6, "3.5"): "0.18767", (14, "4.5"): "0.09782", (18, "4.5"): "0.08224",
    (4, "6"): "0.28859", (10, "6"): "0.13587", (8, "8"): "0.17401", (16, "8"): "0.11298", (12, "10"): "0.14676",
    (18, "10"): "0.12193",
}  # fmt: skip
"""Yearly payment that pays 1 off, by years and rate in percent; ten cells of the table, spread over it."""
LATER = {1: "0.9259", 3: "0.7938", 5: "0.6806", 7: "0.5835", 10: "0.4632"}
"""What 1 to be paid in so many years is worth now at 8 %."""
EVERY_YEAR = {2: "1.7833", 4: "3.3121", 6: "4.6229", 8: "5.7466", 10: "6.7101"}
"""What 1 paid every year is worth now at 8 %."""
FENCES = {
    "woven wire": (1986.0, 20.0, 0.08, "338"), "barbed wire": (1612.5, 20.0, 0.08, "274"),
    "high-tensile, 8 wires": (1484.0, 25.0, 0.05, "193"), "high-tensile, 5 wires": (930.0, 25.0, 0.05, "121"),
}  # fmt: skip
"""First cost (found back from the parts printed), life, upkeep, and cost of a year as printed, of a fence of 1320 ft."""
QUARTER_MILE = ((2800, 4), (900, 57), (500, 55), (180, 10), (6, 1320), (70, 1320), (1505, 42))
"""Coins for one, and how many: posts of two sizes, steel posts, staples, barbed wire, woven wire, hours."""
TOOLS = (2199, 2999, 1899, 1999, 9765, 3199, 2499, 2299, 399, 3000)
"""Coins for each tool of one who fences with woven wire."""


def _row(what, printed, ours, formula, **more):
    digits, source, where, grade = printed
    return Row(what=what, printed=Printed(digits, source, where, grade), ours=ours, table=f"{source} {where}",
               formula=formula, **more)  # fmt: skip


ROWS = (
    *(_row(f"yearly payment that pays 1 off in {years} years at {rate} %", (digits, "CAPITAL-RECOVERY", "table 1", "A2"),
           lambda y=years, r=rate: ownership.yearly_equivalent(amount=1.0, rate=float(r) / 100, years=float(y)),
           "ownership.yearly_equivalent")
      for (years, rate), digits in RECOVERY.items()),
    *(_row(f"worth now of 1 in {years} years at 8 %", (digits, "INTEREST-TABLES", "8 %", "A2"),
           lambda y=years: ownership.present_worth(amount=1.0, rate=0.08, years=float(y)), "ownership.present_worth")
      for years, digits in LATER.items()),
    *(_row(f"worth now of 1 every year for {years} years at 8 %", (digits, "INTEREST-TABLES", "8 %", "A2"),
           lambda y=years: ownership.present_worth_of_yearly(amount=1.0, rate=0.08, years=float(y)),
           "ownership.present_worth_of_yearly")
      for years, digits in EVERY_YEAR.items()),
    *(_row(f"yearly ownership cost of {name}, 1320 ft", (digits, "FENCE-OWNERSHIP", "table 6", "B"),
           lambda c=cost, n=life, u=upkeep: ownership.ownership_cost(first=c, life=n, rate=0.08, upkeep=u),
           "ownership.ownership_cost", note="the first cost is found back from the parts printed beside it")
      for name, (cost, life, upkeep, digits) in FENCES.items()),
    _row("quarter mile of woven wire, all of it", ("2553.31", "FENCE-FIGURES", "woven wire", "R"),
         lambda: sum(coins * count for coins, count in QUARTER_MILE) / 100, "", method_error=1e-5,
         note="a cent off: the source rounds an amount before adding"),
    _row("tools for a woven-wire fence, all of them", ("302.57", "FENCE-TOOLS", "table 1", "R"),
         lambda: sum(TOOLS) / 100, ""),
)  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_what_is_printed(row):
    assert row.printed.source in publications()
    assert row.printed.fits(row.ours(), method_error=row.method_error), (row.ours(), row.printed.digits)


def test_parts_of_a_printed_cost_add_up_to_its_whole():
    coins = [price * count for price, count in QUARTER_MILE]

    assert sum(shared_out(255331, [float(each) for each in coins])) == 255331
