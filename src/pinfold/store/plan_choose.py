"""Writing a chosen build-up into a plan: what was there stays beside it, and the file as it was in one of its own."""

from __future__ import annotations

import copy
import re
import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from pinfold.errors import NotFoundError, StoreError
from pinfold.plan.changes import Put
from pinfold.store import plan_edit
from pinfold.store.plan_put import text_with_puts, with_puts
from pinfold.store.writing import write_bytes

BEFORE = "plan-before.toml"
"""Where the plan goes that a choice was written over; undoing swaps the two."""
_LAST = re.compile(r"(?:^|; )before: .*$")
"""What an earlier choice said."""


def text_with_choice(text: str, puts: Sequence[Put]) -> str:
    """The text of a plan with a choice put in and its comments kept.

    A build-up of the plan that the choice changes is kept as one of another name; a side that gets another build-up
    says in a comment which it had last, behind its runs where it has several.

    Raises:
        InputError: the plan has no table of that name.
        StoreError: the file is written in a way that cannot be changed without losing something.
    """
    import tomlkit

    table = tomllib.loads(text)
    wanted = with_puts(table, puts)
    document = tomlkit.parse(text_with_puts(text, puts))
    for name in _changed_buildups(table, puts):
        kept = kept_name(table, name)
        for whole in (wanted, document):
            whole["buildup"][kept] = copy.deepcopy(table["buildup"][name])  # type: ignore[index]
    for name in dict.fromkeys(put.path[1] for put in puts if put.path[0] == "side"):
        _commented(_side(document, name), had=_buildups_of(_side(table, name)), has=_buildups_of(_side(wanted, name)))
    result = tomlkit.dumps(document)
    if tomllib.loads(result) != wanted:
        raise StoreError("this plan file is written in a way that cannot be changed here; change it by hand")
    return result


def _changed_buildups(table: Mapping[str, Any], puts: Sequence[Put]) -> tuple[str, ...]:
    """Build-ups of the plan of which a choice changes anything."""
    own = table.get("buildup", {})
    return tuple(dict.fromkeys(put.path[1] for put in puts if put.path[0] == "buildup" and put.path[1] in own))


def kept_name(table: Mapping[str, Any], name: str) -> str:
    """What the old build-up is called beside the new one: `name, before`, or numbered."""
    names = (f"{name}, before", *(f"{name}, before {number}" for number in range(2, 1000)))
    return next(each for each in names if each not in table["buildup"])


def _side(table: Mapping[str, Any], name: str) -> Mapping[str, Any]:
    return next((side for side in table.get("side", ()) if side.get("name") == name), {})


def _buildups_of(side: Mapping[str, Any]) -> tuple[str, ...]:
    """The build-ups of a side, one after the other where it has runs."""
    return tuple(str(run["buildup"]) for run in side.get("runs", (side,)) if "buildup" in run)


def _commented(side: Any, *, had: tuple[str, ...], has: tuple[str, ...]) -> None:
    """A comment behind the build-up of a side, or behind its runs, that says what it had last."""
    if not had or had == has:
        return
    item = side.item("runs" if "runs" in side else "buildup")
    there = _LAST.sub("", item.trivia.comment.lstrip("# ").strip())
    item.comment(f"{there}; before: {', '.join(had)}" if there else f"before: {', '.join(had)}")


def write_choice(folder: Path, text: str) -> None:
    """Write a plan over the present one, which goes into a file of its own.

    Args:
        folder: site folder
        text: of the plan, read as a plan and found good

    Raises:
        InvalidPlan: it does not read; nothing is written.
        StoreError: it cannot be written.
    """
    path = folder / "plan.toml"
    content = path.read_bytes()
    write_bytes(folder / BEFORE, content)
    plan_edit.save_edited(path, content, text)


def before_at(folder: Path) -> str:
    """The text of the plan that a choice was written over.

    Raises:
        NotFoundError: there is none.
        StoreError: it cannot be read.
    """
    path = folder / BEFORE
    if not path.exists():
        raise NotFoundError(f"nothing to undo: there is no {BEFORE} in the site folder")
    return plan_edit.read_edited(path)[1]
