"""What is to be built: the drawings, how it lies, and the plan file itself."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.files import DXF, SVG, to_save
from pinfold.web.pages.records import VerbPage

_KEPT = {"Cache-Control": "public, max-age=3600"}


def plan(request: Request) -> Response:
    """One drawing with a picker for the others, and how the plan lies."""
    from pinfold.actions.answers import as_html
    from pinfold.actions.drawing import drawing_svg, drawings
    from pinfold.actions.planning import plan_site

    folder = desk_of(request).folder
    listed = drawings(folder)
    shown = request.path_params.get("name") or listed[0].name
    svg = drawing_svg(folder, shown)
    answer = plan_site(folder, None)
    return page(
        request,
        "plan.html",
        title=answer.page.title,
        drawings=listed,
        shown=shown,
        svg=svg,
        body=as_html(answer, titled=False),
    )


def plan_file(request: Request) -> Response:
    """The plan file as it is written, readable or not."""
    from pinfold.actions.exporting import site_text

    return page(request, "plan_file.html", title="plan.toml", file=site_text(desk_of(request).folder, "plan.toml"))


def svg(request: Request) -> Response:
    """One drawing alone."""
    from pinfold.actions.drawing import drawing_svg

    name = request.path_params["name"]
    text = drawing_svg(desk_of(request).folder, name)
    if "save" in request.query_params:
        return to_save(text, name=f"{name}.svg", media=SVG)
    return Response(text, media_type=SVG, headers={"Cache-Control": "no-store"})


def dxf(request: Request) -> Response:
    """One drawing for another drawing program."""
    from pinfold.actions.drawing import drawing_dxf

    name = request.path_params["name"]
    return to_save(drawing_dxf(desk_of(request).folder, name), name=f"{name}.dxf", media=DXF)


def face(request: Request) -> Response:
    """A face the drawings are lettered in."""
    from pinfold.actions.drawing import face as bytes_of

    return Response(bytes_of(f"{request.path_params['name']}.ttf"), media_type="font/ttf", headers=_KEPT)


def style(_: Request) -> Response:
    """How drawings look on a screen."""
    from pinfold.actions.drawing import screen_style

    return Response(screen_style(), media_type="text/css", headers=_KEPT)


PAGE = VerbPage(
    verb="plan",
    path="/plan",
    says="What is to be built?",
    routes=(
        Route("/plan", plan),
        Route("/plan/file", plan_file),
        Route("/plan/drawing/{name}", plan),
        Route("/drawings/screen.css", style),
        Route("/drawings/{name}.svg", svg),
        Route("/drawings/{name}.dxf", dxf),
        Route("/drawings/{name}.ttf", face),
    ),
)
