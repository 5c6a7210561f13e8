"""Words of cutting: lengths as fine as a saw cut, what falls off, how sure a plan is."""

from __future__ import annotations

import math

from pinfold.plan.cutting import Cutting
from pinfold.studies.cutting.records import Proof, Uncut
from pinfold.studies.quantities.standing import TAPE_STEP
from pinfold.units import Meter, System, money, tape

_SIXTEENTH = 0.0254 / 16
CAUTIONS = (
    "Glasses, muffs and a mask at every cut. Treated wood, fiber cement and zinc: damp their dust down, and keep their "
    "chips out of the fire.",
    "Never saw through a zone marked nails. A blade that binds throws the piece back: hold up both sides of it and "
    "let what falls off fall free.",
)
_NO_KERF = (
    "The saw is told to take nothing. Any blade takes 1.5 to 3 mm (1/16 to 1/8 in), so the last part of a length "
    "comes out short by all of its cuts: saw a slot, measure it, and write it as kerf under [cutting] in the plan."
)
MESH_CAUTION = (
    "A cut roll or coil springs open: stand on its end, weight it, hold both ends of a wire, cut from the far side, "
    "and bend every cut end over. Gloves and glasses."
)


def cautions(cutting: Cutting) -> tuple[str, ...]:
    """At the saw; one that is told to take nothing is warned of."""
    return CAUTIONS if cutting.kerf > 0 else (_NO_KERF, *CAUTIONS)


def fine(length: Meter, system: System) -> str:
    """A length as the tape shows it, in 64ths of an inch or tenths of a millimeter where it lies between its marks."""
    if system is System.METRIC:
        tenths = round(length * 1e4)
        return tape(length, system) if tenths % 10 == 0 else f"{tenths / 10:.1f} mm"
    parts = round(length / _SIXTEENTH * 4)
    if parts % 4 == 0:
        return tape(length, system)
    feet, rest = divmod(parts, 64 * 12)
    whole, over = divmod(rest, 64)
    shrink = math.gcd(over, 64)
    inches = f"{whole} " * bool(whole) + f'{over // shrink}/{64 // shrink}"'
    return f"{feet}' {inches}" if feet else inches


def whole(length: Meter, system: System) -> str:
    """A length down to the mark of the tape."""
    mark = TAPE_STEP[system]
    return tape(math.floor(length / mark + 1e-6) * mark, system)


def sure(proof: Proof, found: int, bound: int, *, currency: str, digits: int) -> str:
    """How sure it is that no plan costs less, in a sentence."""
    if proof is Proof.OPTIMUM:
        return "Proven: no way of cutting these parts costs less."
    gap = money(found - bound, currency, digits)
    return f"Not proven in the time given: a better way of cutting could save {gap} at most."


def lacking(uncut: Uncut, system: System) -> str:
    """What is not cut, why, and what would mend it."""
    return f"{uncut.many} of {uncut.mark} cannot be cut: {uncut.because}. What would mend it: {uncut.mend}."
