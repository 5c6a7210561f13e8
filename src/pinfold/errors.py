"""The error tree: everything pinfold stops for, with the exit status a door gives.

    PinfoldError
    ├─ InputError (ValueError)          2   one thing somebody typed, with its place
    │  └─ QuantityError                 2   text that is no quantity of the wanted kind
    ├─ InvalidPlan (ValueError)         2   all complaints about one file or form at once
    ├─ NotFoundError (LookupError)      2   no such run, formula, sample, file
    ├─ StoreError (OSError)             3   cannot be read or written: locked, full, damaged
    │  └─ NewerFileError                3   written by a later pinfold
    ├─ OutOfRangeError (ValueError)     4   a published method asked outside its range
    └─ NoSolutionError                  4   a search ended without an answer

An error stops the work; a finding (see findings.py) is the work's answer. A wall that would fall is never an error.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar


class PinfoldError(Exception):
    """Root of all that pinfold raises on purpose; the message is written for the builder."""

    code: ClassVar[str] = "pinfold"
    exit_status: ClassVar[int] = 1
    http_status: ClassVar[int] = 500


class InputError(PinfoldError, ValueError):
    """One thing somebody typed that cannot be used.

    Attributes:
        place: where it stands, such as `side.south.runs[1].buildup` or `prices.toml line 4`; empty when unknown.
        message: what was found, what was wanted and how to mend it.
    """

    code = "input"
    exit_status = 2
    http_status = 400

    def __init__(self, message: str, *, place: str = "") -> None:
        super().__init__(f"{place}: {message}" if place else message)
        self.message = message
        self.place = place


class QuantityError(InputError):
    """Text that is no quantity of the wanted kind."""

    code = "quantity"


class InvalidPlan(PinfoldError, ValueError):  # noqa: N818 - the builder's word for it
    """A file or form with complaints, all of them at once, each with its place.

    Attributes:
        problems: every complaint, in the order of the file.
    """

    code = "invalid-plan"
    exit_status = 2
    http_status = 400

    def __init__(self, name: str, problems: Iterable[InputError]) -> None:
        self.problems = tuple(problems)
        count = len(self.problems)
        head = f"{name} has {count} complaint{'s' if count != 1 else ''}"
        super().__init__("\n".join([f"{head}:", *(f"  {problem}" for problem in self.problems)]))


class NotFoundError(PinfoldError, LookupError):
    """Something asked for by name that is not there; the message says what there is."""

    code = "not-found"
    exit_status = 2
    http_status = 404


class StoreError(PinfoldError, OSError):
    """A file or folder that cannot be read or written: missing rights, full disk, damaged."""

    code = "store"
    exit_status = 3
    http_status = 409


class NewerFileError(StoreError):
    """A file written by a later pinfold than this one."""

    code = "newer-file"


class OutOfRangeError(PinfoldError, ValueError):
    """A published method asked outside the range its source gives."""

    code = "out-of-range"
    exit_status = 4
    http_status = 422


class NoSolutionError(PinfoldError):
    """A search that ended without an answer; the message says which limit stopped it."""

    code = "no-solution"
    exit_status = 4
    http_status = 422
