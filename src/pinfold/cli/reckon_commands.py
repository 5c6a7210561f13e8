"""The verbs of reckoning: `pinfold reckon`, `reckon ledger`, `reckon lessons`, `reckon account`, `reckon carry`."""

from __future__ import annotations

from pathlib import Path

import click

from pinfold.cli.sites import FOLDER, progress, tell, with_site

_FILE = click.Path(path_type=Path, dir_okay=False)
GOING = click.option(
    "--carry", "going", multiple=True, metavar="WORD",
    help="What of it goes along: binders, sand, yields, foam, coats, pace, prices.  [default: all but sand]",
)  # fmt: skip


@click.group(invoke_without_command=True)
@with_site
@click.pass_context
def reckon(context: click.Context, /, site: Path, as_json: bool) -> None:  # noqa: FBT001
    """What it will cost and what it took so far, by layer, by run and per length."""
    if context.invoked_subcommand is None:
        from pinfold.actions.reckoning import reckon_site

        tell(reckon_site(site), as_json=as_json)


@reckon.command()
@with_site
@click.option("--csv", "out", type=_FILE, help="Also write it as CSV.")
@click.option("--from-csv", "brought", type=_FILE, help="Bring in the rows of a CSV file; nothing if any is wrong.")
@click.option("--limit", type=click.IntRange(1, 1_000_000), default=100, show_default=True, help="Most lines shown.")
def ledger(site: Path, as_json: bool, *, out: Path | None, brought: Path | None, limit: int) -> None:  # noqa: FBT001
    """What was bought, left over and worked, line by line, added up, with what does not add up pointed out."""
    from pinfold.actions.reckon_csv import ledger_in, ledger_out
    from pinfold.actions.reckon_ledger import list_ledger

    if brought is not None:
        click.echo(f"pinfold: {ledger_in(site, brought)}", err=True)
    answer = list_ledger(site, limit=limit)
    if out is not None:
        click.echo(f"pinfold: {ledger_out(site, out)}", err=True)
    tell(answer, as_json=as_json)


@reckon.command("against")
@with_site
def against(site: Path, as_json: bool) -> None:  # noqa: FBT001
    """Plan against actual: hours, batches, goods and prices, with reasons that add up to the difference."""
    from pinfold.actions.reckon_actuals import against_site

    tell(against_site(site), as_json=as_json)


@reckon.command("forecast")
@with_site
def forecast(site: Path, as_json: bool) -> None:  # noqa: FBT001
    """When it will be done and what it still takes, by your own pace, days really worked, amounts and prices."""
    from pinfold.actions.reckon_forecast import forecast_site

    with progress("doing the job over") as told:
        found = forecast_site(site, told=told)
    tell(found.answer, as_json=as_json)


@reckon.command("lessons")
@with_site
@click.option("--working", is_flag=True, help="Show the lines of working of every figure.")
def lessons(site: Path, as_json: bool, *, working: bool) -> None:  # noqa: FBT001
    """What the log taught: figures before and now, what was most wrong, and what batch changes did."""
    from pinfold.actions.reckon_lessons import lessons_of

    tell(lessons_of(site, working=working), as_json=as_json)


@reckon.command("account")
@with_site
@click.option(
    "--share",
    "parts",
    multiple=True,
    metavar="WORD",
    help="What is shared, and nothing else: hours, cracks, lessons, money, name, place, coordinates, people.  "
    "[default: hours cracks lessons]",
)
@click.option("--when", default="never", show_default=True, metavar="HOW", help="Dates: never, months, days.")
@click.option("--photo", "photos", multiple=True, metavar="NUMBER", help="Entry whose photo is shared.")
@click.option("--note", "notes", multiple=True, metavar="NUMBER", help="Entry whose words are shared as written.")
@click.option("--html", type=_FILE, help="Write it as one HTML file that stands alone.")
@click.option("--pdf", type=_FILE, help="Write it as a PDF.")
def account(
    site: Path,
    as_json: bool,  # noqa: FBT001
    *,
    parts: tuple[str, ...],
    when: str,
    photos: tuple[str, ...],
    notes: tuple[str, ...],
    html: Path | None,
    pdf: Path | None,
) -> None:
    """A short account to share: what was built, in how many days, what it took; nothing that tells where or who."""
    from pinfold.actions.reckon_account import share_site, wish_of, write_account

    shown = share_site(site, wish_of(parts or None, when, photos, notes))
    for file in write_account(shown, html=html, pdf=pdf):
        click.echo(f"pinfold: written: {file}", err=True)
    tell(shown.answer, as_json=as_json)


@reckon.command("next-wall")
@with_site
@click.argument("names", nargs=-1, metavar="[BUILD-UP …]")
def next_wall(site: Path, as_json: bool, names: tuple[str, ...]) -> None:  # noqa: FBT001
    """Build-ups weighed again with what the log taught, beside as shipped: does the order change?"""
    from pinfold.actions.reckon_next_wall import next_wall_of

    with progress("weighing") as told:
        answer = next_wall_of(site, names, told)
    tell(answer, as_json=as_json)


@reckon.command("carry")
@click.option("--site", type=FOLDER, default=Path(), show_default="here", help="The site folder they go to.")
@click.argument("others", type=FOLDER, nargs=-1, required=True)
@GOING
def carry(site: Path, others: tuple[Path, ...], going: tuple[str, ...]) -> None:
    """Carry the lessons of OTHER site folders here; what was carried before is brought up to date."""
    from pinfold.actions.carrying import carry_here

    started = carry_here(site, others, going)
    click.echo("\n".join([*(f"Written: {path}" for path in started.written), *(f"  {line}" for line in started.told)]))
