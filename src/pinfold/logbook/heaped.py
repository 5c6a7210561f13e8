"""What goes onto the pile: fields that are each good and do not go together."""

from __future__ import annotations

from collections.abc import Mapping

from pinfold.errors import InputError
from pinfold.plan.flaws import flaws_of


def heaped_wrongs(values: Mapping[str, object]) -> list[InputError]:
    """Complaints about an entry of the pile: flaws that cannot be read, or that are no zones of their piece."""
    flaws, length = values.get("flaws"), values.get("length")
    if not isinstance(flaws, str):
        return []
    if not isinstance(length, float):
        return [InputError("says nothing alone; length (length of each) is wanted with it", place="flaws")]
    try:
        flaws_of(flaws, length=length)
    except InputError as mistake:
        return [InputError(mistake.message, place="flaws")]
    return []
