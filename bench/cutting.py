"""Lengths cut out of mixed stock, beside first fit and beside a plain arc-flow model in the same solver.

Runs on the instances that lie beside the project: public ones of one length with known optima, and yard-like ones with
old pieces, defects, raw ends and prices. Seconds are of the processor, as the machine is shared.
"""

from __future__ import annotations

import itertools
import json
import statistics
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array, csc_array

from pinfold.studies.cutting.asking import Reading, asked
from pinfold.studies.cutting.guessing import first_fit
from pinfold.studies.cutting.packing import Packing, Room, money
from pinfold.studies.cutting.records import CutOrder, Defect, PartWanted, Stock, Trim
from pinfold.studies.cutting.sheet_records import SheetOrder, SheetPart, SheetStock
from pinfold.studies.cutting.sheets import cut_sheets
from pinfold.studies.cutting.solving import solved
from pinfold.studies.cutting.watching import watch

BESIDE = Path(__file__).parents[2] / "shared" / "reference" / "cutting"
LIMIT = 120.0
"""Seconds by the clock; on a shared machine a fraction of them is of the processor."""
ARC_LIMIT = 30.0
EVERY = 8


class Run(NamedTuple):
    """One instance cut."""

    money: int
    bound: int
    seconds: float

    @property
    def proven(self) -> bool:
        return self.bound >= self.money


def public() -> list[tuple[Packing, int | None]]:
    """Each public instance with its known optimum."""
    found = []
    for line in (BESIDE / "one_length.jsonl").read_text(encoding="utf-8").splitlines():
        each = json.loads(line)
        items = sorted(each["items"], reverse=True)
        room = Room((each["capacity"],), 1, each["n"], endless=True, new=each["capacity"])
        needs, counts = (np.array(column) for column in zip(*items, strict=True))
        found.append((Packing(needs=needs, counts=counts, rooms=(room,)), each["ub"]))
    return found


def yard() -> list[Packing]:
    """Each yard-like case."""
    found = []
    for line in (BESIDE / "yard.jsonl").read_text(encoding="utf-8").splitlines():
        case = json.loads(line)
        parts = [PartWanted(mark=str(length), length=length, count=count) for length, count in case["parts"]]
        old = [Stock(mark=f"P{number}", length=each["length"], trim=Trim(*each["trim"]),
                     defects=tuple(Defect(*defect) for defect in each["defects"]))
               for number, each in enumerate(case["pieces"])]  # fmt: skip
        new = [Stock(mark=f"N{number}", length=each["length"], count=None, price=each["price"], old=False)
               for number, each in enumerate(case["new_stock"])]  # fmt: skip
        order = CutOrder(parts=tuple(parts), stock=(*old, *new), kerf=case["kerf"], keep=case["keep_min"])
        question = asked(order, Reading())
        assert question is not None
        found.append(question.packing)
    return found


def ours(packing: Packing) -> Run:
    start = time.process_time()
    best = solved(packing, watch(LIMIT))
    return Run(best.money, best.bound, time.process_time() - start)


def arc_flow(packing: Packing) -> Run:
    """Every part an arc between two places on a length, every piece a path through them; solved as it stands."""
    start = time.process_time()
    body, low, high = _flows(packing)
    rooms = len(packing.rooms)
    others = body.shape[1] - rooms
    most = np.concatenate([np.full(others, np.inf), [room.most for room in packing.rooms]])
    costs = np.concatenate([np.zeros(others), [room.price for room in packing.rooms]])
    answer = milp(costs, constraints=LinearConstraint(body, low, high), bounds=Bounds(0, most),
                  integrality=np.ones(len(costs)), options={"time_limit": ARC_LIMIT, "mip_rel_gap": 0})  # fmt: skip
    took = time.process_time() - start
    if answer.x is None:
        return Run(sys.maxsize, 0, took)
    return Run(round(answer.fun), round(answer.fun) if answer.status == 0 else int(answer.mip_dual_bound), took)


def _flows(packing: Packing) -> tuple[csc_array, np.ndarray, np.ndarray]:
    """Columns: arcs of parts and of loss, clear lengths, pieces. Rows: places, parts wanted, clear lengths."""
    places = _places(packing)
    arcs, kinds = _arcs(packing, places)
    loss = list(itertools.pairwise(places))
    row = {place: at for at, place in enumerate(places)}
    wanted, there = len(places), len(places) + len(packing.needs)
    first, bays = len(arcs) + len(loss), len(packing.bays)
    entries = [(wanted + kind, column, 1.0) for column, kind in enumerate(kinds)]
    for column, (tail, head) in enumerate([*arcs, *loss]):
        entries += [(row[tail], column, -1.0), (row[head], column, 1.0)]
    for number, bay in enumerate(packing.bays):
        end = max(place for place in places if place <= bay.size)
        entries += [(0, first + number, 1.0), (row[end], first + number, -1.0), (there + number, first + number, -1.0),
                    (there + number, first + bays + bay.room, float(bay.times))]  # fmt: skip
    at, columns, values = zip(*entries, strict=True)
    shape = (there + bays, first + bays + len(packing.rooms))
    low = np.concatenate([np.zeros(wanted), packing.counts, np.zeros(bays)])
    high = np.concatenate([np.zeros(wanted), np.full(len(packing.needs) + bays, np.inf)])
    return coo_array((values, (at, columns)), shape=shape).tocsc(), low, high


def _places(packing: Packing) -> list[int]:
    """Every length that parts laid side by side come to, longest parts first."""
    reach = 1
    mask = (1 << packing.top + 1) - 1
    for need, count in zip(packing.needs.tolist(), packing.counts.tolist(), strict=True):
        for _ in range(min(count, packing.top // need)):
            reach |= reach << need & mask
    return [place for place in range(packing.top + 1) if reach >> place & 1]


def _arcs(packing: Packing, places: Sequence[int]) -> tuple[list[tuple[int, int]], list[int]]:
    """Arcs of all kinds, the longest parts nearest the start of each path."""
    begun: set[int] = {0}
    arcs, kinds = [], []
    for kind, (need, count) in enumerate(zip(packing.needs.tolist(), packing.counts.tolist(), strict=True)):
        heads, front = set(begun), set(begun)
        for _ in range(min(count, packing.top // need)):
            tails = {place for place in front if place + need <= packing.top}
            arcs += [(place, place + need) for place in sorted(tails)]
            kinds += [kind] * len(tails)
            front = {place + need for place in tails} - heads
            heads |= front
        begun = heads
    once = dict.fromkeys(zip(arcs, kinds, strict=True))
    return [arc for arc, _ in once], [kind for _, kind in once]


def _told(what: str, runs: Sequence[Run]) -> str:
    seconds = [run.seconds for run in runs]
    proven = f"{sum(run.proven for run in runs)} of {len(runs)} proven"
    return f"{what}{proven}, median {statistics.median(seconds):.2f} s, worst {max(seconds):.1f} s"


def _compared(packings: Sequence[Packing], mine: Sequence[Run]) -> str:
    theirs = [_shown("arc flow", number, arc_flow, packing) for number, packing in enumerate(packings[::EVERY])]
    same = list(mine[::EVERY])
    ratio = statistics.median(run.seconds for run in theirs) / max(statistics.median(run.seconds for run in same), 1e-3)
    return f"{_told(f'arc flow on every {EVERY}th: ', theirs)}; {ratio:.0f} × ours there"


def _shown(what: str, number: int, way: Callable[[Packing], Run], packing: Packing) -> Run:
    run = way(packing)
    if not run.proven or run.seconds > 10:
        print(f"{what} {number}: {run.money}, bound {run.bound}, {run.seconds:.1f} s", file=sys.stderr, flush=True)
    return run


def sheet_orders() -> list[SheetOrder]:
    """Each sheet case, in millimeters."""
    found = []
    for line in (BESIDE / "yard_sheets.jsonl").read_text(encoding="utf-8").splitlines():
        case = json.loads(line)
        parts = tuple(SheetPart(mark=f"S{number}", wide=wide, high=high, count=count, turns=case["rotate"])
                      for number, (wide, high, count) in enumerate(case["parts"], 1))  # fmt: skip
        old = tuple(SheetStock(mark=f"P{number}", wide=wide, high=high, count=1)
                    for number, (wide, high) in enumerate(case["pieces"], 1))  # fmt: skip
        new = tuple(SheetStock(mark=f"N{number}", wide=each["w"], high=each["l"], count=None, price=each["price"],
                               old=False) for number, each in enumerate(case["new_stock"], 1))  # fmt: skip
        found.append(SheetOrder(parts=parts, stock=(*old, *new), kerf=case["kerf"], keep=200))
    return found


def sheet_row() -> tuple[str, str, str, str]:
    """Sheets by cuts from edge to edge."""
    gaps, seconds = [], []
    for order in sheet_orders():
        begun = time.process_time()
        plan = cut_sheets(order)
        seconds.append(time.process_time() - begun)
        gaps.append((plan.money - plan.bound) / max(plan.money, 1))
    told = f"{sum(gap <= 0 for gap in gaps)} of {len(gaps)} proven, worst gap {max(gaps):.0%}"
    times = f"median {statistics.median(seconds):.1f} s, worst {max(seconds):.1f} s"
    return (f"cutting: {len(gaps)} yard-like sheet cases", told, times, "proven, or the gap told")


def rows() -> list[tuple[str, str, str, str]]:
    """Three rows; none where the instances do not lie beside the project."""
    if not BESIDE.exists():
        return []
    instances, cases = public(), yard()
    lengths = [_shown("public", number, ours, packing) for number, (packing, _) in enumerate(instances)]
    pieces = [_shown("yard", number, ours, packing) for number, packing in enumerate(cases)]
    worse = [run.money - known for run, (_, known) in zip(lengths, instances, strict=True) if known is not None]
    gap = max(run.money - run.bound for run in lengths)
    plain = sum(money(packing, first_fit(packing)) for packing in cases)
    saved = 1 - sum(run.money for run in pieces) / plain
    return [
        (f"cutting: {len(lengths)} public instances of one length",
         f"{_told('', lengths)}; worst against the known optimum {max(worse):+d}, worst gap {gap}",
         _compared([packing for packing, _ in instances], lengths), "≥ 140 proven, ≤ 30 s or a gap of 1"),
        (f"cutting: {len(pieces)} yard-like cases, mixed pile, defects, prices",
         f"{_told('', pieces)}; {saved:.0%} saved against first fit",
         _compared(cases, pieces), "all proven, median ≤ 0.05 s, worst ≤ 2 s"),
        sheet_row(),
    ]  # fmt: skip


if __name__ == "__main__":
    for row in rows():
        print(" | ".join(row))
