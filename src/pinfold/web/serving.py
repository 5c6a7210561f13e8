"""Starting the local pages from a terminal: what is looked at first, what is said, what is worked out ahead."""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from ipaddress import IPv4Address
from pathlib import Path

from pinfold.errors import InputError, NotFoundError, PinfoldError
from pinfold.web.listening import Asked, listen


def serve(asked: Asked, says: Callable[[str], None]) -> None:
    """Serve a site folder until Ctrl-C.

    Args:
        asked: how; a browser is opened only where it gets a window of its own
        says: tells the owner a line

    Raises:
        NotFoundError: the folder has no plan; the message says how to start one.
        StoreError: the port is taken, or the home network cannot be used.
    """
    look_for_plan(asked.folder)
    # waited for at the end: a solver cut short would abort the exit
    threading.Thread(target=work_ahead, args=(asked.folder,)).start()
    with suppress(KeyboardInterrupt):  # one that comes before listening has begun
        listen(asked, says)
    says("Stopped.")


def look_for_plan(folder: Path) -> None:
    """Refuse a folder that is no site, and say what to do.

    Raises:
        NotFoundError: it has no plan.
    """
    if not (folder / "plan.toml").is_file():
        where = "here" if folder == Path() else f"in {folder}"
        raise NotFoundError(
            f"there is no plan.toml {where}. Start one with 'pinfold new my-plot --sample seed-garden', then "
            "'pinfold serve --site my-plot'; or name the folder of your plot after --site"
        )


def own_address(text: str) -> IPv4Address:
    """An address of this machine as typed.

    Raises:
        InputError: it is none.
    """
    try:
        return IPv4Address(text.strip())
    except ValueError:
        raise InputError(
            f"{text!r} is no address; four numbers are wanted, like 192.168.1.20", place="--address"
        ) from None


def work_ahead(folder: Path) -> None:
    """Find what the first pages will ask for, so that they come at once; faults are for the pages to tell."""
    from pinfold.actions.drawing import drawing_svg, drawings
    from pinfold.actions.front import front_of

    with suppress(PinfoldError):
        front_of(folder)
        drawing_svg(folder, drawings(folder)[0].name)


def has_screen() -> bool:
    """Whether a browser would open in a window of its own and not over this terminal."""
    return sys.platform in {"darwin", "win32"} or bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
