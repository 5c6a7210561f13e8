"""What every page has at hand: the site folder, the templates, and what the guard knows."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from functools import cached_property
from importlib.resources import files
from pathlib import Path

import jinja2

_STATIC = files("pinfold.web") / "static"


@dataclass(frozen=True, kw_only=True, eq=False)
class Desk:
    """One server's things.

    Attributes:
        folder: the site folder; every page reads and writes there and nowhere else.
        hosts: names and addresses that the server answers to, with their ports.
        home: hosts of this machine itself; pages asked for there need no pairing.
        secret: of this run, from which tokens against forged requests are made.
    """

    folder: Path
    hosts: frozenset[str]
    home: frozenset[str]
    secret: bytes = field(repr=False)

    @cached_property
    def version(self) -> str:
        """Short mark of all static files; a changed file is asked for under a new address."""
        digest = hashlib.sha256()
        for name in sorted(static_names()):
            digest.update(name.encode() + static_bytes(name))
        return digest.hexdigest()[:12]

    @cached_property
    def templates(self) -> jinja2.Environment:
        """All pages' templates; texts are escaped."""
        return jinja2.Environment(
            loader=jinja2.PackageLoader("pinfold.web"), autoescape=True, trim_blocks=True, lstrip_blocks=True,
            undefined=jinja2.StrictUndefined,
        )  # fmt: skip


def static_names() -> tuple[str, ...]:
    """Names of the static files, folders in them."""
    root = Path(str(_STATIC))
    return tuple(str(path.relative_to(root)) for path in sorted(root.rglob("*")) if path.is_file())


def static_bytes(name: str) -> bytes:
    """A static file that `static_names` names."""
    return Path(str(_STATIC), name).read_bytes()
