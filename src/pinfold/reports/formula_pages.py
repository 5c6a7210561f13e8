"""The formula list and a formula's working as pages."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from pinfold.findings import Step
from pinfold.formulas.contract import Contract
from pinfold.reports.pages import Block, Page, Paragraph, table
from pinfold.reports.working import result_shown, shown, source_shown
from pinfold.sources import publication
from pinfold.units import System


class Line(Protocol):
    """What a line of the list must know."""

    @property
    def name(self) -> str:
        """Full name."""

    @property
    def says(self) -> str:
        """What it gives."""


def list_page(lines: Sequence[Line]) -> Page:
    """All formulas in a table."""
    return Page(
        title=f"{len(lines)} formulas",
        blocks=(
            table(("formula", "gives"), [(line.name, line.says) for line in lines], wide=1),
            Paragraph(
                text="'pinfold formula NAME' tells what one wants; 'pinfold formula NAME key=value …' works it out."
            ),
        ),
    )


def formula_page(contract: Contract, step: Step | None) -> Page:
    """One formula: equation, figures put in, result, range, source."""
    blocks: list[Block] = [Paragraph(text=f"{contract.says}.")]
    if contract.equation:
        blocks.append(Paragraph(text=contract.equation))
    blocks.append(_inputs(contract, step))
    if step is not None:
        blocks.append(Paragraph(text=f"Result: {_both(step, contract)}"))
    told = [name for name in ("Range", "Notes") if contract.sections.get(name)]
    blocks += [Paragraph(text=f"{name}: {' '.join(contract.sections[name].split())}") for name in told]
    places = " ".join(contract.sections["Source"].split())
    blocks.append(Paragraph(text=f"Source: {source_shown(contract)}. {places}"))
    blocks += [Paragraph(text=f"{key} via {via}") for key in contract.sources if (via := publication(key).via)]
    return Page(title=contract.name, blocks=tuple(blocks))


def _inputs(contract: Contract, step: Step | None) -> Block:
    if step is None:
        rows = [(a.name, a.printed_unit or " | ".join(a.choices), a.meaning) for a in contract.arguments]
        return table(("figure", "unit or choice", "meaning"), rows, wide=2)
    given = dict(step.inputs)
    rows = []
    for argument in contract.arguments:
        if argument.name in given:
            value = given[argument.name]
            rows.append((argument.name, _two(value, argument.unit), argument.meaning))
    return table(("figure", "put in", "meaning"), rows, wide=2)


def _two(value: object, unit: object) -> str:
    metric, american = (shown(value, unit, system) for system in (System.METRIC, System.US))  # type: ignore[arg-type]
    return metric if metric == american else f"{metric} = {american}"


def _both(step: Step, contract: Contract) -> str:
    metric, american = (result_shown(step.result, contract, system) for system in (System.METRIC, System.US))
    return metric if metric == american else f"{metric}  =  {american}"
