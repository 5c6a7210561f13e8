"""Sorts of work by the words of the log, and the fields in which hours tell how much was done."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from pinfold.tables.shelf import shelf


class Work(StrEnum):
    """What sort of work it is, in the order a job goes."""

    SET_OUT = "set out"
    BLOCKS = "make blocks"
    DIG = "dig"
    FOOTING = "footing"
    LEVEL = "level"
    LAY = "lay"
    HOLES = "holes"
    POSTS = "posts"
    GROUT = "grout"
    BACKFILL = "backfill"
    COPING = "coping"
    COAT = "coat"
    BRACES = "braces"
    RAILS = "rails"
    MESH = "mesh"
    APRON = "apron"
    GATE = "gate"


PER = (("done_area", "m2"), ("done_length", "m"), ("done_count", "each"))
"""Fields that tell what was done in some hours, and what each is counted in."""
_SAME: Mapping[str, Work] = {
    "digging": Work.DIG, "laying": Work.LAY, "walling": Work.LAY, "masonry": Work.LAY, "footings": Work.FOOTING,
    "plaster": Work.COAT, "plastering": Work.COAT, "coats": Work.COAT, "gates": Work.GATE, "setting out": Work.SET_OUT,
    "leveling": Work.LEVEL, "blocks": Work.BLOCKS, "pressing": Work.BLOCKS, "press blocks": Work.BLOCKS,
    "molding": Work.BLOCKS, "casting blocks": Work.BLOCKS,
}  # fmt: skip
"""Other words for a sort of work."""
_NAMED: Mapping[str, Work] = {
    "trench": Work.DIG, "wall": Work.LAY, "mortar": Work.LAY, "collars": Work.POSTS, **_SAME,
    **{work.value: work for work in Work},
}  # fmt: skip
"""What the log's word for a layer or for work means."""


def one_word(layer: str) -> str:
    """The word for work that others are only another word for; any other as written, without spaces too many."""
    word = " ".join(layer.split())
    return _SAME.get(word.lower(), word)


def named_works(layer: str) -> frozenset[Work]:
    """The sorts of work that the log's word for a layer or for work means; none where it means none."""
    word = " ".join(layer.lower().split())
    work = Work.COAT if word in shelf("coats") else _NAMED.get(word)
    return frozenset() if work is None else frozenset({work})
