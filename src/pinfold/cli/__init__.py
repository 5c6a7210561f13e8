"""Door 1: words to an action, an action to words."""

from __future__ import annotations

import os
import sys


def main(arguments: list[str] | None = None) -> int:
    """Run the command line and return its exit status, by the error tree; a bug shows its trace and gives 70."""
    import click

    from pinfold.actions.pace import look_for_garbage_seldom
    from pinfold.cli.commands import pinfold
    from pinfold.errors import PinfoldError

    look_for_garbage_seldom()
    try:
        pinfold.main(args=arguments, standalone_mode=False, prog_name="pinfold")
    except PinfoldError as stopped:
        click.echo(f"pinfold: {stopped}", err=True)
        return stopped.exit_status
    except click.exceptions.Exit as done:
        return done.exit_code
    except click.exceptions.Abort:
        click.echo("pinfold: stopped; no file is left half-written", err=True)
        return 130
    except click.ClickException as mistake:
        mistake.show()
        return 2
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as fault:
        click.echo(f"pinfold: the answer cannot be written: {(fault.strerror or str(fault)).lower()}", err=True)
        return 3
    except Exception:
        import traceback

        traceback.print_exc()
        return 70
    return 0


def run() -> None:
    """What the installed command calls."""
    sys.exit(main())
