"""The verbs of the mix bench: `pinfold mix`, `pinfold mix mortar`, `pinfold mix card` and so on."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click

from pinfold.cli.sites import tell, with_site
from pinfold.cli.trial_commands import next_, trials

_BATCH = click.option("--batch", default="", help="Size of batch instead of the plan's, such as '60 L' or '2 ft3'.")
_TEMPERATURE = click.option(
    "--temperature", default="", help="Of the air: cold, cool, mild, warm, hot, or such as '88 °F'; else today's in "
    "the log, else the plan's.",
)  # fmt: skip
_SAND_BY = click.option("--sand-by", default="", help="Count sand by the bucket, pail, shovel or barrow.")


class _Bench(click.Group):
    """Verbs of its own, and one for each family of mixes, made from what the family asks."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        from pinfold.actions.mix_family import family_choices

        return [*super().list_commands(ctx), "correct", *(family.name for family, _ in family_choices())]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        found = super().get_command(ctx, cmd_name)
        return found or (_correct_command() if cmd_name == "correct" else _family_command(cmd_name))


def _family_command(name: str) -> click.Command | None:
    from pinfold.actions.mix_family import family_choices

    found = next((pair for pair in family_choices() if pair[0].name == name), None)
    if found is None:
        return None
    family, asks = found
    says, short = f"By your wish: {family.says}.", f"{family.says[:1].upper()}{family.says[1:]}."
    command = click.Command(name, callback=_ask_family(name), help=says, short_help=short)
    command.params = _options(asks)
    return with_site(command)


def _options(asks: Iterable[Any]) -> list[click.Parameter]:
    return [click.Option([f"--{ask.key.replace('_', '-')}", ask.key], help=_help(ask)) for ask in asks]


def _correct_command() -> click.Command:
    """Its options are made from what can be told of a batch."""
    from pinfold.actions.mix_correct import correct_asks

    says = "What to add to a batch of MIX in the mixer, by a weighed pail, its slump, or what slipped."
    command = click.Command("correct", callback=_correct, help=says, short_help="Put a batch right in the mixer.")
    written = click.Option(["--log", "written"], is_flag=True, help="Write the batch and the reading into the log.")
    command.params = [click.Argument(["mix"]), *_options(correct_asks()), written]
    return with_site(command)


def _correct(site: Path, as_json: bool, *, mix: str, written: bool, **typed: str | None) -> None:  # noqa: FBT001
    from pinfold.actions.mix_correct import correct_mix, log_reading

    texts = {key: text for key, text in typed.items() if text}
    answer = correct_mix(site, mix, texts)
    if written:
        note = log_reading(site, mix, texts)
        click.echo("\n".join(f"pinfold: {line}" for line in ("written into the log", *note.cautions)), err=True)
    tell(answer, as_json=as_json)


def _help(ask: Any) -> str:
    words = f" ({', '.join(ask.choices)})" if ask.choices else f", such as '{ask.example}'" if ask.example else ""
    return f"{ask.says[:1].upper()}{ask.says[1:]}{words}." + (f"  [default: {ask.otherwise}]" if ask.otherwise else "")


def _ask_family(name: str) -> Any:
    def asked(site: Path, as_json: bool, **typed: str | None) -> None:  # noqa: FBT001
        from pinfold.actions.mix_family import mix_family

        tell(mix_family(site, name, {key: text for key, text in typed.items() if text}), as_json=as_json)

    return asked


@click.group(cls=_Bench, invoke_without_command=True)
@with_site
@_BATCH
@_TEMPERATURE
@_SAND_BY
@click.pass_context
def mix(ctx: click.Context, /, site: Path, as_json: bool, **asked: Any) -> None:  # noqa: FBT001
    """Batch cards of the plan, or a mix of a family by your wish.

    'pinfold mix' shows all cards, 'pinfold mix card south/1a' those of one run, layer or mix, 'pinfold mix mortar
    --help' what a family asks.
    """
    if ctx.invoked_subcommand is None:
        from pinfold.actions.mix_card import CardsAsked, mix_cards

        tell(mix_cards(site, CardsAsked(**asked)), as_json=as_json)


@mix.command(short_help="The cards of a run, layer or mix.")
@with_site
@click.argument("name", nargs=-1, required=True)
@_BATCH
@_TEMPERATURE
@_SAND_BY
@click.option("--code", "drawn", is_flag=True, help="Draw the square code that opens the batch in the log.")
def card(site: Path, as_json: bool, *, name: tuple[str, ...], drawn: bool, **asked: Any) -> None:  # noqa: FBT001
    """The cards of one run, gate, layer or mix by NAME, or of several together: south/1a mortar."""
    from pinfold.actions.mix_card import CardsAsked, mix_cards

    tell(mix_cards(site, CardsAsked(name=" ".join(name), drawn=drawn, **asked)), as_json=as_json)


@mix.command(short_help="What measures hold and weigh; scale and sand.")
@with_site
@click.argument("kind", required=False)
@click.argument("fields", nargs=-1)
def measures(site: Path, as_json: bool, kind: str | None, fields: tuple[str, ...]) -> None:  # noqa: FBT001
    """What each measure holds and weighs, the scale and the sand.

    With a KIND (moisture, bucket, scale) and what was read a reading is tried and not written down: pinfold mix
    measures moisture wet='540 g' dry='512 g' pan='90 g'. 'pinfold log add' writes it down, with the same words.
    """
    from pinfold.actions.mix_measures import measures_of, try_reading
    from pinfold.cli.sites import words_of

    tell(try_reading(site, kind, words_of(fields)) if kind else measures_of(site), as_json=as_json)


mix.add_command(trials)
mix.add_command(next_)


@mix.command(short_help="How strong a mix is at an age.")
@with_site
@click.argument("name", metavar="[MIX]", required=False, default="")
@click.option("--at", default="", help="Age, such as '7 d'.  [default: 28 d]")
def strength(site: Path, as_json: bool, name: str, at: str) -> None:  # noqa: FBT001
    """How strong MIX is at an age, as published and as your own tests say; all of the plan without one.

    Tests are written down by 'pinfold log add strength' (a body crushed or broken) and 'pinfold log add hardness' (a
    nail, a drop).
    """
    from pinfold.actions.mix_strength import mix_strength

    tell(mix_strength(site, name, at), as_json=as_json)


@mix.command(short_help="What more or less sand does to a mix.")
@with_site
@click.argument("name")
@click.option("--from", "low", default="", help="The richest to show, such as 1:2; of a foamed mix the lightest.")
@click.option("--to", "high", default="", help="The leanest to show, such as 1:8; of a foamed mix the heaviest.")
@click.option("--strength", default="", help="A strength to hold, such as '500 psi': the cheapest that does is told.")
@click.option("--buildup", default="", help="Whose coat it is, where several build-ups have it.")
def richer(site: Path, as_json: bool, name: str, **typed: str) -> None:  # noqa: FBT001
    """What a richer or leaner mix does to a mix, coat or layer NAME: strength, shrinkage, cracks, stuff, cost."""
    from pinfold.actions.mix_richer import RicherAsked, mix_richer

    tell(mix_richer(site, RicherAsked(name=name, **typed)), as_json=as_json)
