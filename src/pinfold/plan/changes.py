"""Changes of a plan, as values put into its file."""

from __future__ import annotations

from typing import NamedTuple


class Put(NamedTuple):
    """One value put into a plan file.

    Attributes:
        path: table, name or number, and keys, such as `("buildup", "block and mesh", "footing", "width")` or
            `("gate", "cart gate", "embed")`; rails are numbered from the lowest up, from 0.
        text: as the file has it; `True` or `False` for a flag.
    """

    path: tuple[str, ...]
    text: str | bool


Change = tuple[Put, ...]
"""All values of one change."""
