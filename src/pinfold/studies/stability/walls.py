"""Walls as a whole: overturning, sliding, and the pressure on the ground."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from pinfold.errors import NotFoundError
from pinfold.figures import Figure
from pinfold.findings import Finding, Step, work
from pinfold.formulas import bearing as ground
from pinfold.formulas import walls
from pinfold.plan.place import Family, Place
from pinfold.studies.layout.records import Stretch
from pinfold.studies.stability.air import figures_of, site_of
from pinfold.studies.stability.answers import Question, answered, governing, told
from pinfold.studies.stability.ends import Line, has_wall
from pinfold.studies.stability.factors import COMBINATIONS, TAMPED_STONE, Combination, Named
from pinfold.studies.stability.height import standing_cautions
from pinfold.studies.stability.lattices import Lattice, lattice_figures, lattice_of
from pinfold.studies.stability.loads import Face, Wind, wind_on
from pinfold.studies.stability.pieces import Piece, Weight, pieces_of, weight_of
from pinfold.studies.stability.tipping import carries_mesh, turning
from pinfold.units import NEWTON_METER_PER_METER, NEWTON_PER_METER, PASCAL

LEFT_OUT = (
    "earth in front of the footing, earthquakes, animals and people pushing, trees and the shelter of what stands near; "
    "the twist of wind on one half of the wall; help from returns and piers"
)


@dataclass(frozen=True, kw_only=True)
class Ask:
    """What the checks of one stretch of wall work from.

    Attributes:
        stretch: of wall.
        line: where it lies in its line of wall.
        family: which standards.
        place: wind and ground.
    """

    stretch: Stretch
    line: Line
    family: Family
    place: Place

    @property
    def factors(self) -> Combination:
        """Shares of wind and weight by the family."""
        return COMBINATIONS[self.family]

    def wind(self, piece: Piece) -> Wind:
        """Wind on a piece of the stretch.

        Raises:
            NotFoundError: wind or mesh are not known well enough.
            OutOfRangeError: past the tables.
        """
        mesh = self.lattice()
        line = self.line.piece(piece.step.start, self.stretch.length - piece.step.end)
        face = Face(
            site=site_of(self.family, self.place), line=line, wall=piece.exposed,
            mesh=mesh.height if mesh is not None else 0.0, lattice=mesh,
        )  # fmt: skip
        return wind_on(face)

    def lattice(self) -> Lattice | None:
        """The mesh above, where there is any.

        Raises:
            NotFoundError: its wires are not known.
        """
        return lattice_of(self.stretch.buildup)

    def wind_figures(self) -> Named:
        """The figures behind the wind and the mesh."""
        return (*figures_of(site_of(self.family, self.place)), *lattice_figures(self.stretch.buildup))


Check = Callable[[Ask, Piece], Finding]


def standing(ask: Ask) -> tuple[Finding, ...]:
    """Overturning, sliding and bearing of one stretch of wall; nothing where no wall stands by itself."""
    if not has_wall(ask.stretch):
        return ()
    return (
        over_steps(ask, "overturning", overturning, caution=standing_cautions(ask.stretch)),
        over_steps(ask, "sliding", sliding),
        over_steps(ask, "bearing", bearing),
    )


def over_steps(ask: Ask, check: str, find: Check, *, caution: str = "") -> Finding:
    """One check over every step of a stretch: the worst step's finding."""
    question = Question(check=check, subject=f"run {ask.stretch.name}", left_out=LEFT_OUT, caution=caution)

    def all_steps() -> Finding:
        return governing(answered(question, lambda p=piece: find(ask, p)) for piece in pieces_of(ask.stretch))

    return answered(question, all_steps)


def overturning(ask: Ask, piece: Piece) -> Finding:
    """Whether the weights hold a piece of wall on its base.

    Raises:
        NotFoundError: wind, mesh or masses are not known.
        OutOfRangeError: past the tables.
    """
    wind, weight = ask.wind(piece), weight_of(piece, ask.place.soil, least=True)
    turned = turning(piece, wind, piece.depth)
    held = work(
        walls.resisting_moment, why="all weights about the toe", weight=weight.total, arm=piece.base.width / 2
    )  # fmt: skip
    factors = ask.factors
    use = work(
        walls.equilibrium_use, why="both with their factors", overturning=turned.moment, resisting=held.number,
        load_factor=factors.wind.value, weight_factor=factors.weight.value,
    )  # fmt: skip
    demand, capacity = factors.wind.value * turned.moment, factors.weight.value * held.number
    return Finding(
        check="overturning", subject="", demand=demand, capacity=capacity, unit=NEWTON_METER_PER_METER,
        because=told(_base_note(piece), _mesh_note(piece), *wind.notes, *weight.notes),
        working=(*wind.working, *weight.working, *turned.working, held, use),
        figures=(*ask.wind_figures(), *weight.figures, *factors.balance),
        mend="" if demand <= capacity else "wider or heavier base, lower or heavier wall, or less mesh above it",
    )  # fmt: skip


def sliding(ask: Ask, piece: Piece) -> Finding:
    """Whether the ground holds a piece of wall against sliding.

    Raises:
        NotFoundError: wind, masses, soil or friction are not known.
        OutOfRangeError: past the tables.
    """
    grip, cling, gripped = _grip(ask, piece)
    wind, weight = ask.wind(piece), weight_of(piece, ask.place.soil, least=True)
    turned, factors = turning(piece, wind, piece.depth), ask.factors
    held = work(
        walls.sliding_resistance, why="friction and cling, weight with its factor",
        load=factors.weight.value * weight.total, friction=grip, cohesion=cling, width=piece.base.width,
    )  # fmt: skip
    demand = factors.wind.value * turned.force
    return Finding(
        check="sliding", subject="", demand=demand, capacity=held.number, unit=NEWTON_PER_METER,
        because=told(_base_note(piece), _mesh_note(piece), *wind.notes, *weight.notes),
        working=(*wind.working, *weight.working, *turned.working, held),
        figures=(*ask.wind_figures(), *weight.figures, *gripped, *factors.balance),
        mend="" if demand <= held.number else "heavier wall or footing, or a key under the footing",
    )  # fmt: skip


def _grip(ask: Ask, piece: Piece) -> tuple[float, float, Named]:
    """Friction and cling under a base, and where they come from."""
    if piece.base.on_stone:
        own = piece.wall.kind
        figure = own.figure("friction") if own.has("friction") else TAMPED_STONE
        return figure.value, 0.0, (("friction on tamped stone", figure),)
    soil = ask.place.soil
    if soil is None:
        raise NotFoundError("no soil is given; write soil or hand_test under [place]")
    if not soil.has("friction") and not soil.has("cohesion"):
        raise NotFoundError(f"neither friction nor cohesion is known for {soil.name}")
    named: list[tuple[str, Figure]] = [(name, soil.figure(name)) for name in ("friction", "cohesion") if soil.has(name)]
    figures = dict(named)
    zero = 0.0
    friction = figures["friction"].value if "friction" in figures else zero
    cohesion = figures["cohesion"].value if "cohesion" in figures else zero
    return friction, cohesion, tuple(named)


def bearing(ask: Ask, piece: Piece) -> Finding:
    """Whether the ground bears the pressed edge of a base.

    Raises:
        NotFoundError: wind, masses, soil or its bearing are not known.
        OutOfRangeError: the piece tips over before it presses, or past the tables.
    """
    soil = ask.place.soil
    if soil is None:
        raise NotFoundError("no soil is given; write soil or hand_test under [place]")
    allowed = soil.figure("bearing")
    wind, factors = ask.wind(piece), ask.factors
    turned = turning(piece, wind, piece.depth)
    cases = [(_pressed(piece, w, factors.service.value * turned.moment), w) for w in _weights(ask, piece)]
    (demand, steps, note), weight = max(cases, key=lambda case: case[0][0])
    return Finding(
        check="bearing", subject="", demand=demand, capacity=allowed.value, unit=PASCAL,
        because=told(_base_note(piece), note, _mesh_note(piece), *wind.notes, *weight.notes),
        working=(*wind.working, *weight.working, *turned.working, *steps),
        figures=(*ask.wind_figures(), *weight.figures, ("bearing of the ground", allowed), *factors.allowable),
        mend="" if demand <= allowed.value else "wider footing",
    )  # fmt: skip


def _weights(ask: Ask, piece: Piece) -> tuple[Weight, Weight]:
    return tuple(weight_of(piece, ask.place.soil, least=least) for least in (True, False))  # type: ignore[return-value]


def _pressed(piece: Piece, weight: Weight, moment: float) -> tuple[float, tuple[Step, ...], str]:
    off = work(ground.eccentricity, why="how far off the middle the load stands", moment=moment, load=weight.total)
    pressed = work(
        ground.base_pressure, why="pressure under the toe", load=weight.total, width=piece.base.width,
        eccentricity=off.number,
    )  # fmt: skip
    result = pressed.result
    assert isinstance(result, ground.BasePressure)
    lifted = result.contact < piece.base.width
    return result.toe, (off, pressed), "the heel lifts: part of the base presses alone" if lifted else ""


def _base_note(piece: Piece) -> str:
    if piece.base.on_stone:
        return "tamped stone holds no wall down: it stands on its own lowest bed"
    return "" if piece.base.footing else "without footing: it stands on its own lowest bed"


def _mesh_note(piece: Piece) -> str:
    if piece.buildup.mesh is None or carries_mesh(piece):
        return ""
    return "the mesh is carried by posts in the ground"
