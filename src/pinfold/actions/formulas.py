"""Asking for a single formula: the list of them, and one with figures put in."""

from __future__ import annotations

import inspect
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pinfold.actions.answers import Answer
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.findings import Step, work
from pinfold.formulas import catalog
from pinfold.formulas.contract import Argument, Contract, contract_of
from pinfold.reports.formula_pages import formula_page, list_page
from pinfold.units import System, read


@dataclass(frozen=True, kw_only=True)
class FormulaLine:
    """One formula in the list.

    Attributes:
        name: as `pinfold formula` takes it.
        says: what it gives.
        equation: in plain symbols, may be empty.
        arguments: names in order.
    """

    name: str
    says: str
    equation: str
    arguments: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class FormulaAnswer:
    """A formula with figures put in.

    Attributes:
        contract: what the formula promises.
        step: the figures put in and the result; None when it was only asked what it wants.
    """

    contract: Contract
    step: Step | None


def list_formulas(word: str = "") -> tuple[FormulaLine, ...]:
    """Every formula, or those whose name or first line holds a word."""
    lines = []
    for name, function in catalog.formulas().items():
        contract = contract_of(function)
        if word.lower() in f"{name} {contract.says}".lower():
            names = tuple(argument.name for argument in contract.arguments)
            lines.append(FormulaLine(name=name, says=contract.says, equation=contract.equation, arguments=names))
    return tuple(lines)


def ask_formula(name: str, figures: Sequence[str]) -> FormulaAnswer:
    """One formula with figures given as `key=value` texts; without any it tells what it wants.

    Raises:
        NotFoundError: no such formula.
        InvalidPlan: figures that are missing, unknown or unreadable, all at once.
        OutOfRangeError: figures outside the formula's published range.
    """
    contract = catalog.contract_named(name)
    if not figures and contract.arguments:
        return FormulaAnswer(contract=contract, step=None)
    values = _values(contract, _pairs(contract, figures))
    return FormulaAnswer(contract=contract, step=work(contract.function, why="", **values))


def _pairs(contract: Contract, figures: Sequence[str]) -> Mapping[str, str]:
    problems, pairs = [], {}
    known = {argument.name for argument in contract.arguments}
    for figure in figures:
        key, equals, value = figure.partition("=")
        key = key.strip().replace("-", "_")
        if not equals:
            problems.append(InputError(f"{figure!r} found; figures are written key=value, like {_example(contract)}"))
        elif key not in known:
            problems.append(InputError(f"no such figure; it takes {', '.join(sorted(known))}", place=key))
        elif key in pairs:
            problems.append(InputError("given twice", place=key))
        pairs[key] = value.strip()
    wanted = [a.name for a in contract.arguments if a.default is inspect.Parameter.empty and a.name not in pairs]
    problems += [InputError(f"is missing: {_meaning(contract, name)}", place=name) for name in wanted]
    if problems:
        raise InvalidPlan(f"formula {contract.name}", problems)
    return pairs


def _example(contract: Contract) -> str:
    first = contract.arguments[0]
    return f"{first.name}={first.choices[0] if first.choices else '1.2' + (first.printed_unit or '')}"


def _meaning(contract: Contract, name: str) -> str:
    argument = next(argument for argument in contract.arguments if argument.name == name)
    choices = f", one of {', '.join(argument.choices)}" if argument.choices else ""
    unit = f" [{argument.printed_unit}]" if argument.printed_unit not in {"", "-"} else ""
    return f"{argument.meaning}{choices}{unit}"


def _values(contract: Contract, pairs: Mapping[str, str]) -> dict[str, object]:
    problems: list[InputError] = []
    values: dict[str, object] = {}
    for argument in contract.arguments:
        if argument.name not in pairs:
            continue
        try:
            values[argument.name] = _value(argument, pairs[argument.name])
        except InputError as mistake:
            problems.append(InputError(mistake.message, place=argument.name))
    if problems:
        raise InvalidPlan(f"formula {contract.name}", problems)
    return values


def _value(argument: Argument, text: str) -> object:
    if argument.unit is not None:
        return read(text, like=argument.unit)
    if text not in argument.choices:
        raise InputError(f"{text!r} found; one of {', '.join(argument.choices)} is wanted")
    return text == "true" if argument.choices == ("true", "false") else text


def list_all(word: str) -> Answer:
    """The list of formulas, all or those that hold a word.

    Raises:
        NotFoundError: no formula holds it.
    """
    lines = list_formulas(word)
    if not lines:
        raise NotFoundError(f"no formula holds {word!r}; 'pinfold formula --list' shows all")
    return Answer(record=lines, page=list_page(lines), system=System.METRIC)


def ask(name: str, figures: Sequence[str]) -> Answer:
    """One formula with figures put in, or what it wants when none are given.

    Raises:
        NotFoundError, InvalidPlan, OutOfRangeError: as `ask_formula`.
    """
    answer = ask_formula(name, figures)
    record = {
        "formula": answer.contract.name,
        "says": answer.contract.says,
        "equation": answer.contract.equation,
        "arguments": [
            {"name": a.name, "unit": a.printed_unit, "choices": a.choices, "meaning": a.meaning}
            for a in answer.contract.arguments
        ],
        "inputs": dict(answer.step.inputs) if answer.step else None,
        "result": answer.step.result if answer.step else None,
        "result_units": {part or "result": unit.symbol for part, unit in answer.contract.result},
        "range": answer.contract.sections["Range"],
        "source": answer.contract.sections["Source"],
        "standing": [standing.value for standing in answer.contract.standings],
    }
    return Answer(record=record, page=formula_page(answer.contract, answer.step), system=System.METRIC)
