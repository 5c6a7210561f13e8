"""Values inside one table of a plan file put in place, and new tables written as the samples write them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, MutableMapping, MutableSequence

ORDER = {
    "corner": ("name", "x", "y"),
    "side": ("name", "from", "to", "follow", "buildup", "runs"),
    "gate": ("name", "side", "at", "width", "height", "leaves", "hinges", "swing", "gap", "under", "kind", "post",
             "embed", "collar"),
    "neighbor": ("name", "says", "height", "footprint"),
    "line": ("name", "carries", "depth", "clearance", "located", "points"),
    "bank": ("name", "side", "from", "to", "height", "face", "soil", "slope", "surcharge", "drained", "wall_friction",
             "passive"),
    "ground": ("points",),
}  # fmt: skip
LONGEST = 100
"""Letters on one line before a list goes over several."""


def changed_values(text: str, kind: str, wanted: Mapping[str, object]) -> str:
    """One table's text with its values as wanted; its comments and the order of its keys stay."""
    import tomlkit

    old = _own(tomllib.loads(text), kind)
    if old == wanted:
        return text
    document = tomlkit.parse(text)
    found = document[kind]
    table = found[0] if isinstance(found, list) else found
    _into(table, wanted)
    result = tomlkit.dumps(document)
    if _reads(result, kind) == wanted:
        return result
    return _rebuilt(text, kind, wanted)


def _own(table: Mapping[str, object], kind: str) -> object:
    found = table.get(kind)
    return found[0] if isinstance(found, list) and found else found


def _reads(text: str, kind: str) -> object:
    try:
        return _own(tomllib.loads(text), kind)
    except tomllib.TOMLDecodeError:
        return None


def _rebuilt(text: str, kind: str, wanted: Mapping[str, object]) -> str:
    """Lists that the library could not change piece by piece are written anew."""
    import tomlkit

    document = tomlkit.parse(text)
    found = document[kind]
    table = found[0] if isinstance(found, list) else found
    for key in [key for key in table if key not in wanted]:
        del table[key]
    for key, value in wanted.items():
        if table.get(key) != value:
            table[key] = tomlkit.parse(f"x = {written(value)}\n")["x"]
    return tomlkit.dumps(document)


def _into(table: MutableMapping[str, object], wanted: Mapping[str, object]) -> None:
    for key in [key for key in table if key not in wanted]:
        del table[key]
    for key, value in wanted.items():
        here = table.get(key)
        if here is None or type(here).__name__ == "NoneType":
            table[key] = _item(value)
        elif here != value:
            _put(table, key, here, value)


def _put(
    table: MutableMapping[str, object] | MutableSequence[object], key: object, here: object, value: object
) -> None:
    if isinstance(here, MutableSequence) and isinstance(value, list) and len(here) == len(value):
        for number, part in enumerate(value):
            if here[number] != part:
                _put(here, number, here[number], part)
    elif isinstance(here, MutableMapping) and isinstance(value, Mapping):
        _into(here, value)
    else:
        table[key] = _item(value)  # type: ignore[index,call-overload]


def _item(value: object) -> object:
    import tomlkit

    return tomlkit.parse(f"x = {written(value)}\n")["x"] if isinstance(value, list | Mapping) else value


def fresh(kind: str, row: object, end: str) -> str:
    """A new table in the style of the samples."""
    if not isinstance(row, Mapping):
        return ""
    order = ORDER[kind]
    keys = sorted(row, key=lambda key: (order.index(key) if key in order else len(order), key))
    lines = [f"[{kind}]" if kind == "ground" else f"[[{kind}]]"]
    lines += [f"{_key(key)} = {written(row[key])}" for key in keys]
    return "\n".join([*lines, ""]).replace("\n", end)


def _key(key: str) -> str:
    import tomlkit

    return key if key.isidentifier() and key.isascii() else tomlkit.string(key).as_string()


def written(value: object) -> str:
    """A value as TOML: short lists on one line, long ones an entry a line."""
    import tomlkit

    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{_key(str(key))} = {written(part)}" for key, part in value.items()) + " }"
    if isinstance(value, list):
        parts = [written(part) for part in value]
        line = f"[{', '.join(parts)}]"
        nested = any(isinstance(part, Mapping) for part in value)
        if len(line) <= LONGEST and not (nested and len(parts) > 1):
            return line
        return "[\n" + "".join(f"    {part},\n" for part in parts) + "]"
    return tomlkit.item(value).as_string()
