"""Every public formula keeps the docstring contract, its example, and its units."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import re

import pytest

import empirical
from pinfold.formulas import catalog
from pinfold.formulas.contract import contract_of
from pinfold.sources import publications
from pinfold.units import SI_UNITS
from published import Printed
from scaling import misfit

FORMULAS = sorted(catalog.formulas().items())

EMPIRICAL: dict[str, str] = {
    name: reason
    for module in pkgutil.iter_modules(empirical.__path__)
    for name, reason in importlib.import_module(f"empirical.{module.name}").EMPIRICAL.items()
}
"""Formulas whose constants carry units, with the equation that carries them; each is checked by printed values."""


@pytest.mark.parametrize(("name", "formula"), FORMULAS, ids=[name for name, _ in FORMULAS])
def test_keeps_the_docstring_contract(name, formula):
    contract = contract_of(formula)

    for section in ("Args", "Returns", "Raises", "Range", "Source", "Example"):
        assert contract.sections.get(section), f"{name} has no {section} section"
    for parameter in inspect.signature(formula).parameters.values():
        assert parameter.kind is parameter.KEYWORD_ONLY, f"{name}: {parameter.name} must be keyword-only"
    for argument in contract.arguments:
        assert argument.unit is not None or argument.choices, f"{name}: {argument.name} has neither unit nor choices"
        wanted = argument.unit.symbol if argument.unit is not None else ""
        assert argument.printed_unit == wanted, f"{name}: {argument.name} prints [{argument.printed_unit}], is {wanted}"
    assert contract.sources, f"{name} names no publication"
    assert contract.standings, f"{name} names no standing"
    for key in contract.sources:
        assert key in publications(), f"{name}: {key} is not in publications.toml"
    assert contract.result[0][1] in SI_UNITS


@pytest.mark.parametrize(("name", "formula"), FORMULAS, ids=[name for name, _ in FORMULAS])
def test_the_example_gives_what_it_prints(name, formula):
    call, printed = example_of(formula)

    got = eval(call, vars(inspect.getmodule(formula)))

    if isinstance(got, float | int):
        assert Printed(printed, "", "").fits(got), (got, printed)
    else:
        wanted = eval(printed, vars(inspect.getmodule(formula)))
        for field in vars(got):
            assert getattr(got, field) == pytest.approx(getattr(wanted, field), rel=2e-3), field


@pytest.mark.parametrize(("name", "formula"), FORMULAS, ids=[name for name, _ in FORMULAS])
def test_units_hold_under_scaling(name, formula):
    call, _ = example_of(formula)
    inputs = inputs_of(call, formula)
    if name in EMPIRICAL:
        assert EMPIRICAL[name]
        assert misfit(formula, inputs) > 1e-9, f"{name} scales after all: take it off the empirical list"
        return

    assert misfit(formula, inputs) < 1e-9


def example_of(formula):
    text = contract_of(formula).sections["Example"]
    match = re.match(r">>> (.*?)\n(?!\.\.\.)(.+)", text.replace("\n...", ""), flags=re.DOTALL)
    assert match, f"{formula.__name__}: the example is no call and answer"
    return match[1], match[2].strip()


def inputs_of(call, formula):
    space = vars(inspect.getmodule(formula))
    tree = ast.parse(call, mode="eval").body
    assert isinstance(tree, ast.Call)
    return {word.arg: eval(ast.unparse(word.value), space) for word in tree.keywords}
