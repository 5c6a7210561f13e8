"""One gate to build."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page


def gate(request: Request) -> Response:
    """Its drawing, pieces, swing, hinges, latch, years, who passes, and what holds."""
    from pinfold.actions.cut_gate import gate_shown

    name = request.path_params["name"]
    working = "working" in request.query_params
    shown = gate_shown(desk_of(request).folder, name, working=working)
    return page(request, "cut_gate.html", title=shown.title, shown=shown, name=name, worked=working)


ROUTES = (Route("/cut/gate/{name}", gate),)
