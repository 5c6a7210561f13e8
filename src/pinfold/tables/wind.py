"""Wind tables: exposures, hills and coefficients of ASCE 7, terrains and coefficients of EN 1991-1-4."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files

from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.tables.grids import Grid, Line, between
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Meter, Ratio


@dataclass(frozen=True, kw_only=True)
class Exposure:
    """What the ground around a plot does to the wind, ASCE 7."""

    coefficient: Ratio
    alpha: Ratio
    gradient_height: Meter


@dataclass(frozen=True, kw_only=True)
class Hill:
    """How a ridge, an escarpment or a hill speeds the wind up, ASCE 7."""

    slope: Ratio
    decay: Ratio
    reach: Ratio


@dataclass(frozen=True, kw_only=True)
class Terrain:
    """What the ground around a plot does to the wind, EN 1991-1-4."""

    roughness_length: Meter
    minimum_height: Meter


@dataclass(frozen=True, kw_only=True)
class ObliqueColumn:
    """One column of the table for wind at an angle.

    Attributes:
        length_to_height: B/s of the column.
        ends: ends of its zones, in s from the windward edge.
        cf: coefficient of each zone.
        eased: whether a return corner eases its first zone.
    """

    length_to_height: Ratio
    ends: tuple[float, ...]
    cf: tuple[float, ...]
    eased: bool


@dataclass(frozen=True, kw_only=True)
class OpenLattice:
    """Force coefficients of lattices by solidity: up to each of `solidity_below`, and past the last.

    Attributes:
        solidity_below: where each step ends.
        cf: coefficients by kind of member: `flat`, `round_slow`, `round_fast`.
        round_limit: D √q between the two kinds of round member, in m √Pa.
    """

    solidity_below: tuple[float, ...]
    cf: dict[str, tuple[float, ...]]
    round_limit: float


@dataclass(frozen=True, kw_only=True)
class FreeStanding:
    """Net pressure coefficients of free-standing walls, EN 1991-1-4 table 7.9.

    Attributes:
        zone_ends: ends of zones A, B, C in wall heights from the free end.
        free: by zone, over length to height, without return corner.
        corner: by zone, with a return corner at least as long as the wall is high.
        perforated: every zone at `perforated_solidity`.
        perforated_solidity: lowest solidity of the table.
    """

    zone_ends: tuple[float, ...]
    free: dict[str, Line]
    corner: dict[str, float]
    perforated: Ratio
    perforated_solidity: Ratio


@cache
def exposure(edition: str, category: str) -> Exposure:
    """Exposure B, C or D of the edition `7-16` or `7-22`."""
    row = kind("wind_exposures", f"{edition}-{category}")
    return Exposure(
        coefficient=row.value("coefficient"), alpha=row.value("alpha"), gradient_height=row.value("gradient_height")
    )


@cache
def hill(feature: str, category: str, side: str) -> Hill:
    """A `ridge`, `escarpment` or `hill` in an exposure, `upwind` or `downwind` of the crest."""
    row = kind("wind_hills", feature)
    return Hill(slope=row.value(f"slope_{category}"), decay=row.value("decay"), reach=row.value(f"reach_{side}"))


@cache
def terrain(category: str) -> Terrain:
    """Terrain 0, I, II, III or IV."""
    row = kind("wind_terrains", category)
    return Terrain(roughness_length=row.value("roughness_length"), minimum_height=row.value("minimum_height"))


def factor(kind_name: str, name: str) -> Figure:
    """A plain factor, such as `gust_factor` of a `solid-wall`, with its source and standing."""
    return kind("wind_factors", kind_name).figure(name)


def terrain_kind(category: str) -> Kind:
    """A terrain with its figures, for their standing."""
    return kind("wind_terrains", category)


def exposure_kind(edition: str, category: str) -> Kind:
    """An exposure with its figures, for their standing."""
    return kind("wind_exposures", f"{edition}-{category}")


def hill_kind(feature: str) -> Kind:
    """A ridge, an escarpment or a hill with its figures, for their standing."""
    return kind("wind_hills", feature)


@cache
def wall_square() -> Grid:
    """Cases A and B: columns B/s, rows s/h."""
    row = _tables()["wall-square"]
    return Grid(
        across=_numbers(row["length_to_height"]), down=_numbers(row["height_to_top"]),
        values=tuple(_numbers(line) for line in _list(row["cf"])), source=str(row["source"]),
        where=str(row["where"]), standing=Standing(str(row["standing"])),
    )  # fmt: skip


@cache
def wall_oblique() -> tuple[ObliqueColumn, ...]:
    """Case C, by rising B/s."""
    return tuple(_column(row) for row in _list(_tables()["wall-oblique"]["columns"]))


@lru_cache(maxsize=1024)  # both ends of a wall ask, and its zones
def oblique_neighbors(length_to_height: float) -> tuple[ObliqueColumn, ObliqueColumn, float]:
    """The columns of case C on both sides of B/s and the share of the way between them."""
    columns = wall_oblique()
    low, high, share = between(tuple(column.length_to_height for column in columns), length_to_height)
    return columns[low], columns[high], share


def has_unlike_zones(length_to_height: float) -> bool:
    """Whether B/s lies between 10 and 13, where the zones of case C differ and nothing is printed between them."""
    low, high, _ = oblique_neighbors(length_to_height)
    return len(low.ends) >= 4 and low.ends != high.ends


@cache
def return_corner() -> Line:
    """Factor on the first zone of case C over the length of the return corner in s."""
    row = _tables()["return-corner"]
    return Line(at=_numbers(row["return_to_height"]), values=_numbers(row["factor"]))


@cache
def open_lattice() -> OpenLattice:
    """Force coefficients of open signs and lattices."""
    row = _tables()["open-lattice"]
    return OpenLattice(
        solidity_below=_numbers(row["solidity_below"]),
        cf={name: _numbers(row[name]) for name in ("flat", "round_slow", "round_fast")},
        round_limit=float(str(row["round_limit"])),
    )


@cache
def free_standing() -> FreeStanding:
    """Net pressure coefficients of free-standing walls, zones A to D."""
    row = _tables()["free-standing-en"]
    places, corner = _numbers(row["length_to_height"]), row["corner"]
    assert isinstance(corner, dict)
    return FreeStanding(
        zone_ends=_numbers(row["zone_ends"]),
        free={zone: Line(at=places, values=_numbers(row[zone])) for zone in "ABCD"},
        corner={zone: float(corner[zone]) for zone in "ABCD"}, perforated=float(str(row["perforated"])),
        perforated_solidity=float(str(row["perforated_solidity"])),
    )  # fmt: skip


@cache
def _tables() -> dict[str, dict[str, object]]:
    return tomllib.loads(files("pinfold.tables").joinpath("wind_grids.toml").read_text(encoding="utf-8"))


def _list(value: object) -> list[object]:
    assert isinstance(value, list)
    return value


def _numbers(value: object) -> tuple[float, ...]:
    return tuple(float(str(number)) for number in _list(value))


def _column(row: object) -> ObliqueColumn:
    assert isinstance(row, dict)
    return ObliqueColumn(
        length_to_height=float(row["length_to_height"]), ends=_numbers(row["ends"]), cf=_numbers(row["cf"]),
        eased=bool(row["eased"]),
    )  # fmt: skip
