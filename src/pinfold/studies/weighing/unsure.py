"""Figures that are not sure: each with its spread, drawn as a factor on what the plan takes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np
from scipy.special import ndtri

from pinfold.sources import Standing
from pinfold.studies.weighing.sensitivity import Array
from pinfold.tables.shelf import kind
from pinfold.units import Ratio


class Unsure(NamedTuple):
    """One figure that is not sure.

    Attributes:
        key: how a model asks for it.
        says: what it is, in a few words.
        spread: one standard deviation, as a share of what the plan takes.
        standing: how the spread was come by.
        because: what the spread rests on.
    """

    key: str
    says: str
    spread: Ratio
    standing: Standing
    because: str = ""


def by_table(row: str, *, key: str = "", says: str = "") -> Unsure:
    """A figure whose spread stands in table `unsure`."""
    of = kind("unsure", row)
    spread = of.figure("spread")
    return Unsure(key or row, says or of.says, spread.value, spread.standing, spread.where)


def by_scatter(key: str, says: str, row: str) -> Unsure:
    """A figure that scatters, and is in doubt, by table `scatter`, as the worlds take it."""
    of = kind("scatter", row)
    doubt = of.value("doubt") if of.has("doubt") else 0.0
    spread = float(np.hypot(of.value("spread"), doubt))
    return Unsure(key, says, spread, of.figure("spread").standing, of.says)


Factors = Mapping[str, Array]


def factors_at(chances: Array, unsure: Sequence[Unsure]) -> Factors:
    """Factors on what the plan takes, lognormal about it: half of them are less.

    Args:
        chances: between 0 and 1, (figures, n)
        unsure: the figures, in the same order
    """
    return {
        each.key: np.exp(ndtri(row) * np.sqrt(np.log1p(each.spread**2)))
        for each, row in zip(unsure, chances, strict=True)
    }
