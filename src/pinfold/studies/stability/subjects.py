"""What a finding speaks of: the stretches, posts and gates named in its subject, and whose build-up they are."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from pinfold.findings import Finding
from pinfold.studies.layout.records import Layout, Post, Stretch

_POSTS = re.compile(r"\bP(\d+)(?:–P(\d+))?\b")


class Owner(NamedTuple):
    """What of the plan decides over a finding: a build-up or a gate.

    Attributes:
        table: `buildup` or `gate`, as the plan file has it.
        name: of it.
    """

    table: str
    name: str


def gates_in(finding: Finding, layout: Layout) -> tuple[str, ...]:
    """Names of the gates a finding speaks of."""
    return tuple(name for name in layout.gates if finding.subject.partition(",")[0] == f"gate {name}")


def stretches_in(finding: Finding, layout: Layout) -> tuple[Stretch, ...]:
    """The stretches a finding speaks of."""
    subject = finding.subject
    return tuple(one for one in layout.stretches if f"{one.name}," in f"{subject}," and one.name in subject)


def posts_in(finding: Finding, layout: Layout) -> tuple[Post, ...]:
    """The posts a finding speaks of, one by one or as `P5–P9`."""
    found = _POSTS.findall(finding.subject)
    numbers = {number for first, last in found for number in range(int(first), int(last or first) + 1)}
    return tuple(post for post in layout.posts if int(post.name[1:]) in numbers) if numbers else ()


def sides_in(finding: Finding, layout: Layout) -> tuple[str, ...]:
    """Names of the sides a finding speaks of."""
    found = [one.side for one in stretches_in(finding, layout)]
    found += [layout.gates[name].gate.side for name in gates_in(finding, layout)]
    found += [post.side for post in posts_in(finding, layout)]
    return tuple(dict.fromkeys(found))


def owners_of(finding: Finding, layout: Layout) -> tuple[Owner, ...]:
    """The build-ups and gates whose figures decide a finding."""
    return tuple(dict.fromkeys(_owners(finding, layout)))


def _owners(finding: Finding, layout: Layout) -> Iterator[Owner]:
    gates = gates_in(finding, layout)
    if gates:
        yield from (Owner("gate", name) for name in gates)
        return
    yield from (Owner("buildup", one.buildup.name) for one in stretches_in(finding, layout))
    posts = posts_in(finding, layout)
    if posts:
        names = {stretch.run: stretch.buildup.name for stretch in layout.stretches}
        yield from (
            Owner("gate", post.gate) if post.gate else Owner("buildup", names[post.run])
            for post in posts if post.gate or post.run in names
        )  # fmt: skip
