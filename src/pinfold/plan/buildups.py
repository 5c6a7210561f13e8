"""Build-ups: all layers of a run from the trench to the top."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from pinfold.plan.fences import Anchors, Brace
from pinfold.tables.shelf import Kind
from pinfold.units import Meter


class Grout(StrEnum):
    """Which cells of hollow units are filled."""

    NONE = "none"
    PARTIAL = "partial"
    FULL = "full"


class BarPlace(StrEnum):
    """Where upright bars stand in the thickness of a wall."""

    MIDDLE = "middle"
    OUTER = "outer"
    INNER = "inner"
    BOTH = "both"  # one bar near either face


class Faces(StrEnum):
    """Which faces of the wall a coat goes on, or a pier stands out of."""

    BOTH = "both"
    OUTER = "outer"
    INNER = "inner"


class Setting(StrEnum):
    """How a post is held."""

    GROUND = "ground"  # driven or tamped into the soil
    COLLAR = "collar"  # in a hole filled with concrete
    WALL = "wall"  # down in the wall, in a filled cell or built in; wall and post stand as one
    WALL_TOP = "wall-top"  # anchored on top of the wall, which takes its moment


@dataclass(frozen=True, kw_only=True)
class Footing:
    """What the wall stands on.

    Attributes:
        kind: of shelf `footings`.
        width: across the wall.
        thickness: height of the footing itself.
        below_ground: depth of its underside below the ground.
        bars: number of bars along it.
        bar: kind of bar; None without bars.
    """

    kind: Kind
    width: Meter
    thickness: Meter
    below_ground: Meter
    bars: int
    bar: Kind | None


@dataclass(frozen=True, kw_only=True)
class Wall:
    """The low wall between footing and coping.

    Attributes:
        kind: of shelf `walls`, with the plan's own figures over the shipped ones.
        height: wanted above the highest ground it stands in, coping not counted.
        mortar: kind of shelf `mixes`; None where the wall has none.
        grout: which cells are filled; NONE for anything but hollow units.
        grout_spacing: between filled cells; None unless grout is partial.
        grout_mix: kind of shelf `mixes`; None without grout.
        bar: upright bar in filled cells or poured wall; None without.
        bar_spacing: between upright bars; None without bars.
        bar_place: where they stand in the thickness.
        bar_height: of upright bars from the lowest bed up; None for all of the wall.
        grout_height: of grout from the lowest bed up; None for all of the wall.
        lap: of upright bars with their dowels, as laid; None where the plan does not say.
        course_bar: kind of bar or wire laid along courses; None without.
        course_bar_every: height between two of them; None without.
        dowels: whether upright bars are lapped with dowels out of the footing.
        membrane: whether a damp-proof sheet cuts the wall (then no tension crosses it).
        membrane_at: height of the sheet above the lowest bed; None for the wall's foot.
        joints: most distance between control joints; None for the kind's own rule.
    """

    kind: Kind
    height: Meter
    mortar: Kind | None
    grout: Grout
    grout_spacing: Meter | None
    grout_mix: Kind | None
    bar: Kind | None
    bar_spacing: Meter | None
    bar_place: BarPlace
    bar_height: Meter | None
    grout_height: Meter | None
    lap: Meter | None
    course_bar: Kind | None
    course_bar_every: Meter | None
    dowels: bool
    membrane: bool
    membrane_at: Meter | None
    joints: Meter | None

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:  # likewise by wall
        steel = (self.bar, self.bar_spacing, self.bar_height, self.lap, self.dowels, self.course_bar)
        grout = (self.grout, self.grout_spacing, self.grout_height)
        return hash((self.kind, self.height, self.mortar, *grout, *steel, self.membrane, self.membrane_at, self.joints))

    @property
    def thickness(self) -> Meter:
        """Across the wall at its foot, without coats."""
        return self.kind.value("thickness")

    @property
    def head(self) -> Meter:
        """Across the wall at its top, where its faces lean in; else as thick as its foot."""
        if not self.kind.has("top_thickness"):
            return self.thickness
        return min(self.kind.value("top_thickness"), self.thickness)


@dataclass(frozen=True, kw_only=True)
class Piers:
    """Piers that stiffen a wall, built of its units and bonded into it, each on a pad.

    Attributes:
        spacing: most distance between two, middle to middle.
        width: along the wall.
        depth: across the wall, all of it.
        faces: which faces of the wall they stand out of.
        pad_length: of the footing under one, along the wall.
        pad_width: of it across the wall.
    """

    spacing: Meter
    width: Meter
    depth: Meter
    faces: Faces
    pad_length: Meter
    pad_width: Meter

    def reach(self, thickness: Meter) -> tuple[Meter, Meter]:
        """How far a pier goes from the center line of a wall so thick: to the outside, to the inside."""
        far = self.depth - thickness / 2
        if self.faces is Faces.BOTH:
            return self.depth / 2, self.depth / 2
        return (far, thickness / 2) if self.faces is Faces.OUTER else (thickness / 2, far)

    def pad_reach(self, thickness: Meter) -> tuple[Meter, Meter]:
        """How far a pier with its pad, which lies under its middle, goes: to the outside, to the inside."""
        out, within = self.reach(thickness)
        middle, half = (within - out) / 2, self.pad_width / 2
        return max(out, half - middle), max(within, half + middle)


@dataclass(frozen=True, kw_only=True)
class Coat:
    """One coat of plaster, wash or slurry.

    Attributes:
        kind: of shelf `coats`, naming the mix and the usual thickness.
        thickness: as laid.
        faces: which faces it goes on.
        top: whether it goes over the top of the wall too.
        mesh: reinforcing mesh bedded in it; None without.
    """

    kind: Kind
    thickness: Meter
    faces: Faces
    top: bool
    mesh: Kind | None


@dataclass(frozen=True, kw_only=True)
class Coping:
    """What caps the wall."""

    kind: Kind
    width: Meter
    thickness: Meter


@dataclass(frozen=True, kw_only=True)
class Posts:
    """Posts of a run.

    Attributes:
        kind: of shelf `posts`.
        spacing: most distance between two.
        height: above the wall's top, or above the ground where there is no wall.
        setting: how they are held.
        embed: depth in the ground below grade, or in the wall below its top; 0 on the wall's top.
        collar: width or diameter of the concrete collar; None unless the setting is COLLAR.
        stout: kind for corner, end and gate posts; None for the same as the rest.
        anchors: under each on the wall's top; None where nothing is said of them.
    """

    kind: Kind
    spacing: Meter
    height: Meter
    setting: Setting
    embed: Meter
    collar: Meter | None
    stout: Kind | None
    anchors: Anchors | None


class RailJoint(StrEnum):
    """How rails meet on a post."""

    BUTT = "butt"  # end to end on the middle of it
    LAP = "lap"  # past each other, side by side
    HALF_LAP = "half-lap"  # each end halved, one let into the other


@dataclass(frozen=True, kw_only=True)
class Rail:
    """A rail, bar or tension wire from post to post.

    Attributes:
        kind: of shelf `rails`.
        at: height above the foot of the mesh (top of wall, or ground).
        joint: how two of them meet; of no weight for wires.
        lap: how far they reach over each other there; None for as far as the post is wide.
    """

    kind: Kind
    at: Meter
    joint: RailJoint = RailJoint.BUTT
    lap: Meter | None = None


@dataclass(frozen=True, kw_only=True)
class Mesh:
    """Wire mesh on the posts.

    Attributes:
        kind: of shelf `meshes`.
        height: of mesh showing above the wall or the ground.
        lap: of the mesh over the wall's face below its top; 0 without wall.
        apron: length turned out on or buried in the ground against digging; 0 without.
        apron_buried: whether the apron goes down into the ground instead of out on it.
        grown: solidity to reckon with once overgrown or clogged; None for the bare mesh only.
        pin: kind of shelf `bars` that the apron's pins are cut from; None where they are bought ready.
    """

    kind: Kind
    height: Meter
    lap: Meter
    apron: Meter
    apron_buried: bool
    grown: float | None
    pin: Kind | None = None


@dataclass(frozen=True, kw_only=True)
class Buildup:
    """All layers of a run; each of them may be absent, but not wall and mesh both.

    Attributes:
        name: the builder's word for it.
        says: a line about it.
        footing: None where nothing stands on one.
        wall: None for mesh from the ground.
        piers: None for a wall of one thickness.
        coats: in the order they are laid.
        coping: None without.
        posts: None without fence.
        rails: from the lowest up.
        mesh: None without.
        brace: at end, corner and gate posts; None without.
    """

    name: str
    says: str
    footing: Footing | None
    wall: Wall | None
    piers: Piers | None
    coats: tuple[Coat, ...]
    coping: Coping | None
    posts: Posts | None
    rails: tuple[Rail, ...]
    mesh: Mesh | None
    brace: Brace | None

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:  # studies keep answers by build-up and ask for it again and again
        layers = (self.footing, self.wall, self.piers, self.coats, self.coping, self.posts, self.rails, self.mesh)
        return hash((self.name, *layers, self.brace))

    @property
    def wall_height(self) -> Meter:
        """Wanted height of the wall with its coping above ground; 0 without wall."""
        if self.wall is None:
            return 0.0
        return self.wall.height + (self.coping.thickness if self.coping else 0.0)

    @property
    def fence_height(self) -> Meter:
        """Height of mesh showing above the wall, or above the ground."""
        return self.mesh.height if self.mesh else 0.0

    @property
    def height(self) -> Meter:
        """Whole height above ground."""
        return self.wall_height + self.fence_height

    def coats_thickness(self, *faces: Faces) -> Meter:
        """Thickness of all coats on the faces named."""
        return sum(coat.thickness for coat in self.coats if coat.faces in (Faces.BOTH, *faces))
