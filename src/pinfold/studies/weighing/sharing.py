"""A search shared among processes: each lays out and asks a part of the build-ups of every table."""

from __future__ import annotations

import gc
import io
import pickle
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from multiprocessing import get_context
from typing import Any, TypeVar

from pinfold.studies.weighing.asking import Asks, Cannot, Told, one_by_one
from pinfold.studies.weighing.axes import Picks
from pinfold.studies.weighing.scene import Scene

Value = TypeVar("Value")
_FEW = 60
"""Where so few are wanted, handing them round takes longer than finding them here."""
_PARTS = 24
"""In how many parts a table is handed round, so that no process waits long for the last of another."""


@contextmanager
def asking(scene: Scene, told: Told = None, *, processes: int = 1) -> Iterator[Asks]:
    """Those who find what the tables of a search want.

    Args:
        scene: what is varied
        told: after each thing found
        processes: how many share the work, this one among them
    """
    pool = _pool(scene, processes) if processes > 1 else None
    if pool is None:
        yield partial(_telling, told)
        return
    try:
        yield Shared(scene, told, pool, pool.submit(_ready))
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _pool(scene: Scene, processes: int) -> Executor | None:
    """The other processes; None where this machine lets no program have any."""
    try:
        return ProcessPoolExecutor(
            processes - 1, mp_context=get_context("spawn"), initializer=_begin, initargs=(scene,)
        )  # fmt: skip
    except (ImportError, NotImplementedError, OSError):
        return None


def _telling(told: Told, find: Callable[[Picks], Value], picks: Sequence[Picks]) -> Iterator[Value | Cannot]:
    for each in one_by_one(find, picks):
        yield each
        if told is not None:
            told()


@dataclass(frozen=True)
class Shared:
    """Finds here from the end what the other processes, which go from the beginning, have not come to."""

    scene: Scene
    told: Told
    pool: Executor
    ready: Future[None]

    def __call__(
        self, find: Callable[[Picks], Value], picks: Sequence[Picks], /
    ) -> Iterator[Value | Cannot]:  # fmt: skip
        """What is found for each pick, in their order; all of it here as long as no other process has begun."""
        if len(picks) < _FEW or not self.ready.done() or self.ready.exception() is not None:
            yield from _telling(self.told, find, picks)
            return
        long = -(-len(picks) // _PARTS)
        parts = [picks[start : start + long] for start in range(0, len(picks), long)]
        given = [self._handed(find, part) for part in parts]
        done = [self._taken(*each, find) for each in zip(reversed(given), reversed(parts), strict=True)]
        for part in reversed(done):
            yield from part

    def _handed(self, find: Callable[[Picks], Value], part: Sequence[Picks]) -> Future[bytes] | None:
        """One part on its way; None where the processes are gone."""
        try:
            return self.pool.submit(_found_there, _packed(self.scene, (find, part)))
        except BrokenExecutor:
            return None

    def _taken(
        self, given: Future[bytes] | None, part: Sequence[Picks], find: Callable[[Picks], Value]
    ) -> list[Value | Cannot]:  # fmt: skip
        """One part: found here where nobody has begun with it."""
        if given is None or given.cancel():
            return list(_telling(self.told, find, part))
        try:
            found: list[Value | Cannot] = pickle.loads(given.result())
        except BrokenExecutor:
            return list(_telling(self.told, find, part))
        for _ in found if self.told is not None else ():
            self.told()  # type: ignore[misc]
        return found


_HERE: list[Scene] = []
"""What is varied, in a process that shares in a search."""


def _begin(scene: Scene) -> None:
    gc.disable()
    _HERE[:] = [scene]


def _ready() -> None:
    """Done once a process has begun, and has its scene."""


def _found_there(packed: bytes) -> bytes:
    find, picks = _Unpacking(io.BytesIO(packed)).load()
    return pickle.dumps(list(one_by_one(find, picks)))


def _packed(scene: Scene, asked: object) -> bytes:
    """What is asked, in which the scene is only named: each process has its own, with what it has laid out."""
    packed = io.BytesIO()
    _Packing(scene, packed).dump(asked)
    return packed.getvalue()


class _Packing(pickle.Pickler):
    def __init__(self, scene: Scene, packed: io.BytesIO) -> None:
        super().__init__(packed)
        self._scene = scene

    def persistent_id(self, obj: Any) -> str | None:
        return "scene" if obj is self._scene else None


class _Unpacking(pickle.Unpickler):
    def persistent_load(self, pid: Any) -> Scene:
        return _HERE[0]
