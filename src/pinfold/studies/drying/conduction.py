"""Heat through walls: many walls at once as columns of nodes from face to face, stepped backward in time.

Nodes crowd at the faces, where a day's warmth comes and goes. What a node stores reaches half way to its neighbors, so
that heat put in at the faces is heat stored, to the last digit.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pinfold.studies.drying.stuff import Layer
from pinfold.units import Second

Array = NDArray[np.float64]
NODES = 13


@dataclass(frozen=True, kw_only=True, eq=False)
class Columns:
    """Walls as columns of nodes.

    Attributes:
        stores: (columns, nodes), heat that warms what a node stands for, per area of face.
        carries: (columns, nodes − 1), heat that goes from a node to the next.
    """

    stores: Array
    carries: Array

    def beside(self, other: Columns) -> Columns:
        """The columns of both."""
        stores, carries = (
            np.concatenate(pair) for pair in ((self.stores, other.stores), (self.carries, other.carries))
        )
        return Columns(stores=stores, carries=carries)


def columns_of(stacks: Sequence[Sequence[Layer]]) -> Columns:
    """Walls given by their layers, each with its first face at the first node."""
    pairs = [_column(stack) for stack in stacks]
    return Columns(stores=np.array([stores for stores, _ in pairs]), carries=np.array([to for _, to in pairs]))


def _column(stack: Sequence[Layer]) -> tuple[Array, Array]:
    ends = np.concatenate(([0.0], np.cumsum([layer.thickness for layer in stack])))
    stored = np.concatenate(([0.0], np.cumsum([layer.thickness * layer.capacity for layer in stack])))
    held = np.concatenate(([0.0], np.cumsum([layer.thickness / layer.conductivity for layer in stack])))
    nodes = ends[-1] * (1 - np.cos(np.linspace(0.0, np.pi, NODES))) / 2
    borders = np.concatenate(([0.0], (nodes[1:] + nodes[:-1]) / 2, [ends[-1]]))
    return np.diff(np.interp(borders, ends, stored)), 1 / np.diff(np.interp(nodes, ends, held))


@dataclass(frozen=True, kw_only=True, eq=False)
class Stepping:
    """What one step of time does to columns without heat at their faces, and what heat at a face does.

    Attributes:
        keeps: (columns, nodes, nodes), from the temperatures before to those after.
        first: (columns, nodes), warming of all nodes by heat at the first face.
        last: likewise at the last face.
    """

    keeps: Array
    first: Array
    last: Array


def stepping(columns: Columns, step: Second) -> Stepping:
    """Backward steps of so many seconds: stable however long they are."""
    count, nodes = columns.stores.shape
    matrix = np.zeros((count, nodes, nodes))
    here, there = np.arange(nodes - 1), np.arange(1, nodes)
    matrix[:, here, here] += columns.carries
    matrix[:, there, there] += columns.carries
    matrix[:, here, there] = matrix[:, there, here] = -columns.carries
    every = np.arange(nodes)
    matrix[:, every, every] += columns.stores / step
    inverse: Array = np.asarray(np.linalg.inv(matrix), dtype=np.float64)
    return Stepping(
        keeps=inverse * (columns.stores / step)[:, None, :], first=inverse[:, :, 0], last=inverse[:, :, -1]
    )  # fmt: skip
