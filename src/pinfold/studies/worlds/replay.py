"""A finding's own lines of working gone through again, with arrays in place of the numbers that scatter."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache
from typing import Any, cast

import numpy as np
import numpy.typing as npt

from pinfold.findings import Step
from pinfold.formulas.catalog import formulas

Array = npt.NDArray[np.float64]
Numbers = float | Array


@cache
def _formula(name: str) -> Callable[..., Any]:
    return formulas()[name]


def replayed(step: Step, **changed: Numbers) -> Any:
    """What a line of working gives with some of its figures put otherwise, arrays among them."""
    return _formula(step.formula)(**{**dict(step.inputs), **changed})


def on_arrays(formula: Callable[..., float]) -> Callable[..., Array]:
    """A formula as one that takes arrays and gives an array; those used here do both."""
    return cast("Callable[..., Array]", formula)


def figure_in(step: Step, name: str) -> float:
    """A number that was put into a line of working."""
    return float(dict(step.inputs)[name])  # type: ignore[arg-type]


def steps_named(steps: Iterable[Step], name: str) -> list[Step]:
    """The lines of a chain that use one formula."""
    return [step for step in steps if step.formula == name]


def scaled(steps: Iterable[Step], name: str, figure: str, factor: Numbers) -> Numbers:
    """The sum of all lines that use a formula, with one figure of each so many times as large."""
    return sum((replayed(step, **{figure: figure_in(step, figure) * factor}) for step in steps_named(steps, name)), 0.0)
