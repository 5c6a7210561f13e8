"""What a purchase says: fields that are each good and do not go together."""

from __future__ import annotations

from collections.abc import Mapping

from pinfold.errors import InputError


def bought_wrongs(values: Mapping[str, object]) -> list[InputError]:
    """Complaints about an entry of something bought."""
    wrong = []
    tax, cost = values.get("tax"), values.get("cost")
    if isinstance(tax, int) and isinstance(cost, int) and tax > cost:
        wrong.append(InputError("is more than what was paid in all, which has it in it", place="tax"))
    if "rate" in values and "currency" not in values:
        wrong.append(InputError("says nothing alone; currency (which one was paid in) is wanted with it", place="rate"))
    return wrong
