"""The verbs of the mix bench: `pinfold mix`, `pinfold mix mortar`, `pinfold mix card` and so on."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from pinfold.cli.sites import tell, with_site


class _Bench(click.Group):
    """Verbs of its own, and one for each family of mixes, made from what the family asks."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        from pinfold.actions.mix_family import family_choices

        return [*super().list_commands(ctx), *(family.name for family, _ in family_choices())]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        return super().get_command(ctx, cmd_name) or _family_command(cmd_name)


def _family_command(name: str) -> click.Command | None:
    from pinfold.actions.mix_family import family_choices

    found = next((pair for pair in family_choices() if pair[0].name == name), None)
    if found is None:
        return None
    family, asks = found
    command = click.Command(name, callback=_ask_family(name), help=f"A mix {family.says}.", short_help=family.says)
    command.params = [
        click.Option([f"--{ask.key.replace('_', '-')}", ask.key], help=_help(ask)) for ask in asks
    ]  # fmt: skip
    return with_site(command)


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
@click.option("--batch", help="Batch size to use instead of the plan's, such as '60 L' or '2 ft3'.")
@click.pass_context
def mix(ctx: click.Context, site: Path, as_json: bool, batch: str | None) -> None:  # noqa: FBT001
    """Batch cards of the plan, or a mix of a family by your wish.

    'pinfold mix' shows all cards, 'pinfold mix card south/1a' those of one run, layer or mix, 'pinfold mix mortar
    --help' what a family asks.
    """
    if ctx.invoked_subcommand is None:
        from pinfold.actions.mixing import mix_site

        tell(mix_site(site, None, batch), as_json=as_json)


@mix.command()
@with_site
@click.argument("name")
@click.option("--batch", help="Batch size to use instead of the plan's, such as '60 L' or '2 ft3'.")
def card(site: Path, as_json: bool, name: str, batch: str | None) -> None:  # noqa: FBT001
    """The cards of one run, layer or mix by NAME."""
    from pinfold.actions.mixing import mix_site

    tell(mix_site(site, name, batch), as_json=as_json)
