"""What every page has at hand: the site folder, the templates, and what the guard knows."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass, field
from functools import cached_property
from importlib.resources import files
from pathlib import Path

import jinja2

from pinfold.web.pairing import Codes

_STATIC = files("pinfold.web") / "static"
_ADDRESSES_HERE = frozenset({"127.0.0.1", "::1", "::ffff:127.0.0.1"})
_LONG_PATH = re.compile(r"""(?<![\w.<:/])(?:[A-Za-z]:)?[/\\](?:[^\s/\\'"<>]+[/\\])+([^\s/\\'"<>]*)""")


@dataclass(frozen=True, kw_only=True, eq=False)
class Desk:
    """One server's things.

    Attributes:
        folder: the site folder; every page reads and writes there and nowhere else.
        hosts: names and addresses that the server answers to, with their ports.
        home: hosts of this machine itself; pages asked for there, from an address in `near`, need no pairing.
        secret: of this run, from which tokens against forged requests are made.
        near: addresses of callers that are this machine.
        handing: hosts that hand out the home certificate in the clear, and nothing else.
        pairing_at: where a phone finds the page that pairs it; empty when only this machine is answered.
        home_note: how the home network is served, in words, for the page that pairs phones.
    """

    folder: Path
    hosts: frozenset[str]
    home: frozenset[str]
    secret: bytes = field(repr=False)
    near: frozenset[str] = _ADDRESSES_HERE
    handing: frozenset[str] = frozenset()
    pairing_at: str = ""
    home_note: str = ""

    @cached_property
    def codes(self) -> Codes:
        """Pairing codes of this run."""
        return Codes()

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
        made = jinja2.Environment(
            loader=jinja2.PackageLoader("pinfold.web"), autoescape=True, trim_blocks=True, lstrip_blocks=True,
            undefined=jinja2.StrictUndefined,
        )  # fmt: skip
        made.policies["json.dumps_kwargs"] = {"sort_keys": True, "separators": (",", ":")}  # light for phones
        return made

    def without_paths(self, text: str) -> str:
        """A message without the folders of this machine: a file keeps its name, not where it lies."""
        for folder in {str(self.folder.absolute()), str(self.folder.resolve()), str(Path.home())}:
            if len(folder) > 1:
                text = text.replace(f"{folder}/", "").replace(f"{folder}\\", "").replace(folder, "the site folder")
        return _LONG_PATH.sub(r"\1", text)


def static_names() -> tuple[str, ...]:
    """Names of the static files, folders in them."""
    root = Path(str(_STATIC))
    return tuple(path.relative_to(root).as_posix() for path in sorted(root.rglob("*")) if path.is_file())


def static_bytes(name: str) -> bytes:
    """A static file that `static_names` names."""
    return Path(str(_STATIC), name).read_bytes()
