"""The verbs: each parses, calls one action, and prints what it answers. Heavy imports wait until an action runs."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from pathlib import Path

import click

from pinfold import __version__
from pinfold.cli.cut_commands import cut
from pinfold.cli.days_commands import days
from pinfold.cli.level_commands import level
from pinfold.cli.log_commands import log
from pinfold.cli.mix_commands import mix
from pinfold.cli.reckon_commands import GOING, reckon
from pinfold.cli.sites import FOLDER, progress, tell, with_site
from pinfold.cli.weigh_commands import weigh


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.version_option(__version__, prog_name="pinfold")
def pinfold() -> None:
    """Plan, prove, mix, buy, cut and print the enclosure of a plot you build with your own hands.

    Start with 'pinfold new my-plot --sample seed-garden', then 'pinfold plan --site my-plot'.
    """


@pinfold.command()
@click.argument("folder", type=FOLDER)
@click.option("--sample", help="Start from a sample: seed-garden or quinta.")
@click.option("--units", type=click.Choice(["us", "metric"]), help="How answers are shown.")
@click.option("--family", type=click.Choice(["us", "eu"]), help="Which standards are followed.")
@click.option("--name", help="What the plot is called.")
@click.option("--width", help="Of the plot, such as '60 ft'.")
@click.option("--depth", help="Of the plot.")
@click.option("--wind-speed", help="Basic wind speed of your code, such as '105 mph'.")
@click.option("--exposure", help="B, C, D (US) or 0 to IV (EU).")
@click.option("--frost-depth", help="Depth the ground freezes to.")
@click.option("--soil", help="Class of ground, such as sand or clay.")
@click.option("--wall-height", help="Of the low wall.")
@click.option("--fence-height", help="Of mesh above the wall.")
@click.option("--ask/--no-ask", default=None, help="Ask what is not given; asks at a terminal unless told.")
@click.option("--lessons-from", "others", type=FOLDER, multiple=True, help="Another site folder: its lessons go along.")
@GOING
def new(
    folder: Path, sample: str | None, ask: bool | None, others: tuple[Path, ...], going: tuple[str, ...],  # noqa: FBT001
    **answers: str | None,
) -> None:  # fmt: skip
    """Start a site FOLDER, from a sample or from a few answers."""
    from pinfold.actions.carrying import start_with_lessons

    given = {key.replace("_", "-"): value for key, value in answers.items() if value}
    if not sample and (sys.stdin.isatty() if ask is None else ask):
        given = _asked(given)
    started = start_with_lessons(folder, sample, given, others, going)
    click.echo("\n".join(["Written:", *(f"  {path}" for path in started.written)]))
    if started.told:
        click.echo("\n".join(["Lessons:", *(f"  {line}" for line in started.told)]))
    click.echo(f"Next: pinfold plan --site {folder}")


def _asked(given: dict[str, str]) -> dict[str, str]:
    from pinfold.actions.sites import questions

    if "units" not in given:
        given["units"] = click.prompt("Units", type=click.Choice(["us", "metric"]), default="us")
    for question in questions():
        if question.key not in given:
            offered = question.us if given["units"] == "us" else question.metric
            given[question.key] = click.prompt(question.asks, default=offered, value_proc=_answer(question.key, given))
    return given


def _answer(key: str, given: Mapping[str, str]) -> Callable[[str], str]:
    """Takes an answer, or has it asked again with what is wrong."""

    def taken(text: str) -> str:
        from pinfold.actions.sites import fault_of

        fault = fault_of(key, {**given, key: text})
        if fault is not None:
            raise click.UsageError(fault.message)
        return text

    return taken


@pinfold.command()
@with_site
@click.option("--drawings", type=FOLDER, help="Where the drawings go; 'drawings' in the site folder unless told.")
@click.option("--check", is_flag=True, help="Only check the plan; draw nothing.")
@click.option("--set", "changes", multiple=True, help="Change a value in the plan first: 'gate.cart gate.width=9 ft'.")
def plan(site: Path, as_json: bool, drawings: Path | None, check: bool, changes: tuple[str, ...]) -> None:  # noqa: FBT001
    """Check the plan, tell how it lies on the ground, and draw it."""
    from pinfold.actions.planning import plan_site

    tell(plan_site(site, None if check else drawings or site / "drawings", changes), as_json=as_json)


@pinfold.command()
@with_site
@click.option("--working", is_flag=True, help="Show the lines of working under each finding.")
@click.option(
    "--mend",
    type=click.Choice(["none", "fails", "near"]),
    default="fails",
    show_default=True,
    help="For which findings to try changes of the plan: near also takes what holds with less than a tenth to spare.",
)
@click.option("--each", is_flag=True, help="Tell what holds one by one, not check by check.")
@click.option("--storms", is_flag=True, help="Also the chances of cracking and falling in 1, 10 and 50 years.")
@click.option("--put", metavar="NAME", help="Write a mend, such as 2b, into plan.toml; its comments stay.")
def stand(site: Path, as_json: bool, *, working: bool, each: bool, mend: str, storms: bool, put: str | None) -> None:  # noqa: FBT001
    """Will it stand: wind, pushes, earth and frost on wall, posts and gates, and what would mend what fails."""
    from pinfold.actions.standing import MendFor, assess_site, put_named

    mending = MendFor(mend)
    with progress("trying changes of the plan") as told:
        if put is not None:
            click.echo(put_named(site, put, mending=mending, told=told))
            return
        answer = assess_site(site, working=working, each=each, mending=mending, storms=storms, told=told)
    tell(answer, as_json=as_json)


@pinfold.command()
@with_site
@click.option("--csv", "csv_file", type=click.Path(path_type=Path, dir_okay=False), help="Also write the list as CSV.")
def gather(site: Path, as_json: bool, csv_file: Path | None) -> None:  # noqa: FBT001
    """What to buy, how it packs, what it weighs, how many trips, how much water."""
    from pinfold.actions.gathering import gather_site

    tell(gather_site(site, csv_file), as_json=as_json)


@pinfold.command()
@with_site
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    help="File to write; 'binder.pdf' in the site folder unless told.",
)
def binder(site: Path, as_json: bool, out: Path | None) -> None:  # noqa: FBT001
    """All of it as a printable PDF for the site."""
    from pinfold.actions.binding import bind_site

    tell(bind_site(site, out or site / "binder.pdf"), as_json=as_json)


@pinfold.command()
@click.argument("name", required=False)
@click.argument("figures", nargs=-1)
@click.option("--list", "listed", is_flag=True, help="List all formulas, or those that hold the word NAME.")
@click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON, in SI units.")
def formula(name: str | None, figures: tuple[str, ...], listed: bool, as_json: bool) -> None:  # noqa: FBT001
    """Work out one published formula: pinfold formula NAME key=value …"""
    from pinfold.actions.formulas import ask, list_all

    tell(list_all(name or "") if listed or not name else ask(name, figures), as_json=as_json)


@pinfold.command()
@click.option("--site", type=FOLDER, default=Path(), show_default="here", help="The site folder.")
@click.option("--port", type=click.IntRange(0, 65535), default=8017, show_default=True, help="0 takes any free one.")
@click.option("--no-open", is_flag=True, help="Do not open a browser.")
@click.option("--home", is_flag=True, help="Answer the home network too, so that a phone can be paired.")
@click.option("--plain", is_flag=True, help="With --home: without a certificate, in the clear.")
@click.option("--address", help="With --home: this machine's address there; found out unless told.")
def serve(*, site: Path, port: int, no_open: bool, home: bool, plain: bool, address: str | None) -> None:
    """Show it all as pages on this machine, until stopped with Ctrl-C."""
    from pinfold.web.listening import Asked
    from pinfold.web.serving import has_screen, own_address
    from pinfold.web.serving import serve as serve_site

    asked = Asked(
        folder=site, port=port, home=home, plain=plain, open_browser=has_screen() and not no_open,
        address=own_address(address) if address else None,
    )  # fmt: skip
    serve_site(asked, click.echo)


pinfold.add_command(cut)
pinfold.add_command(days)
pinfold.add_command(level)
pinfold.add_command(log)
pinfold.add_command(mix)
pinfold.add_command(reckon)
pinfold.add_command(weigh)
