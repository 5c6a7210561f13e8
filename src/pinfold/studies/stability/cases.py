"""One step of wall with all that acts on it: its wind or another load, its weights; each found once, when asked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property

from pinfold.plan.place import Family, Place
from pinfold.studies.layout.records import Stretch
from pinfold.studies.stability.air import Site, figures_of, site_of
from pinfold.studies.stability.ends import Line
from pinfold.studies.stability.factors import COMBINATIONS, Combination, Named
from pinfold.studies.stability.lattices import Lattice, lattice_figures, lattice_of
from pinfold.studies.stability.loads import Face, Wind, wind_on
from pinfold.studies.stability.panels import Held, Panels, panels_of, worst_panel
from pinfold.studies.stability.pieces import Piece, pieces_of
from pinfold.studies.stability.returns import NONE, Return, Returns
from pinfold.studies.stability.tipping import Acting, Panel, Turning, carries_mesh, turning
from pinfold.studies.stability.weights import Weight, weight_of
from pinfold.units import Meter

_SAME: Meter = 0.01


@dataclass(frozen=True, kw_only=True)
class Exposed:
    """A stretch with its wind, as the checks of its walls and posts ask for it.

    What is asked for and not known raises NotFoundError; what is past a published table OutOfRangeError.

    Attributes:
        stretch: of wall or fence.
        line: where it lies in its line of wall.
        family: which standards.
        place: wind and ground.
        held: posts that hand the wind on the fence to its wall.
        returns: walls around its corners that are bonded with it.
    """

    stretch: Stretch
    line: Line
    family: Family
    place: Place
    held: Held
    returns: Returns = NONE

    @property
    def factors(self) -> Combination:
        """Shares of wind and weight by the family."""
        return COMBINATIONS[self.family]

    @cached_property
    def site(self) -> Site:
        """The wind at the plot."""
        return site_of(self.family, self.place)

    @cached_property
    def lattice(self) -> Lattice | None:
        """The mesh, where there is any."""
        return lattice_of(self.stretch.buildup)

    @cached_property
    def figures(self) -> Named:
        """The figures behind the wind and the mesh."""
        mesh = lattice_figures(self.family, self.stretch.buildup) if self.lattice is not None else ()
        return (*figures_of(self.site), *mesh)

    @cached_property
    def cases(self) -> tuple[Case, ...]:
        """Every step of its wall in the wind."""
        return self.under(blown)

    def under(self, action: Action) -> tuple[Case, ...]:
        """Every step of its wall under another action than the wind."""
        return tuple(Case(of=self, piece=piece, action=action) for piece in self._pieces)

    @cached_property
    def _pieces(self) -> tuple[Piece, ...]:
        return pieces_of(self.stretch)

    @cached_property
    def wind(self) -> Wind:
        """Wind on the stretch where its wall is tallest and its end nearest: what its posts are checked with."""
        return self.wind_with(self.lattice)

    def wind_with(self, lattice: Lattice | None) -> Wind:
        """The same with another mesh above it."""
        coping = self.stretch.buildup.coping.thickness if self.stretch.buildup.coping else 0.0
        return self._wind_on(self.stretch.tallest + coping if self.stretch.steps else 0.0, self.line, lattice)

    @cached_property
    def panels(self) -> Panels:
        """Its wall between control joints, with the fence that hangs on each."""
        return panels_of(self.stretch, self.held)

    def wind_on(self, wall: Meter, line: Line) -> Wind:
        """Wind on a part of it with so high a wall."""
        return self._wind_on(wall, line, self.lattice)

    def _wind_on(self, wall: Meter, line: Line, lattice: Lattice | None) -> Wind:
        mesh = lattice.height if lattice is not None else 0.0
        return wind_on(Face(site=self.site, line=line, wall=wall, mesh=mesh, lattice=lattice))


@dataclass(frozen=True, kw_only=True)
class Case:
    """One step of a stretch of wall.

    Attributes:
        of: the stretch.
        piece: the step where it stands highest.
        action: what acts on it; the wind, or another action by itself.
        around: the wall around the corner, where the step is only the panel at that corner; else None.
    """

    of: Exposed
    piece: Piece
    action: Action
    around: Return | None = None

    @cached_property
    def acting(self) -> Acting:
        """What its action does to it."""
        return self.action(self)

    @cached_property
    def wind(self) -> Wind:
        """Wind on the step, by its distance from the ends of its line of wall."""
        step = self.piece.step
        return self.of.wind_on(self.piece.exposed, self.of.line.piece(step.start, self.of.stretch.length - step.end))

    @cached_property
    def light(self) -> Weight:
        """Weight by the lightest masses known, where weight helps."""
        return weight_of(self.piece, self.of.place.soil, least=True)

    @cached_property
    def heavy(self) -> Weight:
        """Weight by the usual masses."""
        if not self.piece.wall.kind.has("mass_per_area_least"):
            return self.light
        return weight_of(self.piece, self.of.place.soil, least=False)

    @cached_property
    def about_base(self) -> Turning:
        """What acts, about the underside of the base."""
        return self.acting.about(self.piece.depth)

    @cached_property
    def about_bed(self) -> Turning:
        """What acts, about the lowest bed."""
        return self.about_base if self.piece.base.footing <= 0 else self.acting.about(self.piece.sunk)

    @cached_property
    def panel(self) -> Panel:
        """Its panel with the most fence on its posts."""
        return worst_panel(self.of.panels, self.of.stretch, self.piece.step)

    @cached_property
    def parts(self) -> tuple[Case, ...]:
        """The panels at its corners, and what stands between; none where no corner helps against what acts."""
        ends = _ends(self) if self.action is blown and any(self.of.returns) else ()
        low, high = self.piece.step.start, self.piece.step.end
        for _, start, end in ends:
            low, high = (end, high) if start <= low + _SAME else (low, start)
        between = ((None, low, high),) if ends and high - low > _SAME else ()
        return tuple(self._part(*each) for each in (*ends, *between))

    def _part(self, around: Return | None, start: Meter, end: Meter) -> Case:
        step = self.piece.step._replace(start=start, end=end)
        return replace(self, piece=replace(self.piece, step=step), around=around)


def _ends(case: Case) -> tuple[tuple[Return, Meter, Meter], ...]:
    """Panels of a step next to a corner: what is around it, from where to where; a panel between two, once."""
    stretch, step, panels = case.of.stretch, case.piece.step, case.of.panels
    first, last = case.of.returns
    start, end = panels[0][1] - stretch.start, panels[-1][0] - stretch.start
    found = []
    if first is not None and step.start < _SAME and start <= step.end + _SAME:
        found.append((first, 0.0, start))
    alone = len(panels) == 1 and found
    if last is not None and step.end > stretch.length - _SAME and end >= step.start - _SAME and not alone:
        found.append((last, end, stretch.length))
    return tuple(found)


Action = Callable[[Case], Acting]
"""Something that acts on a piece of wall: wind, a push, an earthquake."""


def blown(case: Case) -> Acting:
    """The wind on a piece; a footing spreads what the posts bring, else each panel bears what its own posts bring."""
    piece, wind = case.piece, case.wind
    spread = piece.base.footing > 0

    def about(below: Meter) -> Turning:
        return turning(piece, wind, below, None if spread and below >= piece.depth else case.panel)

    mesh = "the fence above is carried by posts in the ground"
    apart = piece.buildup.posts is not None and not carries_mesh(piece)
    return Acting(
        about=about, working=wind.working, notes=(mesh if apart else "", *wind.notes), figures=case.of.figures,
        factors=case.of.factors,
    )  # fmt: skip
