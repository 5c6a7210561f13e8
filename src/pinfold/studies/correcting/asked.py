"""What can be told of a batch in the mixer; the command line and the page make their options and fields from it."""

from __future__ import annotations

from pinfold.studies.proportioning.records import Ask
from pinfold.units import CUBIC_METER, KG_PER_CUBIC_METER, KILOGRAM, METER, RATIO

ASKS = (
    Ask(key="weighed", says="what the pail weighs with the mix in it", unit=KILOGRAM, low=0.05, high=200.0,
        example="18.2 kg or 40 lb"),
    Ask(key="pail", says="what that pail holds to the brim; the plan's bucket where it is left empty", unit=CUBIC_METER,
        low=2e-4, high=0.2, example="20 L or 5 gal"),
    Ask(key="empty", says="what the empty pail weighs; taken off already where it is left empty", unit=KILOGRAM,
        low=0.0, high=50.0, example="0.9 kg or 2 lb"),
    Ask(key="gap", says="from the rim down to the mix where the pail was not brim full", unit=METER, low=0.0, high=1.0,
        example="3 cm or 1 in"),
    Ask(key="pail_depth", says="inside depth of the pail, beside a gap", unit=METER, low=0.03, high=1.5,
        example="35 cm or 14 in"),
    Ask(key="density", says="density of the fresh mix, where it is known without a pail", unit=KG_PER_CUBIC_METER,
        low=10.0, high=4000.0, example="860 kg/m3 or 54 lb/ft3"),
    Ask(key="cast", says="density wanted of foamed concrete; the mix's own where it is left empty",
        unit=KG_PER_CUBIC_METER, low=10.0, high=3000.0, example="800 kg/m3 or 50 lb/ft3"),
    Ask(key="foam", says="foam that was folded in, where it was not what the card says", unit=CUBIC_METER, low=0.0,
        high=2.0, example="60 L or 2 ft3"),
    Ask(key="left", says="what is left in the mixer, where some is out already", unit=CUBIC_METER, low=1e-4, high=2.0,
        example="40 L or 1.5 ft3"),
    Ask(key="slump", says="how far a cone of it sinks", unit=METER, low=0.0, high=0.3, example="5 cm or 2 in"),
    Ask(key="slump_wanted", says="how far it should sink; usual for the mix where it is left empty", unit=METER,
        low=0.0, high=0.3, example="10 cm or 4 in"),
    Ask(key="water_over", says="water poured in over what the card says; with a minus for less", unit=CUBIC_METER,
        low=-0.2, high=0.2, example="2 L or 1/2 gal"),
    Ask(key="cement_short", says="cement that is missing", unit=KILOGRAM, low=0.0, high=500.0, example="5 kg or 11 lb"),
    Ask(key="lime_short", says="lime that is missing", unit=KILOGRAM, low=0.0, high=500.0, example="5 kg or 11 lb"),
    Ask(key="sand_short", says="sand that is missing, dry", unit=KILOGRAM, low=0.0, high=2000.0,
        example="10 kg or 22 lb"),
    Ask(key="gravel_short", says="gravel that is missing", unit=KILOGRAM, low=0.0, high=2000.0,
        example="10 kg or 22 lb"),
    Ask(key="sand_moisture", says="water in the sand over its dry mass, where it was wetter or drier than thought",
        unit=RATIO, low=0.0, high=0.3, example="9 %"),
    Ask(key="sand_by", says="how the sand was measured", choices=("bucket", "scale"), otherwise="bucket"),
    Ask(key="batch", says="most the mixer turns at once; the plan's where it is left empty", unit=CUBIC_METER,
        low=0.002, high=1.0, example="60 L or 2 ft3"),
)  # fmt: skip
"""All that can be told; nothing of it must be, but one thing to judge by."""

SHORT = {"cement_short": "cement", "lime_short": "lime", "sand_short": "sand", "gravel_short": "gravel"}
"""Which part a key of a shortage is about."""
WEIGHED = ("weighed", "density")
SLIPPED = (*SHORT, "water_over", "sand_moisture")
"""Keys that something can be judged by, beside `slump`."""
BESIDE = {"empty": "weighed", "pail": "weighed", "gap": "weighed", "pail_depth": "gap", "slump_wanted": "slump"}
"""Keys that say nothing without another one."""
FOAMED = ("cast", "foam", "left")
"""Keys that are about a weighed foamed batch alone."""
GROUPS = {
    "a weighed pail": ("weighed", "pail", "empty", "gap", "pail_depth", "density"),
    "slump": ("slump", "slump_wanted"),
    "foam": FOAMED,
    "what slipped": (*SLIPPED, "sand_by"),
    "the mixer": ("batch",),
}
"""Keys that belong together, by what they are about."""
