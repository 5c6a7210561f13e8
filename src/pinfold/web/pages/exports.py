"""Files to take away."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import desk_of, page
from pinfold.web.files import CSV, TOML, ZIP, to_save
from pinfold.web.pages.records import VerbPage


def exports(request: Request) -> Response:
    """What there is to take."""
    from pinfold.actions.exporting import has_log, texts_there

    folder = desk_of(request).folder
    return page(request, "exports.html", title="files", texts=texts_there(folder), has_log=has_log(folder))


def log_csv(request: Request) -> Response:
    """Every entry of the log."""
    from pinfold.actions.exporting import log_text

    return to_save(log_text(desk_of(request).folder), name="log.csv", media=CSV)


def text_file(request: Request) -> Response:
    """A text file of the site folder, as it is."""
    from pinfold.actions.exporting import site_text

    file = site_text(desk_of(request).folder, request.path_params["name"])
    return to_save(file.text, name=file.name, media=CSV if file.name.endswith("csv") else TOML)


def drawings_zip(request: Request) -> Response:
    """Every drawing."""
    from pinfold.actions.drawing import all_drawings

    return to_save(all_drawings(desk_of(request).folder), name="drawings.zip", media=ZIP)


PAGE = VerbPage(
    verb="files", path="/exports", says="Files to take away",
    routes=(
        Route("/exports", exports),
        Route("/exports/drawings.zip", drawings_zip),
        Route("/exports/log.csv", log_csv),
        Route("/exports/{name}", text_file),
    ),
    group="look up",
)  # fmt: skip
