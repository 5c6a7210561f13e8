"""What an answer hangs on, beside printed indices of two functions that are made to be hard, and closed forms."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from scipy.stats import sobol_indices

from pinfold.studies.weighing.sensitivity import Array, Indices, indices_of
from published import Printed
from rows import Row

A_OF_G = np.array([0, 1, 4.5, 9, 99, 99, 99, 99])


def ishigami(chances: Array) -> Array:
    x, y, z = (2 * chances - 1) * math.pi
    return (np.sin(x) + 7 * np.sin(y) ** 2 + 0.1 * z**4 * np.sin(x))[None]


def g(chances: Array) -> Array:
    return ((np.abs(4 * chances - 2) + A_OF_G[:, None]) / (1 + A_OF_G[:, None])).prod(axis=0)[None]


@cache
def of_ishigami() -> Indices:
    return indices_of(ishigami, 3, points=2**17)[0]


@cache
def of_g() -> Indices:
    return indices_of(g, 8, points=2**16)[0]


def row(what: str, digits: str, key: str, where: str, ours) -> Row:
    return Row(what, Printed(digits, key, where, "R"), ours, f"{key}, {where[:16]}")


ROWS = (
    row("Ishigami, first order of the first figure", "0.3139", "ISHIGAMI-PRINTED", "x1, A = 7, B = 0.1",
        lambda: of_ishigami().first[0].value),
    row("Ishigami, first order of the second figure", "0.4424", "ISHIGAMI-PRINTED", "x2, A = 7, B = 0.1",
        lambda: of_ishigami().first[1].value),
    row("Ishigami, first order of the third figure", "0.0", "ISHIGAMI-PRINTED", "x3, A = 7, B = 0.1",
        lambda: of_ishigami().first[2].value),
    row("Ishigami, total of the third figure", "0.244", "ISHIGAMI-TOTAL", "S_T of x3 in the example",
        lambda: of_ishigami().total[2].value),
    row("g function, first order of the second figure", "0.1791", "SOBOL-G", "x2", lambda: of_g().first[1].value),
    row("g function, first order of the third figure", "0.0237", "SOBOL-G", "x3", lambda: of_g().first[2].value),
    row("g function, first order of the fifth figure", "0.0001", "SOBOL-G", "x5 to x8",
        lambda: of_g().first[4].value),
)  # fmt: skip


@pytest.mark.parametrize("each", ROWS, ids=str)
def test_indices_come_out_as_printed(each: Row) -> None:
    assert each.printed.fits(each.ours(), method_error=each.method_error)


def test_indices_of_the_ishigami_function_are_its_closed_forms() -> None:
    v13 = 0.1**2 * math.pi**8 * 8 / 225
    v1, v2 = (1 + 0.1 * math.pi**4 / 5) ** 2 / 2, 49 / 8
    whole = v1 + v2 + v13
    assert [each.value for each in of_ishigami().first] == pytest.approx([v1 / whole, v2 / whole, 0], abs=2e-4)
    totals = [(v1 + v13) / whole, v2 / whole, v13 / whole]
    assert [each.value for each in of_ishigami().total] == pytest.approx(totals, abs=2e-4)


def test_indices_of_the_g_function_are_its_closed_forms() -> None:
    parts = 1 / (3 * (1 + A_OF_G) ** 2)
    whole = (1 + parts).prod() - 1
    assert [each.value for each in of_g().first] == pytest.approx((parts / whole).tolist(), abs=3e-4)
    totals = [parts[at] * np.delete(1 + parts, at).prod() / whole for at in range(8)]
    assert [each.value for each in of_g().total] == pytest.approx(totals, abs=3e-4)


def test_indices_agree_with_another_library_on_the_same_sample() -> None:
    chance = np.random.default_rng(3)
    one, other = chance.random((3, 1024)), chance.random((3, 1024))
    swapped = np.stack([np.where(np.arange(3)[:, None] == at, other, one) for at in range(3)])
    asked = {"f_A": ishigami(one), "f_B": ishigami(other), "f_AB": np.stack([ishigami(each) for each in swapped])}
    theirs = sobol_indices(func=asked, n=1024)
    from pinfold.studies.weighing.sensitivity import _of_answer

    weights = np.full((3, 1024), 1 / 1024)
    ours = _of_answer(asked["f_A"][0], asked["f_B"][0], asked["f_AB"][:, 0], weights)
    assert [each.value for each in ours.first] == pytest.approx(theirs.first_order.ravel().tolist(), rel=0.02, abs=0.01)
    assert [each.value for each in ours.total] == pytest.approx(theirs.total_order.ravel().tolist(), rel=0.02, abs=0.01)


def test_the_confidence_holds_what_it_should_in_most_answers() -> None:
    found = indices_of(ishigami, 3, points=1024)[0]
    v13 = 0.1**2 * math.pi**8 * 8 / 225
    whole = (1 + 0.1 * math.pi**4 / 5) ** 2 / 2 + 49 / 8 + v13
    for share, true in zip(found.first, ((1 + 0.1 * math.pi**4 / 5) ** 2 / 2 / whole, 49 / 8 / whole, 0), strict=True):
        assert share.low - 0.02 <= true <= share.high + 0.02


def test_an_answer_that_does_not_vary_hangs_on_nothing() -> None:
    (found,) = indices_of(lambda chances: np.full((1, chances.shape[1]), 7.0), 2, points=64)
    assert all(share == (0, 0, 0) for share in (*found.first, *found.total))


def test_an_answer_that_is_a_sum_has_the_same_indices_alone_and_in_all() -> None:
    (found,) = indices_of(lambda chances: (3 * chances[0] + 4 * chances[1])[None], 2)
    for first, total, true in zip(found.first, found.total, (9 / 25, 16 / 25), strict=True):
        assert first.value == pytest.approx(true, abs=0.01)
        assert total.value == pytest.approx(true, abs=0.01)
