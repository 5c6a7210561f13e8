"""Any single published formula, with its working."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from pinfold.web.answering import page
from pinfold.web.pages.records import VerbPage


def formulas(request: Request) -> Response:
    """All formulas by subject, or those that hold a word."""
    from pinfold.actions.formulas import list_formulas

    word = request.query_params.get("word", "").strip()[:80]
    subjects: dict[str, list[object]] = {}
    lines = list_formulas(word)
    for line in lines:
        subjects.setdefault(line.name.partition(".")[0].replace("_", " "), []).append(line)
    return page(request, "formulas.html", title="formulas", subjects=subjects, word=word, count=len(lines))


def formula(request: Request) -> Response:
    """One formula as a form, and what it gives."""
    from pinfold.actions.formula_form import formula_form

    form = formula_form(request.path_params["name"], dict(request.query_params))
    wrong = form.asked and not form.results
    return page(request, "formula.html", status=400 if wrong else 200, title=form.name, form=form)


PAGE = VerbPage(
    verb="formula", path="/formula", says="What does one formula give?",
    routes=(Route("/formula", formulas), Route("/formula/{name}", formula)), group="look up",
)  # fmt: skip
