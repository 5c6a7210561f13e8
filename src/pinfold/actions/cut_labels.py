"""Labels for all that is cut on a site."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.cut_flat import rolls_of, sheets_of
from pinfold.actions.cut_pieces import CutAsked, cut_so_far, parts_by_mark, pieces_of
from pinfold.actions.sites import Site, open_site
from pinfold.reports.cut_labels import HOW, SHEETS, label_sheets, labels_page
from pinfold.studies.parts.labels import Label, flat_labels_of, labels_of

SHOWN = 10
"""Sheets of labels on one page."""


@dataclass(frozen=True, kw_only=True)
class LabelsAnswer:
    """All labels.

    Attributes:
        labels: in the order things are cut.
        sheets: of paper that they take.
    """

    labels: tuple[Label, ...]
    sheets: int


def labels_site(folder: Path, *, each: bool = False) -> Answer:
    """All labels as a list.

    Args:
        folder: of the site
        each: whether parts of large bundles get one each

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    labels = labels_for(site, each=each)
    record = LabelsAnswer(labels=labels, sheets=-(-len(labels) // SHEETS[site.plan.paper.value].many))
    return answer_from(site, record, labels_page(site.plan.name, labels, record.sheets, site.plan.units))


def labels_for(site: Site, *, each: bool) -> tuple[Label, ...]:
    """All labels of a site: of lengths, then of sheets, then of rolls."""
    by_mark, cut = parts_by_mark(site), cut_so_far(site).cut
    return (
        *labels_of(pieces_of(site, CutAsked()), by_mark, each=each, cut=cut),
        *flat_labels_of(sheets_of(site), by_mark, each=each, cut=cut),
        *flat_labels_of(rolls_of(site), by_mark, each=each),
    )


@dataclass(frozen=True, kw_only=True)
class LabelsShown:
    """What a page shows.

    Attributes:
        name: of the plot.
        sheets: an SVG each.
        first: number of the first of them, from 1.
        whole: how many sheets there are in all.
        labels: how many labels there are in all.
        each: whether parts of large bundles have one each.
        how: how they are used.
    """

    name: str
    sheets: tuple[str, ...]
    first: int
    whole: int
    labels: int
    each: bool
    how: str = HOW

    @property
    def later(self) -> int:
        """The first sheet of the next page; 0 where there is none."""
        after = self.first + SHOWN
        return after if after <= self.whole else 0


def labels_shown(folder: Path, *, each: bool, first: int) -> LabelsShown:
    """Some sheets of labels, from one on; raises as `labels_site`."""
    site = open_site(folder)
    labels, paper = labels_for(site, each=each), site.plan.paper.value
    many = SHEETS[paper].many
    whole = -(-len(labels) // many)
    first = min(max(first, 1), max(whole, 1))
    sheets = islice(label_sheets(labels[(first - 1) * many :], paper, site.plan.units), SHOWN)
    return LabelsShown(
        name=site.plan.name, sheets=tuple(sheets), first=first, whole=whole, labels=len(labels), each=each
    )
