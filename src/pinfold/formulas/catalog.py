"""All formulas by name: every public function of the subject modules."""

from __future__ import annotations

import difflib
import importlib
import inspect
import pkgutil
from collections.abc import Callable
from functools import cache

import pinfold.formulas as package
from pinfold.errors import NotFoundError
from pinfold.formulas.contract import Contract, contract_of

NOT_SUBJECTS = {"catalog", "contract", "ranges"}


@cache
def formulas() -> dict[str, Callable[..., object]]:
    """Every formula, by `subject.name`, in order of subject and place."""
    found: dict[str, Callable[..., object]] = {}
    for module_info in pkgutil.iter_modules(package.__path__):
        if module_info.name in NOT_SUBJECTS:
            continue
        module = importlib.import_module(f"{package.__name__}.{module_info.name}")
        for name, function in vars(module).items():
            if inspect.isfunction(function) and function.__module__ == module.__name__ and not name.startswith("_"):
                found[f"{module_info.name}.{name}"] = function
    return found


@cache  # a page of working asks a thousand times
def contract_named(name: str) -> Contract:
    """The contract of a formula by its full name, or by its last part where only one formula ends so.

    Raises:
        NotFoundError: none or several fit; the message offers the nearest.
    """
    known = formulas()
    fits = [full for full in known if full == name or full.partition(".")[2] == name]
    if len(fits) == 1:
        return contract_of(known[fits[0]])
    if fits:
        raise NotFoundError(f"{name!r} is the name of several formulas: {', '.join(fits)}; write one in full")
    near = difflib.get_close_matches(name, [*known, *(full.partition(".")[2] for full in known)], n=3)
    hint = f"; near it: {', '.join(near)}" if near else ""
    raise NotFoundError(f"no formula {name!r}{hint}; 'pinfold formula --list' shows all {len(known)}")
