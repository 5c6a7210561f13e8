"""The linear program over the fills that are known; it grows, and each round starts where the last one ended."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

import highspy
import numpy as np
from highspy._core import _Highs
from numpy.typing import NDArray

from pinfold.studies.cutting.packing import Fill, Packing, Room

Real = NDArray[np.float64]


class Program(NamedTuple):
    """The program solved.

    Attributes:
        money: the least.
        shares: how much of each fill is used.
        pieces: how many of each room are used.
        worths: of one part of each kind.
        rents: of one clear length of each bay.
    """

    money: float
    shares: Real
    pieces: Real
    worths: Real
    rents: Real


class Master:
    """A column for each room and for each fill; a row for each kind of part and for each bay."""

    def __init__(self, packing: Packing, fills: Iterable[Fill]) -> None:
        """Starts with the rooms and some fills, which must be enough to cut all parts."""
        self.packing = packing
        self.fills: list[Fill] = []
        self._known: set[Fill] = set()
        self._solver = _Highs()  # the class made on it prints its name and version to the terminal
        for option, value in (("output_flag", False), ("presolve", "off"), ("solver", "simplex"), ("threads", 1)):
            self._solver.setOptionValue(option, value)
        kinds, bays = len(packing.needs), packing.bays
        for least in (*packing.counts.tolist(), *(0 for _ in bays)):
            self._solver.addRow(float(least), highspy.kHighsInf, 0, np.array([], dtype=np.int32), np.array([]))
        for index, room in enumerate(packing.rooms):
            rows = [(kinds + at, float(bay.times)) for at, bay in enumerate(bays) if bay.room == index]
            self._solver.addCol(
                float(room.price),
                float(room.least),
                float(room.most),
                len(rows),
                np.array([row for row, _ in rows], dtype=np.int32),
                np.array([many for _, many in rows]),
            )
        self.add(fills)

    def hold(self, rooms: Sequence[Room]) -> None:
        """Other numbers of pieces that may and must be bought."""
        count = len(rooms)
        self._solver.changeColsBounds(
            count,
            np.arange(count, dtype=np.int32),
            np.array([float(room.least) for room in rooms]),
            np.array([float(room.most) for room in rooms]),
        )

    def add(self, fills: Iterable[Fill]) -> bool:
        """Takes in fills; whether any of them is new."""
        new = [fill for fill in dict.fromkeys(fills) if fill not in self._known]
        if not new:
            return False
        kinds = len(self.packing.needs)
        entries = [
            [*((kind, float(many)) for kind, many in enumerate(fill.counts) if many), (kinds + fill.bay, -1.0)]
            for fill in new
        ]
        starts = np.cumsum([0, *(len(entry) for entry in entries)])[:-1].astype(np.int32)
        rows = np.array([row for entry in entries for row, _ in entry], dtype=np.int32)
        values = np.array([value for entry in entries for _, value in entry])
        many = len(new)
        self._solver.addCols(
            many, np.zeros(many), np.zeros(many), np.full(many, highspy.kHighsInf), len(rows), starts, rows, values
        )
        self.fills = self.fills + new
        self._known.update(new)
        return True

    def solved(self) -> Program:
        """The least money, with what proves it."""
        self._solver.run()
        answer = self._solver.getSolution()
        columns, duals = np.array(answer.col_value), np.maximum(np.array(answer.row_dual), 0.0)
        rooms, kinds = len(self.packing.rooms), len(self.packing.needs)
        money = self._solver.getInfo().objective_function_value
        return Program(money, columns[rooms:], columns[:rooms], duals[:kinds], duals[kinds:])
