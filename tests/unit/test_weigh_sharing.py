"""A search shared among processes finds what one finds alone."""

import operator
import os
from concurrent.futures import Executor, Future
from concurrent.futures.process import BrokenProcessPool
from dataclasses import replace

import numpy as np
import pytest

from pinfold.actions.sites import open_site, start_site
from pinfold.actions.weigh_search import scene_of
from pinfold.errors import InputError
from pinfold.studies.weighing.asking import Cannot
from pinfold.studies.weighing.axes import Axis
from pinfold.studies.weighing.checked import checked
from pinfold.studies.weighing.goods import goods_tables
from pinfold.studies.weighing.sharing import Shared, asking

PICKS = [(number, *(0,) * 9) for number in range(500)]


@pytest.fixture(scope="module")
def scene(tmp_path_factory):
    folder = tmp_path_factory.mktemp("sites") / "quinta"
    start_site(folder, "quinta", {})
    whole = scene_of(open_site(folder))
    return replace(whole, axes=tuple(Axis(axis.key, axis.choices[:2]) for axis in whole.axes))


@pytest.fixture(scope="module")
def shared(scene):
    with asking(scene, processes=2) as asks:
        asks.ready.result()
        yield asks


def whose(picks):
    """Which process asks, and of what; every hundredth cannot be built."""
    if picks[0] % 100 == 99:
        raise InputError(f"not {picks[0]}", place="wall")
    return os.getpid(), picks[0]


class Watched(Executor):
    """Keeps what it hands on."""

    def __init__(self, pool):
        self.pool, self.given = pool, []

    def submit(self, *asked):
        self.given.append(self.pool.submit(*asked))
        return self.given[-1]


def test_things_found_by_several_come_in_their_turn(scene, shared):
    counted = []

    found = list(Shared(scene, lambda: counted.append(1), shared.pool, shared.ready)(operator.itemgetter(0), PICKS))

    assert found == list(range(500))
    assert len(counted) == 500


def test_shared_checks_and_goods_are_those_found_alone(scene, shared):
    watched = Watched(shared.pool)
    alone, together = checked(scene), checked(scene, Shared(scene, None, watched, shared.ready))

    assert {given.cancelled() for given in watched.given} == {True, False}  # both found a part

    assert np.array_equal(alone.fails, together.fails)
    stands = ~alone.fails
    assert stands.any()
    assert np.array_equal(alone.use[stands], together.use[stands])
    assert goods_of(goods_tables(scene, stands)) == goods_of(goods_tables(scene, stands, shared))


def goods_of(tables):
    return [
        [each if isinstance(each, Cannot) else repr((each.needs, each.turns, each.water, each.labor)) for each in table.values]
        for table in tables
    ]  # fmt: skip


class Broken(Executor):
    """Every part is begun by a process that is gone before it is done."""

    def submit(self, *_):
        given = Future()
        given.set_running_or_notify_cancel()
        given.set_exception(BrokenProcessPool("gone"))
        return given


def test_what_a_process_that_is_gone_was_given_is_found_here(scene):
    ready, counted = Future(), []
    ready.set_result(None)

    found = list(Shared(scene, lambda: counted.append(1), Broken(), ready)(whose, PICKS))

    assert [each for each in found if not isinstance(each, Cannot)] == [
        (os.getpid(), number) for number in range(500) if number % 100 != 99
    ]
    assert len(counted) == 500


def test_until_another_process_has_begun_all_is_found_here(scene):
    ready = Future()

    found = list(Shared(scene, None, Broken(), ready)(whose, PICKS))

    assert {each[0] for each in found if not isinstance(each, Cannot)} == {os.getpid()}
