"""Turning what is missing or out of range into NOT SHOWN, and picking the finding that says most."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Finding, urgency


@dataclass(frozen=True, kw_only=True)
class Question:
    """What is asked of what.

    Attributes:
        check: the check's word.
        subject: what is checked.
        left_out: what the check does not look at.
        caution: the usual warning.
    """

    check: str
    subject: str
    left_out: str = ""
    caution: str = ""


def tried(find: Callable[[], Finding]) -> Finding:
    """The finding, or NOT SHOWN with what is missing; every other error goes through."""
    try:
        return find()
    except NotFoundError as missing:
        return Finding(check="", subject="", because=str(missing))
    except OutOfRangeError as outside:
        return Finding(check="", subject="", because=in_words(outside))


_NUMBERED = re.compile(r"(.+?)(?: in \S+(?: \S+)?)? is \S+; the method wants it .*")


def in_words(outside: OutOfRangeError) -> str:
    """What is out of range without its number, which stands in SI whatever units the plan is shown in."""
    found = _NUMBERED.fullmatch(str(outside))
    return f"{found[1]} is outside what the method covers" if found else str(outside)


def answered(question: Question, find: Callable[[], Finding]) -> Finding:
    """The finding on a question, under the check it names itself if any; or NOT SHOWN with what is missing."""
    found = tried(find)
    return replace(
        found, check=found.check or question.check, subject=question.subject,
        left_out=found.left_out or question.left_out, caution=found.caution or question.caution,
    )  # fmt: skip


def governing(findings: Iterable[Finding]) -> Finding:
    """The finding to heed first among several of one check."""
    return min(findings, key=urgency)


def told(*parts: str) -> str:
    """Sentences in one line, the empty ones left out, none twice."""
    return "; ".join(dict.fromkeys(part for part in parts if part))
