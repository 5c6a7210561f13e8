"""Changes of a plan, as values put into its file."""

from __future__ import annotations

from typing import NamedTuple


class Put(NamedTuple):
    """One value put into a plan file.

    Attributes:
        path: table, name or number, and keys, such as `("buildup", "block and mesh", "footing", "width")` or
            `("gate", "cart gate", "embed")`; rails are numbered from the lowest up, from 0; runs of a side
            and coats in the order of the file.
        text: as the file has it; `True` or `False` for a flag, a whole number for a count.

    A build-up that the plan has not is begun by its first put; its rails come from the lowest up, the coats in order.
    """

    path: tuple[str, ...]
    text: str | bool | int


Change = tuple[Put, ...]
"""All values of one change."""
