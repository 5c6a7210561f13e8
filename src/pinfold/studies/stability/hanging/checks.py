"""All checks of a gate's leaves: hinges' screws, bracing, joints, sag, gap by season."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache, partial

from pinfold.findings import Finding
from pinfold.plan.hanging import Bracing
from pinfold.studies.gates.frame import frame_of
from pinfold.studies.gates.weight import leaf_weight
from pinfold.studies.layout.records import Layout
from pinfold.studies.stability.answers import Question, answered, governing, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.gates import OPEN_LEAF, Hung, hung_posts
from pinfold.studies.stability.hanging.fixings import on_leaf, on_post
from pinfold.studies.stability.hanging.frames import jointed, squared
from pinfold.studies.stability.hanging.lasting import seasoned, sunk
from pinfold.studies.stability.pieces import caution, limit
from pinfold.units import System

SCREWS_LEFT_OUT = f"{OPEN_LEAF}; bending of straps and hooks; rot, rust and screws driven twice into one hole"
SQUARE_LEFT_OUT = f"{OPEN_LEAF}; middle rails, mesh and stiff corners, which all help"
LASTING_LEFT_OUT = "posts that lean, hinges that wear, and a leaf that is ridden on"


def hanging_findings(layout: Layout, fences: Mapping[str, Exposed]) -> tuple[Finding, ...]:
    """What is found on the leaves of every gate."""
    found: list[Finding] = []
    for place in layout.gates.values():
        found += _of(tuple(hung for hung in hung_posts(layout, fences, place) if hung.hinged), layout.plan.units)
    return tuple(found)


@lru_cache(maxsize=64)  # while one corner is dragged, most gates stay where they were
def _of(hung: tuple[Hung, ...], system: System) -> tuple[Finding, ...]:
    gate = hung[0].gate
    name = f"gate {gate.name}"
    own = partial(_framed, hung[0], system)
    warned = _caution(hung[0])
    questions: list[tuple[Question, Callable[[], Finding]]] = [
        (_screws(f"{name}, hinges on the leaf", warned), partial(_worst, hung, system, on_leaf)),
        (_screws(f"{name}, hinges on the post", warned), partial(_worst, hung, system, on_post)),
        (Question(check="leaf square", subject=name, left_out=SQUARE_LEFT_OUT), partial(own, squared)),
        (Question(check="sag", subject=name, left_out=LASTING_LEFT_OUT), partial(own, sunk)),
        (Question(check="latch gap", subject=name, left_out=LASTING_LEFT_OUT), partial(own, seasoned)),
    ]  # fmt: skip
    if gate.kind.word("material") == "wood" and gate.hanging.bracing in (None, Bracing.STRUT):
        question = Question(check="strut joint", subject=name, left_out=SQUARE_LEFT_OUT)
        questions.append((question, partial(own, jointed)))
    return tuple(answered(question, find) for question, find in questions)


def _screws(subject: str, warned: str) -> Question:
    return Question(check="hinge screws", subject=subject, left_out=SCREWS_LEFT_OUT, caution=warned)


def _framed(hung: Hung, system: System, check: Callable[..., Finding]) -> Finding:
    return check(frame_of(hung.gate, system))


def _worst(hung: tuple[Hung, ...], system: System, check: Callable[[Hung, System], Finding]) -> Finding:
    return governing(tried(partial(check, each, system)) for each in hung)


def _caution(hung: Hung) -> str:
    weighed = tried(lambda: Finding(check="", subject="", demand=leaf_weight(hung.gate).mass))
    return caution("heavy-gate") if (weighed.demand or 0.0) > limit("heavy-gate") else ""
