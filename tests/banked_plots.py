"""The two samples with earth against their walls and their neighbor on blocks."""

from __future__ import annotations

from importlib.resources import files

import tomlkit

BANKS = {
    "seed-garden": (
        {
            "name": "raised bed", "side": "south", "from": "14 ft", "to": "30 ft", "height": "18 in", "face": "inner",
            "soil": "sand", "slope": "12 deg", "surcharge": "50 psf", "drained": True,
        },
        {"name": "road", "side": "east", "to": "12 ft", "height": "10 in", "face": "outer"},
    ),
    "quinta": (
        {
            "name": "terrace", "side": "hill", "from": "1 m", "to": "7 m", "height": "40 cm", "face": "inner",
            "soil": "sand", "surcharge": "2.5 kPa",
        },
        {
            "name": "track", "side": "lane", "to": "3 m", "height": "25 cm", "face": "outer", "drained": True,
            "passive": True,
        },
    ),
}  # fmt: skip
"""By sample: a bank inside of one side and one outside of another."""
BLOCKS = {
    "seed-garden": {
        "count": 6, "mass": "4000 lb", "spacing": "6 ft", "pad_length": "16 in", "pad_width": "16 in",
        "stack_height": "16 in",
    },
    "quinta": {
        "count": 7, "mass": "1800 kg", "spacing": "1.8 m", "pad_length": "40 cm", "pad_width": "50 cm",
        "stack_height": "40 cm", "stack": "double",
    },
}  # fmt: skip


def banked_text(sample: str) -> str:
    """The plan file of a sample with two banks and its neighbor on blocks; its comments stay."""
    text = files("pinfold.store").joinpath(f"samples/{sample}/plan.toml").read_text(encoding="utf-8")
    plan = tomlkit.parse(text)
    plan["neighbor"][0]["blocks"] = BLOCKS[sample]
    banks = tomlkit.aot()
    for bank in BANKS[sample]:
        table = tomlkit.table()
        table.update(bank)
        banks.append(table)
    plan["bank"] = banks
    return tomlkit.dumps(plan)
