"""What every verb that answers shares: the options for the site folder and JSON, and printing the answer."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import click

if TYPE_CHECKING:
    from pinfold.actions.answers import Answer

Command = TypeVar("Command", bound=Callable[..., object])
FOLDER = click.Path(path_type=Path, file_okay=False)


def with_site(command: Command) -> Command:
    """Every verb that answers takes the site folder and may answer in JSON."""
    json = click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON, in SI units.")
    site = click.option("--site", type=FOLDER, default=Path(), show_default="here", help="The site folder.")
    return site(json(command))


def tell(answer: Answer, *, as_json: bool) -> None:
    """Print an answer, to read at the terminal's width or as JSON; its cautions stand in it, of JSON beside it too."""
    from pinfold.actions.answers import told

    for caution in answer.cautions if as_json else ():
        click.echo(f"pinfold: {caution}", err=True)
    click.echo(told(answer, as_json=as_json, width=_width()), nl=False)


def _width() -> int:
    import shutil

    return min(max(shutil.get_terminal_size((80, 24)).columns, 40), 100)


@contextmanager
def progress(label: str) -> Iterator[Callable[[int, int], None]]:
    """How far long work is, on one line of the terminal that is wiped when it is done; nothing where there is none."""
    with counting(label) as say:
        yield lambda done, whole: say(f"{done} of {whole}")


@contextmanager
def counting(label: str) -> Iterator[Callable[[object], None]]:
    """The same for work of which nobody knows how much it is."""

    def say(done: object) -> None:
        if sys.stderr.isatty():
            click.echo(f"\r{label}: {done} ", err=True, nl=False)

    try:
        yield say
    finally:
        if sys.stderr.isatty():
            click.echo("\r\x1b[K", err=True, nl=False)


def words_of(pairs: Sequence[str]) -> dict[str, str]:
    """Fields written as key=value.

    Raises:
        InputError: one without equals sign, or written twice.
    """
    from pinfold.errors import InputError

    words: dict[str, str] = {}
    for pair in pairs:
        key, sign, text = pair.partition("=")
        if not sign:
            raise InputError(f"{pair!r} is no field; write it as key=value, like mix=earth-plaster")
        if key in words:
            raise InputError("stands there twice", place=key)
        words[key] = text
    return words
