"""What a page tells the frame about itself."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route


@dataclass(frozen=True, kw_only=True)
class VerbPage:
    """A page and its routes.

    Attributes:
        verb: its word in the way about; empty for one that is not listed there.
        path: where it starts.
        says: the question it answers.
        routes: its own, in the order they are tried.
        here_only: whether it is for this machine itself and no paired phone is led there.
        group: what it stands under in the way about: plan, work, look up.
    """

    verb: str
    path: str
    says: str
    routes: tuple[Route, ...]
    group: str = "plan"
    here_only: bool = False


def get_route(path: str, handler: Callable[[Request], Response]) -> Route:
    """A route that answers GET alone, where another takes the changes sent to the same path."""
    return Route(path, handler, methods=["GET"])
