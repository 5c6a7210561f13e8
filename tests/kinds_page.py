"""The kinds page: every kind of every shelf that a plan, a price list or a pile may name.

`python tests/kinds_page.py` writes docs/kinds.md anew; a test holds the page to the shelves.
"""

from __future__ import annotations

from pathlib import Path

from pinfold.tables.shelf import Kind, shelf

PAGE = Path(__file__).parents[1] / "docs" / "kinds.md"
SHELVES = {
    "walls": "`wall.kind`",
    "footings": "`footing.kind`",
    "coats": "`coat.kind`",
    "mixes": "`mortar`, `grout_mix`",
    "copings": "`coping.kind`",
    "posts": "`posts.kind`, `stout`, a gate's `post`",
    "rails": "`rail.kind`",
    "meshes": "`mesh.kind`, a coat's `mesh`",
    "gates": "a gate's `kind`",
    "hinges": "a gate's `hanging.hinge`",
    "bars": "`bar`, `course_bar`",
    "boards": "boards of forms: prices and pile",
    "soils": "`place.soil`",
    "cribs": "a neighbor's `blocks.crib`",
    "hand_tests": "`place.hand_test`",
    "surfaces": "`place.surface`",
    "pushes": "`place.pushes`",
    "materials": "what mixes are made of: prices and pile",
    "fasteners": "ties, pins, hinges: prices and pile",
}


def page() -> str:
    """The whole page as text."""
    lines = [
        "# Kinds: everything a plan can name",
        "",
        "Made by `python tests/kinds_page.py` from the shelves in `src/pinfold/tables/`; a test keeps it true. The names are",
        "those for the plan, for `[price.NAME]` in prices.toml and for the item column of pile.csv. The figures named in the",
        "last column are shipped, each with its source and standing, and may be put over by the plan; those in *italics* are",
        "not shipped: what rests on them is NOT SHOWN until the plan gives them.",
        "",
    ]
    for name, where in SHELVES.items():
        lines += [f"## {name.replace('_', ' ')}: {where}", "", "| name | what it is | figures |", "|---|---|---|"]
        lines += [f"| `{kind.name}` | {kind.says} | {_figures(kind)} |" for kind in shelf(name).values()]
        lines.append("")
    return "\n".join(lines)


def _figures(kind: Kind) -> str:
    asks = kind.words.get("asks", {})
    wanted = [f"*{name}*" for name in asks] if isinstance(asks, dict) else []
    return ", ".join([*kind.figures, *wanted])


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
