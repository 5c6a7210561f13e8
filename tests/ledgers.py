"""Entries of money and hours for tests of the ledger, and a small plan to share them out over."""

from __future__ import annotations

from pinfold.logbook.entries import entry_of
from pinfold.studies.ledger.running import RunningLedger
from pinfold.studies.ledger.sharing import Cell, Uses

USES = Uses(
    by_item={
        "portland-cement": {Cell("footing", "south/1"): 3.0, Cell("mortar", "south/1"): 1.0, Cell("mortar", "east/1"): 2},
        "sand": {Cell("mortar", "south/1"): 5.0, Cell("mortar", "east/1"): 5.0},
    },
    by_layer={"footing": ("south/1",), "mortar": ("south/1", "east/1")},
    runs={"south": ("south/1",), "south/1": ("south/1",), "east/1": ("east/1",), "gate": ("east/1",)},
    lengths={"south/1": 12.0, "east/1": 8.0},
    length=20.0,
)  # fmt: skip


def entry(number, kind="purchase", *, day="2026-05-03", corrects="", **fields):
    """An entry with a number for an id; a purchase is of a bag of cement unless told."""
    usual = {"purchase": {"item": "portland-cement", "packs": "1", "cost": "10.00"},
             "leftover": {"item": "portland-cement", "packs": "1"}, "hours": {"time": "1 h"},
             "pile": {"way": "in", "item": "brick"}, "withdrawn": {}}[kind]  # fmt: skip
    raw = {"id": f"entry-{number:05}", "kind": kind, "at": f"{day}T14:20+02:00", "who": "ana", "device": "pc"}
    made = entry_of({**raw, "corrects": corrects, "fields": {**usual, **fields}})
    return type(made)(**{**vars(made), "seq": number})


def books(*entries, currency="EUR"):
    """What some entries come to, all of them standing."""
    running = RunningLedger(currency, 2)
    for each in entries:
        running.put(each)
    return running.found()
