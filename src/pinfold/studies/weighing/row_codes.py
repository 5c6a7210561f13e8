"""Codes of build-ups that were found: a sign for each choice and four for all of it, read back without a search."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from hashlib import sha256
from itertools import islice, product
from typing import NamedTuple

from pinfold.errors import InputError, QuantityError
from pinfold.studies.mending.ladders import length
from pinfold.studies.weighing.axes import AXES, Axis, Choice, Layers, Picks, length_in, lengths, table_of
from pinfold.units import METER, System, read

_SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Letters that are easily taken for digits are left out."""
_ONE = rf"(_[0-9.]+[a-z]+_|[{_SIGNS}])"
_CODE = re.compile(rf"{_ONE * len(AXES)}-([{_SIGNS}]{{4}})")
_MOST = 10_000


class Coded(NamedTuple):
    """What a code stands for.

    Attributes:
        buildup: that was varied.
        says: what was picked, in one line.
        layers: of the build-up, as a plan file has them.
    """

    buildup: str
    says: str
    layers: Layers


class Coder(NamedTuple):
    """What codes of one plan are made and read with.

    Attributes:
        buildup: that is varied.
        whole: every axis with all its choices.
        system: of the plan.
    """

    buildup: str
    whole: Sequence[Axis]
    system: System

    def code(self, axes: Sequence[Axis], picks: Picks) -> str:
        """The code of a pick on each axis.

        Args:
            axes: that are picked on
            picks: the number of a choice of each
        """
        choices = [axis.choices[pick] for axis, pick in zip(axes, picks, strict=True)]
        signs = (_sign(each, axis) for each, axis in zip(choices, self.whole, strict=True))
        return f"{''.join(signs)}-{self._seal(choices)}"

    def read(self, code: str) -> Coded | None:
        """What a code stands for; None where it is not of this plan and build-up."""
        signs = _CODE.fullmatch(spelled(code))
        if signs is None:
            return None
        *parts, seal = signs.groups()
        fitting = [tuple(self._fitting(part, axis)) for part, axis in zip(parts, self.whole, strict=True)]
        for choices in islice(product(*fitting), _MOST):
            if self._seal(choices) == seal:
                says = " · ".join(each.says for each in choices if each.says)
                return Coded(self.buildup, says, self._layers(choices))
        return None

    def _fitting(self, part: str, axis: Axis) -> Iterator[Choice]:
        """Choices of an axis that a part of a code may stand for."""
        if part.startswith("_"):
            try:
                yield lengths(axis.key, [length(read(part.strip("_"), like=METER), self.system)]).choices[0]
            except (QuantityError, InputError, KeyError):
                return
        yield from (each for each in axis.choices if _hashed(each.layers, 1) == part)

    def _layers(self, choices: Sequence[Choice]) -> Layers:
        axes = [Axis(axis.key, (each,)) for axis, each in zip(self.whole, choices, strict=True)]
        return table_of(axes, (0,) * len(axes), self.system)

    def _seal(self, choices: Sequence[Choice]) -> str:
        """Four signs of all of it."""
        return _hashed([self.buildup, self._layers(choices)], 4)


def is_code(text: str) -> bool:
    """Whether a text is written as a code is."""
    return _CODE.fullmatch(spelled(text)) is not None


def spelled(code: str) -> str:
    """A code as it is written, whichever letters were typed large; lengths in it are small."""
    parts = code.strip().split("_")
    return "_".join(part.lower() if number % 2 else part.upper() for number, part in enumerate(parts))


def _sign(choice: Choice, whole: Axis) -> str:
    """A sign for a choice there is; a length that was asked for stands there itself."""
    if choice in whole.choices:
        return _hashed(choice.layers, 1)
    return f"_{length_in(whole.key, choice).replace(' ', '')}_"


def _hashed(value: object, many: int) -> str:
    text = json.dumps(value, sort_keys=True, ensure_ascii=False)
    number = int.from_bytes(sha256(text.encode()).digest()[:8])
    return "".join(_SIGNS[number // 32**place % 32] for place in range(many))
