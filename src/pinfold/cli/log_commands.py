"""The verbs of the log: `pinfold log add`, `list`, `show` and so on."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from pinfold.cli.sites import tell, with_site, words_of

_FILE = click.Path(path_type=Path, dir_okay=False)
_WHO = click.option("--who", envvar="PINFOLD_WHO", help="By whom; PINFOLD_WHO or your user name unless told.")
_AT = click.option(
    "--at", default="", help="When it happened, like 2026-05-03T14:20, by the clock of the place; now unless told."
)
_PHOTO = click.option("--photo", type=_FILE, help="A picture to keep with it.")
_KEEP_PLACE = click.option("--keep-place", is_flag=True, help="Keep the place the photo was taken; else it is dropped.")


def _name(who: str | None) -> str:
    import getpass

    if who:
        return who
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return ""


@click.group()
def log() -> None:
    """What happened on site: batches, coats, hours, money, readings, notes, photos.

    'pinfold log kinds' lists what can be written down, 'pinfold log kinds batch' the fields of one.
    """


@log.command()
@with_site
@click.argument("kind")
@click.argument("fields", nargs=-1)
@_AT
@_WHO
@_PHOTO
@_KEEP_PLACE
def add(site: Path, as_json: bool, kind: str, fields: tuple[str, ...], **rest: Any) -> None:  # noqa: FBT001
    """Write an entry down: pinfold log add KIND key=value …

    Quantities with their units: wet_density='1850 kg/m3', width='0.3 mm', amounts.sand='10 bucket'.
    """
    from pinfold.actions.log_book import log_entry

    rest["who"] = _name(rest["who"])
    tell(log_entry(site, kind, words_of(fields), **rest), as_json=as_json)


@log.command(name="list")
@with_site
@click.option("--kind", default="", help="Only entries of this kind.")
@click.option("--since", default="", help="From this day or time on, by the clock of the place.")
@click.option("--until", default="", help="Up to this time, or the end of this day, likewise.")
@click.option("--who", default="", help="Only by this name.")
@click.option("--place", default="", help="Only at this place.")
@click.option("--find", "text", default="", help="Only entries that hold this text.")
@click.option("--limit", type=click.IntRange(1, 1_000_000), default=25, show_default=True, help="At most so many.")
@click.option("--all", "everything", is_flag=True, help="Also what was corrected or taken back.")
def list_(site: Path, as_json: bool, **asked: Any) -> None:  # noqa: FBT001
    """The newest entries, one line each."""
    from pinfold.actions.log_book import Search, list_log

    tell(list_log(site, Search(**asked)), as_json=as_json)


@log.command()
@with_site
@click.argument("entry")
def show(site: Path, as_json: bool, entry: str) -> None:  # noqa: FBT001
    """One ENTRY, by number or id, with its corrections."""
    from pinfold.actions.log_book import show_entry

    tell(show_entry(site, entry), as_json=as_json)


@log.command()
@with_site
@click.argument("entry")
@click.argument("fields", nargs=-1)
@_AT
@click.option("--who", default="", help="By whom, if that was wrong.")
@_PHOTO
@_KEEP_PLACE
def correct(site: Path, as_json: bool, entry: str, fields: tuple[str, ...], **rest: Any) -> None:  # noqa: FBT001
    """Correct fields of an ENTRY: pinfold log correct 12 key=value …; key= takes a field out."""
    from pinfold.actions.log_book import correct_entry

    tell(correct_entry(site, entry, words_of(fields), **rest), as_json=as_json)


@log.command()
@with_site
@click.argument("entry")
@click.option("--why", default="", help="The reason, for whoever reads the log later.")
@_WHO
def withdraw(site: Path, as_json: bool, entry: str, why: str, who: str | None) -> None:  # noqa: FBT001
    """Take an ENTRY back; it stays in the log and no longer counts."""
    from pinfold.actions.log_book import withdraw_entry

    tell(withdraw_entry(site, entry, why, who=_name(who)), as_json=as_json)


@log.command()
@with_site
@click.argument("file", type=_FILE)
def out(site: Path, as_json: bool, file: Path) -> None:  # noqa: FBT001
    """Write all entries to FILE as CSV."""
    from pinfold.actions.log_files import csv_out

    tell(csv_out(site, file), as_json=as_json)


@log.command(name="in")
@with_site
@click.argument("file", type=_FILE)
@click.option("--dry-run", is_flag=True, help="Only tell what would come of each row.")
@_WHO
def in_(site: Path, as_json: bool, file: Path, dry_run: bool, who: str | None) -> None:  # noqa: FBT001
    """Bring in the rows of a CSV FILE; nothing is written if any row is wrong."""
    from pinfold.actions.log_files import csv_in

    tell(csv_in(site, file, dry_run=dry_run, who=_name(who)), as_json=as_json)


@log.command()
@with_site
@click.argument("file", type=_FILE)
def backup(site: Path, as_json: bool, file: Path) -> None:  # noqa: FBT001
    """Put the log with its photos into one new FILE."""
    from pinfold.actions.log_files import back_up

    tell(back_up(site, file), as_json=as_json)


@log.command()
@with_site
@click.argument("file", type=_FILE)
def restore(site: Path, as_json: bool, file: Path) -> None:  # noqa: FBT001
    """Add what a backup FILE has and the log lacks; nothing in the log is replaced."""
    from pinfold.actions.log_files import bring_back

    tell(bring_back(site, file), as_json=as_json)


@log.command()
@with_site
def check(site: Path, as_json: bool) -> None:  # noqa: FBT001
    """Look the log over: the file, every entry, every photo. Exit status 3 if something is wrong."""
    from pinfold.actions.log_files import check_log, is_whole
    from pinfold.errors import StoreError

    answer = check_log(site)
    tell(answer, as_json=as_json)
    if not is_whole(answer):
        raise StoreError("the log is not whole; what to do stands above")


@log.command()
@click.argument("kind", default="")
@click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON, in SI units.")
def kinds(kind: str, as_json: bool) -> None:  # noqa: FBT001
    """Kinds of entries, or the fields of one KIND."""
    from pinfold.actions.log_book import show_kinds

    tell(show_kinds(kind), as_json=as_json)


@log.command()
@with_site
def cracks(site: Path, as_json: bool) -> None:  # noqa: FBT001
    """Every crack by its mark: its readings, and whether it moves."""
    from pinfold.actions.cracks import cracks_of

    tell(cracks_of(site), as_json=as_json)


@log.command()
@with_site
@click.argument("photo", type=_FILE)
@click.option("--mark", default="", help="Of the crack; with it the width is written down.")
@click.option("--place", default="", help="The stretch it is in.")
@click.option("--temperature", default="", help="Of the wall, such as '12 °C'.")
@click.option("--picture", type=_FILE, help="Draw what was traced over the photo into this SVG file.")
@_WHO
@_KEEP_PLACE
def measure(site: Path, as_json: bool, photo: Path, **rest: Any) -> None:  # noqa: FBT001
    """Measure a crack in a PHOTO that shows the scale card beside it."""
    from pinfold.actions.cracks import photo_of_crack

    rest["who"] = _name(rest["who"])
    tell(photo_of_crack(site, photo, **rest), as_json=as_json)


@log.command()
@click.argument("file", type=_FILE)
def card(file: Path) -> None:
    """Write the scale card as SVG into FILE; print it at 100 %."""
    from pinfold.actions.cracks import write_card

    write_card(file)
    click.echo(f"Written: {file}. Print it at 100 % and check its ruler.")
