"""Trial sheets for the binder: what to try next, with blanks for how it comes out."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.logbook.kinds import Sort, entry_kind
from pinfold.reports.mix_trials import NEXT, WHY, TrialLink, code_of, proposed
from pinfold.reports.pages import Block, Heading, Table, table
from pinfold.studies.trials.records import TrialsTold
from pinfold.units import System


def trial_sheets(told: TrialsTold, links: Sequence[TrialLink], system: System) -> list[Block]:
    """For the binder: each next trial with blanks for how it comes out."""
    blocks: list[Block] = []
    for number, (trial, link) in enumerate(zip(told.next, links, strict=True), start=1):
        _, *rest = proposed(number, trial, told, system)
        blocks += [Heading(text=f"Trial of {told.mix.name}: {NEXT} {number}, {WHY[trial.why]}"), *rest, _blanks()]
        blocks.append(code_of(link, number))
    return blocks


def _blanks() -> Table:
    """What is to be filled in by hand, made from the fields of the log."""
    rows = [
        (field.says, "   ".join(field.choices) if field.choices else "______________")
        for field in entry_kind("trial").fields if field.sort not in (Sort.MIX, Sort.AMOUNTS)
    ]  # fmt: skip
    return table(("how it came out", "underline or write"), [("day", "______________"), *rows], wide=1)
