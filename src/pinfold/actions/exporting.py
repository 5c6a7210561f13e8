"""Files to take away: the plan as it stands, and what there is besides."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pinfold.errors import NotFoundError
from pinfold.store import pile, planfile, prices
from pinfold.store.writing import read_text

TEXTS = (planfile.NAME, prices.NAME, pile.NAME)
"""Files of a site folder that may be read through a page, by name."""


@dataclass(frozen=True, kw_only=True)
class SiteText:
    """A text file of the site folder.

    Attributes:
        name: of the file.
        text: all of it.
    """

    name: str
    text: str


def site_text(folder: Path, name: str) -> SiteText:
    """One of the text files of a site folder, whether or not it makes a good plan.

    Raises:
        NotFoundError: none of that name.
        StoreError: it cannot be read.
    """
    if name not in TEXTS:
        raise NotFoundError(f"there is no such file; there are {', '.join(TEXTS)}")
    return SiteText(name=name, text=read_text(folder / name))


def log_text(folder: Path) -> str:
    """All entries of the log as CSV text, corrections as rows of their own.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    from pinfold.store.log import open_log
    from pinfold.store.log_csv import csv_of

    with open_log(folder) as log:
        return csv_of(log.entries(newest_first=False))


def has_log(folder: Path) -> bool:
    """Whether anything was ever logged."""
    from pinfold.store.log_file import NAME

    return (folder / NAME).is_file()


def texts_there(folder: Path) -> tuple[str, ...]:
    """Which of the text files are there."""
    return tuple(name for name in TEXTS if (folder / name).is_file())
