"""Expected gain against a printed table of the normal loss function, and the surface against a printed example."""

from __future__ import annotations

import pytest

from pinfold.formulas import trials
from pinfold.studies.trials.surface import seen_of, through
from published import Printed
from rows import Row

LOSS = "appendix A, a normal demand of mean 1000 and standard deviation 300 past 1600"


def loss(what: str, digits: str, ours: float) -> Row:
    printed = Printed(digits, "NORMAL-LOSS", LOSS, "A2")
    return Row(what, printed, lambda: ours, "loss function, example", formula="trials.expected_gain")


def tutorial_variance() -> float:
    """Of a reading at 0.2, beside six readings; the print has the scatter of one reading in it."""
    from sklearn.gaussian_process.kernels import RBF, ConstantKernel

    seen = seen_of([[-1.5], [-1.0], [-0.75], [-0.40], [-0.25], [0.0]], [0.0] * 6)
    fitted = through(ConstantKernel(1.27**2) * RBF(1.0), seen, center=0.0, noise=0.3)
    (spread,) = fitted.predict([[0.2]], return_std=True)[1]
    return float(spread**2 + 0.3**2)


ROWS = (
    loss("expected part of a standard normal past 2", "0.0085", float(trials.expected_gain(mean=0.0, spread=1.0, best=2.0))),
    loss("expected units past 1600", "2.55", float(trials.expected_gain(mean=1000.0, spread=300.0, best=1600.0))),
    Row(
        "variance of a reading at 0.2 beside six readings, length 1, signal 1.27, noise 0.3",
        Printed("0.21", "GP-TUTORIAL", "example at x = 0.2", "A2"), tutorial_variance, "Gaussian process, example",
        note="the mean printed beside it, 0.95, needs readings that are only drawn in the print",
    ),
)  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_ours_rounds_to_the_print(row: Row) -> None:
    assert row.printed.fits(row.ours())
