"""How many batches of each mix and layer the log holds, kept count of as entries come in."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from pinfold.actions import log_following
from pinfold.actions.log_following import Following
from pinfold.logbook.entries import Entry
from pinfold.studies.batching.records import BatchCard


def batch_key(mix: str, layer: str) -> str:
    """What a batch is counted under."""
    return f"{mix}|{layer}"


class _Counts:
    """The batches that stand, by key."""

    def __init__(self) -> None:
        self._held: dict[str, tuple[str, int]] = {}
        self._counts: Counter[str] = Counter()

    def put(self, entry: Entry) -> None:
        if entry.kind == "batch":
            made = int(entry.number("batches") or 1)
            key = batch_key(entry.text("mix"), entry.text("layer"))
            self._held[entry.id] = (key, made)
            self._counts[key] += made

    def drop(self, name: str) -> None:
        key, number = self._held.pop(name, ("", 0))
        self._counts[key] -= number

    def found(self) -> Mapping[str, int]:
        return {key: number for key, number in self._counts.items() if number}


@lru_cache(maxsize=4)
def _tally_of(folder: Path) -> Following[Mapping[str, int]]:
    from pinfold.actions.taking import log_of

    return Following(log_of(folder), _Counts)


def batches_logged(folder: Path) -> Mapping[str, int] | None:
    """Batches that stand, by `batch_key`; None while a long log is still being counted.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    return _tally_of(folder.absolute()).asked(log_following.PATIENCE_S)


def logged_of(card: BatchCard, tally: Mapping[str, int] | None, *, sole: bool) -> int | None:
    """Batches of a card in a tally; None while they are still being counted.

    Args:
        card: of a mix and a layer
        tally: as `batches_logged` gives it
        sole: whether the mix has no other card, so that batches that name no layer are of this one
    """
    if tally is None:
        return None
    unnamed = tally.get(batch_key(card.mix.name, ""), 0) if sole else 0
    return tally.get(batch_key(card.mix.name, card.layer), 0) + unnamed
