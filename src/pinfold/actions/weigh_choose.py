"""Choosing a build-up: what it would change, writing it into the plan, and undoing it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.mending import revision_at
from pinfold.actions.sites import Site, open_site
from pinfold.actions.weigh_found import found_option, weighed_found
from pinfold.actions.weigh_options import options_at, sized, weighed_at
from pinfold.actions.weigh_trade import money_of
from pinfold.errors import InputError, InvalidPlan, OutOfRangeError
from pinfold.findings import Verdict, by_urgency
from pinfold.plan.enclosure import Enclosure
from pinfold.reports.weigh_between import between
from pinfold.store import plan_edit, planfile
from pinfold.store.plan_choose import BEFORE, before_at, text_with_choice, write_choice
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.stability.assess import assess
from pinfold.studies.weighing.between import differences
from pinfold.studies.weighing.catalog import AS_PLANNED, chosen
from pinfold.studies.weighing.records import Option, Weighed
from pinfold.studies.weighing.row_codes import is_code
from pinfold.studies.weighing.subject import Asked
from pinfold.studies.weighing.trading import TOLD_CRITERIA

UNDO = "'pinfold weigh choose --undo' brings it back"
UNDO_ON_PAGE = "the button 'Bring it back' writes that one again"


@dataclass(frozen=True, kw_only=True)
class Offered:
    """A choice before it is made.

    Attributes:
        name: of the option.
        says: what it is.
        where: where it goes.
        told: what it brings and takes beside the plan as it stands.
        verdict: whether everything in it holds.
        complaints: what fails or is not shown.
        revision: mark of the plan file it would be written into.
    """

    name: str
    says: str
    where: str
    told: str
    verdict: str
    complaints: tuple[str, ...]
    revision: str


def choices(folder: Path) -> tuple[str, tuple[tuple[str, str], ...], bool]:
    """Title of the page, name and words of all that may be chosen, and whether a choice can be undone.

    Raises:
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    names = tuple((each.name, each.says) for each in options_at(site) if each.name != AS_PLANNED)
    return f"{site.plan.name}: choose a build-up", names, (folder / BEFORE).exists()


def offered(folder: Path, name: str) -> Offered:
    """What choosing an option would change.

    Raises:
        NotFoundError: there is no such option.
        InputError: it is the plan as it stands.
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    site = open_site(folder)
    option = _option(site, name)
    planned, *others = weighed_at(site, (AS_PLANNED,) if is_code(name) else (name,), Asked())
    other = others[0] if others else weighed_found(site, option)
    return Offered(
        name=name, says=_said(option), where=_where(option), told=_told(site, planned, other),
        verdict=other.verdict.value, complaints=other.complaints, revision=revision_at(folder),
    )  # fmt: skip


def _told(site: Site, planned: Weighed, other: Weighed) -> str:
    if not other.can_be_built:
        return ""
    return between(differences(planned, other, TOLD_CRITERIA), site.plan.units, money_of(site), most=8)


def _option(site: Site, name: str) -> Option:
    if is_code(name):
        return found_option(site, name)
    option = sized(site, chosen(options_at(site), (name,))[-1])
    if option.name == AS_PLANNED:
        raise InputError("that is the plan as it stands: nothing is to be written", place=repr(name))
    return option


def _where(option: Option) -> str:
    return option.size.partition(":")[0] if is_code(option.name.removeprefix("found-")) else "all round"


def _said(option: Option) -> str:
    return "; ".join(filter(None, (option.says, option.size)))


def choose(folder: Path, name: str, *, revision: str = "", on_page: bool = False) -> str:
    """Write an option into the plan; refused whole when the plan would not read or could not be laid out.

    Args:
        folder: site folder
        name: of the option, or the code of a build-up that was found
        revision: mark of the plan file it was offered for; empty for whatever stands there
        on_page: whether the words stand on a page, with buttons in place of commands

    Returns:
        what was written, in words

    Raises:
        InputError: the plan file is another one by now.
        NotFoundError: there is no such option.
        StoreError, NewerFileError, InvalidPlan: as reading and writing tell; nothing is written then.
    """
    option = _option(open_site(folder), name)
    _written(folder, lambda text: text_with_choice(text, option.change), revision)
    see, undone = ("'Will it stand now?'", UNDO_ON_PAGE) if on_page else ("'pinfold stand'", UNDO)
    return (
        f"Written into {planfile.NAME}: {option.name} ({_said(option)}).{_failing(folder, see)} What was there stays "
        f"in it as a build-up of its own, and the whole plan as it was in {BEFORE}; {undone}."
    )


def _failing(folder: Path, see: str) -> str:
    """What fails in the plan as it is written now, by check; empty where nothing does."""
    findings = assess(open_site(folder).layout)
    checks = dict.fromkeys(each.check for each in by_urgency(findings) if each.verdict is Verdict.FAILS)
    return f" It FAILS in {', '.join(checks)}: see {see}." if checks else ""


def undo(folder: Path, *, revision: str = "") -> str:
    """Bring the plan back that the last choice was written over; what stands there goes where that one was.

    Raises:
        NotFoundError: there is nothing to undo.
        InputError: the plan file is another one by now.
        StoreError, InvalidPlan: as reading and writing tell; nothing is written then.
    """
    text = before_at(folder)
    _written(folder, lambda _: text, revision)
    return f"{planfile.NAME} is as it was before; what stood there is in {BEFORE}, and the same again swaps them."


def _written(folder: Path, new: Callable[[str], str], revision: str) -> None:
    found, text, _ = plan_edit.read_edited(folder / planfile.NAME)
    if revision and revision != found:
        raise InputError("the plan has changed since: look at the choice again")
    changed = new(text)
    _laid_out(planfile.plan_of(changed, name=planfile.NAME))
    write_choice(folder, changed)


def _laid_out(plan: Enclosure) -> None:
    """That a plan can be laid out.

    Raises:
        InvalidPlan: it cannot.
    """
    try:
        lay_out(plan)
    except (InputError, OutOfRangeError) as refused:
        raise InvalidPlan(planfile.NAME, [InputError(str(refused))]) from None
