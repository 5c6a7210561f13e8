"""A formula as a form made from its contract: a line for each figure, with what was typed and what is wrong with it."""

from __future__ import annotations

import inspect
from collections.abc import Mapping
from dataclasses import dataclass

from pinfold.actions.formulas import ask_formula
from pinfold.errors import InvalidPlan, OutOfRangeError
from pinfold.findings import Step
from pinfold.formulas import catalog
from pinfold.formulas.contract import Argument, Contract
from pinfold.reports.formula_pages import formula_page
from pinfold.reports.html import blocks_html
from pinfold.reports.html_findings import equation_html
from pinfold.reports.working import result_shown, shown
from pinfold.units import System

_EXAMPLES = {
    "m": "1.2 m or 4 ft", "m2": "12 m2 or 130 ft2", "m3": "60 L or 2 ft3", "kg": "40 kg or 94 lb",
    "Pa": "20 MPa or 3000 psi",
    "kg/m3": "2200 kg/m3 or 140 lb/ft3", "N": "2 kN or 450 lbf", "m/s": "40 m/s or 90 mph", "°C": "20 °C or 68 °F",
    "s": "30 min", "rad": "30 deg",
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class FormulaField:
    """One figure to put in.

    Attributes:
        key: name of the argument.
        label: the same as words.
        says: its meaning.
        unit: symbol of its unit in SI; empty for a plain number or a choice.
        choices: words it may be; empty for a quantity.
        needed: whether the formula asks for it.
        example: how it may be written.
        default: what is taken when it is left empty.
        value: as typed.
        wrong: what is wrong with it; empty when nothing is.
    """

    key: str
    label: str
    says: str
    unit: str
    choices: tuple[str, ...]
    needed: bool
    example: str
    default: str
    value: str
    wrong: str


@dataclass(frozen=True, kw_only=True)
class FormulaForm:
    """A formula, what was put in, and what it gave.

    Attributes:
        name: of the formula.
        says: what it gives.
        equation: as HTML, may be empty.
        fields: in order.
        asked: whether anything was put in.
        results: what it gave, in metric and in US units where they differ; empty when it gave nothing.
        wrong: why the formula as a whole refused; empty when it did not.
        about: range, notes and sources as HTML.
    """

    name: str
    says: str
    equation: str
    fields: tuple[FormulaField, ...]
    asked: bool
    results: tuple[str, ...]
    wrong: str
    about: str


def formula_form(name: str, given: Mapping[str, str]) -> FormulaForm:
    """A formula with what was typed; complaints stand in the form, for it is shown again.

    Args:
        name: of the formula
        given: text by name of the argument; empty texts are not given

    Raises:
        NotFoundError: no such formula.
    """
    contract = catalog.contract_named(name)
    figures = [f"{key}={text}" for key, text in given.items() if text.strip()]
    step, complaints, wrong = None, dict[str, str](), ""
    try:
        step = ask_formula(contract.name, figures).step
    except InvalidPlan as refused:
        known = {argument.name for argument in contract.arguments}
        complaints = {problem.place: problem.message for problem in refused.problems if problem.place in known}
        wrong = " ".join(str(problem) for problem in refused.problems if problem.place not in known)
    except OutOfRangeError as refused:
        wrong = str(refused)
    told = formula_page(contract, None).blocks
    return FormulaForm(
        name=contract.name,
        says=contract.says,
        equation=equation_html(contract.equation),
        fields=tuple(_field(argument, given, complaints) for argument in contract.arguments),
        asked=bool(figures),
        results=_results(step, contract),
        wrong=wrong,
        about="\n".join(blocks_html(told[3 if contract.equation else 2 :], System.METRIC)),
    )


def _results(step: Step | None, contract: Contract) -> tuple[str, ...]:
    if step is None:
        return ()
    return tuple(dict.fromkeys(result_shown(step.result, contract, system) for system in (System.METRIC, System.US)))


def _field(argument: Argument, given: Mapping[str, str], complaints: Mapping[str, str]) -> FormulaField:
    needed = argument.default is inspect.Parameter.empty
    unit = "" if argument.printed_unit == "-" else argument.printed_unit
    optional = not needed and argument.default is not None
    return FormulaField(
        key=argument.name,
        label=argument.name.removesuffix("_c").replace("_", " "),
        says=argument.meaning,
        unit=unit,
        choices=argument.choices,
        needed=needed,
        example=_EXAMPLES.get(unit, f"a number with {unit}" if unit else "a plain number, such as 0.6"),
        default=shown(argument.default, argument.unit, System.METRIC) if optional else "",
        value=given.get(argument.name, ""),
        wrong=complaints.get(argument.name, ""),
    )
