"""Reading a formula's docstring: what it gives, its arguments with units, its range, source and example.

The sections and their order are fixed (see docs/formulas.md): a first line that ends in the equation, Args, Returns,
Raises, Range, Source, Notes (optional), Example.
"""

from __future__ import annotations

import enum
import inspect
import re
import typing
from collections.abc import Callable
from dataclasses import dataclass, fields, is_dataclass
from functools import cache

from pinfold.sources import Standing
from pinfold.units import RATIO, Unit

SECTIONS = ("Args", "Returns", "Raises", "Range", "Source", "Notes", "Example")
_ARGUMENT = re.compile(r"^(\w+): (.*?)(?: \[([^\]]+)\])?$")
_STANDING = re.compile(rf"\(({'|'.join(Standing)})\)")


@dataclass(frozen=True, kw_only=True)
class Argument:
    """One argument of a formula.

    Attributes:
        name: keyword it is called by.
        meaning: symbol and meaning from the docstring.
        unit: SI unit; None for a choice or a flag.
        printed_unit: what the docstring prints in brackets, empty when nothing.
        choices: allowed words where it is a choice.
        default: the value when it is not given; `inspect.Parameter.empty` when it must be.
    """

    name: str
    meaning: str
    unit: Unit | None
    printed_unit: str
    choices: tuple[str, ...]
    default: object


@dataclass(frozen=True, kw_only=True)
class Contract:
    """What a formula's docstring promises.

    Attributes:
        name: `module.function`.
        says: first line without the equation.
        equation: the equation in plain symbols, empty for a table look-up.
        arguments: in order.
        result: (name, unit) of each number it returns; name empty for a single one.
        sections: raw text of each section.
        sources: publication keys named in the Source section.
        standings: their standings, in the order named.
        function: the formula.
    """

    name: str
    says: str
    equation: str
    arguments: tuple[Argument, ...]
    result: tuple[tuple[str, Unit], ...]
    sections: dict[str, str]
    sources: tuple[str, ...]
    standings: tuple[Standing, ...]
    function: Callable[..., object]


@cache
def contract_of(function: Callable[..., object]) -> Contract:
    """Read one formula's contract.

    Raises:
        ValueError: a section is missing or an argument is not described (the contract test finds it first).
    """
    name = f"{function.__module__.rpartition('.')[2]}.{function.__name__}"
    head, sections = _sections(inspect.getdoc(function) or "")
    says, _, equation = head.rstrip(".").partition(": ")
    source = sections.get("Source", "")
    return Contract(
        name=name, says=says, equation=equation, arguments=_arguments(function, sections.get("Args", "")),
        result=result_units(function), sections=sections,
        sources=tuple(re.findall(r"^([A-Z][A-Z0-9-]+)(?=[,:. ]|$)", source, flags=re.MULTILINE)),
        standings=tuple(Standing(word) for word in _STANDING.findall(source)), function=function,
    )  # fmt: skip


def _sections(doc: str) -> tuple[str, dict[str, str]]:
    head, *rest = doc.split("\n\n", 1)
    sections: dict[str, str] = {}
    name: str = ""
    lines: list[str] = []
    for line in (rest[0] if rest else "").splitlines():
        if line.rstrip(":") in SECTIONS and line.endswith(":"):
            if name:
                sections[name] = _dedent(lines)
            name, lines = line.rstrip(":"), []
        else:
            lines.append(line)
    if name:
        sections[name] = _dedent(lines)
    return " ".join(head.split()), sections


def _dedent(lines: list[str]) -> str:
    return inspect.cleandoc("\n" + "\n".join(lines)).strip()


def _arguments(function: Callable[..., object], text: str) -> tuple[Argument, ...]:
    described = {}
    for line in re.sub(r"\n\s+", " ", text).splitlines():
        if match := _ARGUMENT.match(line.strip()):
            described[match[1]] = (match[2], match[3] or "")
    hints = typing.get_type_hints(function, include_extras=True)
    arguments = []
    for name, parameter in inspect.signature(function).parameters.items():
        if name not in described:
            raise ValueError(f"{function.__qualname__} does not describe its argument {name}")
        meaning, printed_unit = described[name]
        arguments.append(
            Argument(
                name=name,
                meaning=meaning,
                unit=unit_in(hints[name]),
                printed_unit=printed_unit,
                choices=_choices(hints[name]),
                default=parameter.default,
            )
        )
    return tuple(arguments)


def unit_in(hint: object) -> Unit | None:
    """The unit a type alias carries, None where it carries none."""
    for part in (hint, *typing.get_args(hint)):
        for note in getattr(part, "__metadata__", ()):
            if isinstance(note, Unit):
                return note
    return None


def _choices(hint: object) -> tuple[str, ...]:
    if typing.get_origin(hint) is typing.Literal:
        return tuple(str(word) for word in typing.get_args(hint))
    if isinstance(hint, type) and issubclass(hint, enum.Enum):
        return tuple(str(member.value) for member in hint)
    return ("true", "false") if hint is bool else ()


def result_units(function: Callable[..., object]) -> tuple[tuple[str, Unit], ...]:
    """(name, unit) of each number a formula returns; a record's fields by name."""
    hint = typing.get_type_hints(function, include_extras=True).get("return")
    record = next(
        (part for part in (hint, *typing.get_args(hint)) if isinstance(part, type) and is_dataclass(part)),
        None,
    )
    if record is not None:
        hints = typing.get_type_hints(record, include_extras=True)
        return tuple((field.name, unit_in(hints[field.name]) or RATIO) for field in fields(record))
    return (("", unit_in(hint) or RATIO),)
