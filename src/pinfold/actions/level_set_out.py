"""Post bases and a first course set out from levels in the log."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.level_site import structures, survey_of, surveys_in
from pinfold.actions.sites import open_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.reports.level_set_out import SettingOut, set_out_page
from pinfold.studies.leveling.setting_out import Wanted, set_out
from pinfold.units import METER, Meter, both, read

_NONE = "No level was read yet: 'pinfold level read P1=812mm P2=790mm --setup 1', the page, or the phone."
OVER: Meter = 0.10
"""How far over the highest ground the string runs where nobody says."""


@dataclass(frozen=True, kw_only=True)
class SetOutAsked:
    """What is asked, as typed.

    Attributes:
        survey: name of it; the last one where empty.
        string: height of the string over the datum; a hand's width over the highest ground where empty.
        down: from the string to the bed or the foot of the bases; down to the highest ground where empty.
        course: height of a course with its joint; none where empty.
    """

    survey: str = ""
    string: str = ""
    down: str = ""
    course: str = ""


def set_out_of(folder: Path, asked: SetOutAsked) -> Answer:
    """Cut, fill and string at every mark of a survey.

    Raises:
        NotFoundError: no such survey.
        InvalidPlan: complaints about what was asked, all at once.
        StoreError, NewerFileError: as reading the site and its log tell.
    """
    site, typed = open_site(folder), _read(asked)
    surveys = surveys_in(folder)
    if not surveys:
        none = SettingOut(survey=None, wanted=None, marks=(), highest="", because=(_NONE,))
        return answer_from(site, none, set_out_page(none, site.plan.units))
    name = asked.survey.strip() or list(surveys)[-1]
    if name not in surveys:
        raise NotFoundError(f"there is no survey {name!r}; there are {', '.join(surveys)}")
    fixed = next((each.blocks.leveling.fixed for each in structures(site) if each.blocks), "")
    survey = survey_of(name, surveys[name], fixed=fixed, own=(), site=site)
    marks = tuple(each for each in survey.heights if each.mark != survey.datum)
    highest = max(marks or survey.heights, key=lambda each: each.height)
    string = typed["string"] if typed["string"] is not None else highest.height + OVER
    down = typed["down"] if typed["down"] is not None else max(string - highest.height, 0.0)
    wanted = Wanted(string=string, down=down, course=typed["course"])
    found = SettingOut(survey=survey, wanted=wanted, marks=set_out(marks, wanted), highest=highest.mark)
    return answer_from(site, found, set_out_page(found, site.plan.units))


_LIMITS = {"string": (-20.0, 20.0), "down": (0.0, 10.0), "course": (0.02, 1.0)}


def _read(asked: SetOutAsked) -> dict[str, Meter | None]:
    found: dict[str, Meter | None] = {}
    wrong = []
    for key, (low, high) in _LIMITS.items():
        text = str(getattr(asked, key)).strip()
        try:
            found[key] = read(text, like=METER) if text else None
        except InputError as fault:
            wrong.append(InputError(fault.message, place=key))
            continue
        value = found[key]
        if value is not None and not low <= value <= high:
            told = f"{text[:20]!r} cannot be; from {both(low, METER)} to {both(high, METER)} is wanted"
            wrong.append(InputError(told, place=key))
    if wrong:
        raise InvalidPlan("what is set out", wrong)
    return found
