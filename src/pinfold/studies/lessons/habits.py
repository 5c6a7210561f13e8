"""How unsure each shipped figure is and how much single readings scatter, before the log says better: our own judgment.

All are shares of the value unless told, one standard deviation.
"""

from __future__ import annotations

from pinfold.units import Kilogram, Ratio, Second

DENSITY_SPREAD: Ratio = 0.15
"""A shipped loose density may be off by so much on a given site."""
DENSITY_WITHIN: Ratio = 0.05
"""Two fillings of one bucket differ by so much."""
BAG_SPREAD: Ratio = 0.02
"""A bag may be off the mass the plan counts by so much."""
BAG_WITHIN: Ratio = 0.01
"""Bags differ by so much."""
HELD_WITHIN: Ratio = 0.03
"""What a measure holds differs by so much between two fillings with water, or two tellings."""
HEAPED_WITHIN: Ratio = 0.08
"""Two heaped shovels or barrows differ by so much."""
SCALE_SPREAD: Ratio = 0.05
"""A scale may be off by so much before it was tried."""
SCALE_WITHIN: Ratio = 0.01
"""Two readings of one weight differ by so much."""
SCALE_ZERO_SPREAD: Kilogram = 0.5
"""A scale may show so much with nothing on it."""
SCALE_ZERO_WITHIN: Kilogram = 0.05
"""Two readings with nothing on it differ by so much."""
SILT_WITHIN: Ratio = 0.01
"""Two jars of one heap differ by so much in silt, in full points."""
MOISTURE_SPREAD: Ratio = 0.02
"""Water over dry mass in damp sand, in full points: 5 % may be 3 or 7."""
MOISTURE_WITHIN: Ratio = 0.01
"""Two handfuls of one heap differ by so much, in full points."""
BULKING_SPREAD: Ratio = 0.08
"""Swelling of damp sand, in full points."""
BULKING_WITHIN: Ratio = 0.03
"""Two jars of one heap differ by so much, in full points."""
SAND_HALF_LIFE: Second = 7 * 86400.0
"""A reading of the heap counts half after a week: it dries, and it rains."""
YIELD_SPREAD: Ratio = 0.10
"""The rule that says what a batch makes may be off by so much."""
YIELD_WITHIN: Ratio = 0.05
"""Batches alike differ by so much."""
LOSS_SPREAD: Ratio = 0.06
"""Share of the foam that collapses, in full points: 5 % may be none or 11."""
LOSS_WITHIN: Ratio = 0.05
"""Batches alike differ by so much, in full points."""
COAT_SPREAD: Ratio = 0.15
"""Mix that a coat takes over its net volume may be off by so much."""
COAT_WITHIN: Ratio = 0.10
"""Days of plastering differ by so much."""
THICKNESS_SPREAD: Ratio = 0.20
"""A coat comes out thicker or thinner than planned by so much."""
THICKNESS_WITHIN: Ratio = 0.15
"""Places on a wall differ by so much."""
PACE_WITHIN: Ratio = 0.30
"""Working days differ by so much."""
USUAL_COUNTS = 3.0
"""The usual scatter stands for so many readings beside the readings' own."""
FREEDOM = 4.0
"""Degrees of freedom of the tails: what lies four scatters out counts a quarter."""
CLIP = 3.0
"""For its own scatter a reading counts no further out than so many robust scatters."""
OWN_FROM = 3
"""From so many readings on their own scatter counts too; from two where nothing was thought before."""
PROPORTIONS: Ratio = 1.33
"""Batches whose parts stray from the mix by more than this are another mix and teach nothing about this one."""
PRICE_WINDOW_DAYS = 365
"""A payment older than this at the last entry no longer stands against the price list."""
PRICE_SLIP = 3
"""With three prices known, a last one so many times off their middle is taken for a slip of the pen."""
NEWEST = 300
"""So many of the newest entries of a kind are looked at; older ones would change nothing worth the time."""
