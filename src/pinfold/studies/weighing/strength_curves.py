"""Strength to spare on arrays of factors: the plan checked in full at some of them, and a curve laid through these."""

from __future__ import annotations

import warnings
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.special import ndtri
from scipy.stats import qmc

from pinfold.findings import Finding
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.weighing.safety_scores import governing
from pinfold.studies.weighing.sensitivity import SEED, Array
from pinfold.studies.weighing.unsure import Factors, Unsure
from pinfold.studies.weighing.unsure_strength import with_factors
from pinfold.units import Ratio

Checked = Callable[[Enclosure], Iterable[Finding]]
"""A plan laid out and checked in full."""
Told = Callable[[int, int], None]
"""Told after each plan: how many are checked, of how many."""
KNOTS, TRIED = 96, 32
"""Plans checked in full to lay the curve through, and to try it."""
LEAST: Ratio = 0.5
"""What carries less than half of what acts counts as half: it fails, and by how much tells nothing more."""
_MOST: Ratio = 10.0
_WIDER, _EDGE = 1.2, 1e-3
"""The plans lie somewhat farther out than the figures are drawn, so that few draws lie beyond them."""


@dataclass(frozen=True, kw_only=True)
class Curve:
    """The strength beside what acts, in the check that governs, as a curve over the figures.

    Attributes:
        fitted: the curve.
        keys: of the figures, in its order.
        spreads: of the figures, as standard deviations of their logarithms.
        explains: share of the scatter that it explains where it was tried.
        asked: plans checked in full.
        governed: checks that govern in one of them or another, the most often first.
    """

    fitted: Any
    keys: tuple[str, ...]
    spreads: tuple[float, ...]
    explains: Ratio
    asked: int
    governed: tuple[str, ...]

    def carried(self, factors: Factors) -> Array:
        """What it carries beside what acts, (n,)."""
        at = [np.log(factors[key]) / spread for key, spread in zip(self.keys, self.spreads, strict=True)]
        return np.asarray(np.maximum(self.fitted.predict(np.stack(at, axis=1)), LEAST))


def curve_of(
    plan: Enclosure, unsure: Sequence[Unsure], checked: Checked, told: Told | None = None
) -> Curve | None:  # fmt: skip
    """A curve through plans that were checked in full; None where in one of them no check of strength is shown.

    Args:
        plan: as it stands
        unsure: its figures
        checked: lays a plan out and checks it
        told: of the progress
    """
    keys = tuple(each.key for each in unsure)
    spreads = np.sqrt(np.log1p(np.array([each.spread for each in unsure]) ** 2))
    whole = KNOTS + TRIED
    chances = qmc.Sobol(d=len(keys), rng=np.random.default_rng(SEED)).random(whole).T
    at = ndtri(np.clip(chances, _EDGE, 1 - _EDGE)) * _WIDER
    at[:, 0] = 0.0
    found: list[Finding] = []
    for number, column in enumerate(at.T, start=1):
        factors = dict(zip(keys, np.exp(column * spreads).tolist(), strict=True))
        worst = governing(checked(with_factors(plan, factors)))
        if worst is None:
            return None
        found.append(worst)
        if told is not None:
            told(number, whole)
    return _through(at, found, keys, tuple(spreads.tolist()))


def _through(at: Array, found: Sequence[Finding], keys: tuple[str, ...], spreads: tuple[float, ...]) -> Curve:
    carried = np.array([1 / max(each.use or 0.0, 1 / _MOST) for each in found])
    carried = np.maximum(carried, LEAST)
    fitted = _fitted(at[:, :KNOTS], carried[:KNOTS])
    off = np.maximum(fitted.predict(at[:, KNOTS:].T), LEAST) - carried[KNOTS:]
    scatter = float(carried.var())
    names = [each.check for each in found]
    return Curve(
        fitted=fitted, keys=keys, spreads=spreads, asked=len(found),
        explains=max(1.0 - float((off**2).mean()) / scatter, 0.0) if scatter > 0 else 1.0,
        governed=tuple(sorted(dict.fromkeys(names), key=lambda name: -names.count(name))),
    )  # fmt: skip


def _fitted(at: Array, carried: Array) -> Any:
    """A Gaussian process, which bends where one check takes over from another."""
    from sklearn.exceptions import ConvergenceWarning
    from sklearn.gaussian_process import GaussianProcessRegressor
    from sklearn.gaussian_process.kernels import ConstantKernel, Matern, WhiteKernel

    reach = Matern(np.full(len(at), 3.0), (0.3, 100.0), nu=1.5)
    kernel = ConstantKernel(1.0) * reach + WhiteKernel(1e-4, (1e-6, 1e-1))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", ConvergenceWarning)  # a figure that nothing hangs on has no reach
        return GaussianProcessRegressor(kernel, normalize_y=True, random_state=0).fit(at.T, carried)
