"""The pages: one module for each verb or place, each listed here and nowhere else.

A new page is a module with a `PAGE = VerbPage(...)` and a line in `PAGES`; its template goes under templates/, its
script and style under static/. The frame, the way about, the guard and the errors come by themselves.
"""

from __future__ import annotations

from pinfold.web.pages import (
    binder,
    cracks,
    cut,
    days,
    editor,
    exports,
    formula,
    gather,
    home,
    level,
    log,
    mix,
    pairing,
    phone,
    plan,
    reckon,
    reckon_lessons,
    stand,
    weigh,
)
from pinfold.web.pages.records import VerbPage

PAGES: tuple[VerbPage, ...] = (
    home.PAGE, plan.PAGE, editor.PAGE, stand.PAGE, weigh.PAGE, reckon.PAGE,
    gather.PAGE, cut.PAGE, mix.PAGE, days.PAGE, level.PAGE, log.PAGE, phone.PAGE,
    cracks.PAGE, reckon_lessons.PAGE, formula.PAGE, binder.PAGE, exports.PAGE,
    pairing.PAGE,
)  # fmt: skip
"""In the order of the way about."""
