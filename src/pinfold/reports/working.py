"""Lines of working as text: the equation, the figures put in, the result, the source and its standing."""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass

from pinfold.findings import Step
from pinfold.formulas.catalog import contract_named
from pinfold.formulas.contract import Contract
from pinfold.sources import Standing, publication
from pinfold.units import METER, System, Unit, show


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line of working, ready to print.

    Attributes:
        name: of the formula, as `pinfold formula` takes it.
        says: what the formula gives.
        equation: in plain symbols, may be empty.
        put_in: `wall height = 1.2 m` and so on, one per figure.
        gives: the result with its unit; several parts apart by commas.
        source: titles of the publications with their standing.
        keys: the same, by the keys of the publications.
        why: what the line is for, may be empty.
    """

    name: str
    says: str
    equation: str
    put_in: tuple[str, ...]
    gives: str
    source: str
    keys: str
    why: str


def line_of(step: Step, system: System) -> Line:
    """One step of working in the plan's units."""
    contract = contract_named(step.formula)
    units = {argument.name: argument.unit for argument in contract.arguments}
    return Line(
        name=contract.name,
        says=contract.says,
        equation=contract.equation,
        put_in=tuple(f"{_spoken(name)} = {shown(value, units.get(name), system)}" for name, value in step.inputs),
        gives=result_shown(step.result, contract, system),
        source=source_shown(contract),
        keys=", ".join(f"{key} ({standing})" for key, standing in pairs_of(contract)),
        why=step.why,
    )


def result_shown(result: object, contract: Contract, system: System) -> str:
    """What a formula gave, with units; the parts of a record by name."""
    if is_dataclass(result) and not isinstance(result, type):
        units = dict(contract.result)
        parts = [(field.name, getattr(result, field.name)) for field in fields(result)]
        return ", ".join(f"{_spoken(name)} {shown(value, units[name], system)}" for name, value in parts)
    return shown(result, contract.result[0][1], system)


THIN = 0.0254
"""Lengths below this are shown by decimals in the working: a tape's sixteenths would not give the result again."""


def shown(value: object, unit: Unit | None, system: System) -> str:
    """One value with its unit, words as they are."""
    if unit is not None and isinstance(value, int | float) and not isinstance(value, bool):
        thin = unit.kind == METER.kind and 0 < abs(value) < THIN
        return show(float(value), unit, system, in_unit=("in" if system is System.US else "mm") if thin else "")
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(getattr(value, "value", value))


def source_shown(contract: Contract) -> str:
    """Publications of a formula with their standing."""
    return "; ".join(f"{publication(key).title} ({standing})" for key, standing in pairs_of(contract))


def keys_of(step: Step) -> tuple[str, ...]:
    """Keys of the publications behind one step."""
    return contract_named(step.formula).sources


def pairs_of(contract: Contract) -> tuple[tuple[str, Standing], ...]:
    """Key and standing of every publication a formula names; a publication without its own takes the last one given."""
    padded = (*contract.standings, *contract.standings[-1:] * len(contract.sources))
    return tuple(dict.fromkeys(zip(contract.sources, padded, strict=False)))


def _spoken(name: str) -> str:
    return name.removesuffix("_c").replace("_", " ")
