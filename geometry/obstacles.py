"""The lowest altitude that clears terrain and obstacles about a holding area, and what decides it.

What decides is the greatest required altitude: top, accuracy, allowance and the clearance of the ring of the nearest
point. A ring is a distance from the area in the frame of the hold, never a drawn polygon.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from . import clearances, geodesy, nearness, shapes, terrain_cells
from .clearances import Clearances
from .nearness import Region
from .terrain_cells import Cell, Frame
from .terrain_grid import Grid

WHATS = ("terrain", "obstacle")
PIECE_M = 0.1
"""How far a long edge of an obstacle, straight in degrees, may lie off its pieces in the frame."""
_AREAS_AT_A_TIME = 16
"""Areas whose boxes are compared with those of all obstacles at once."""


class Holding(NamedTuple):
    """A holding area: frame, the area as a region in it in NM, how far its farthest corner lies, clearances."""

    frame: Frame
    region: Region
    radius_nm: float
    clearances: Clearances


class Obstacles(NamedTuple):
    """N obstacles: arrays (N,), and their edges in longitude and latitude, NM wide to either side.

    top_ft above sea level, NaN where only height_ft above the ground is known, or neither; vertical_ft and width_nm,
    accuracies; boxes, their bounds, the width counted in. See obstacles().
    """

    name: np.ndarray
    top_ft: np.ndarray
    height_ft: np.ndarray
    vertical_ft: np.ndarray
    width_nm: np.ndarray
    edges: nearness.Shapes
    boxes: shapes.Boxes


class Control(NamedTuple):
    """What asks for an altitude: a cell of terrain or an obstacle, and the sum that makes it.

    index, of the obstacle, -1 for terrain; lon, lat, the cell's middle or the obstacle's nearest corner; elev_ft, its
    top; distance_nm of its nearest point from the area, 0 inside.
    """

    what: str
    name: str
    index: int
    lon: float
    lat: float
    elev_ft: float
    accuracy_ft: float
    allowance_ft: float
    moc_ft: float
    distance_nm: float
    part: str
    required_ft: float


class Minimum(NamedTuple):
    """The result of one area. terrain, obstacle: what decides of each kind, None where nothing is within reach.

    unknown: the nearest cell without a height, None where all heights are known or none were asked for; undecided:
    indices of obstacles within reach whose top is not known.
    """

    terrain: Control | None
    obstacle: Control | None
    unknown: Cell | None
    undecided: tuple[int, ...]

    @property
    def control(self) -> Control | None:
        """What decides: the greater required altitude, then the nearer, then terrain."""
        both = [control for control in (self.terrain, self.obstacle) if control is not None]
        return min(both, key=lambda control: (-control.required_ft, control.distance_nm)) if both else None

    @property
    def required_ft(self) -> float:
        """The required altitude before rounding; NaN where nothing is within reach."""
        return float("nan") if self.control is None else self.control.required_ft


def holding(polygons: list[list[np.ndarray]], rings: Clearances, fix: tuple[float, float] | None = None) -> Holding:
    """A holding area from polygons on the earth.

    Parameters: polygons, each its rings (K, 2) of longitude and latitude, outer first; the area is their union;
    rings, the clearances about it; fix, lon and lat of the origin of the frame, default the middle of the area.
    Returns: Holding. Errors: ValueError for no polygon, or a vertex that is not finite.
    """
    if not polygons:
        raise ValueError("polygons is empty; it must hold a polygon")
    corners = np.concatenate([ring for polygon in polygons for ring in polygon])
    if not np.isfinite(corners).all():
        raise ValueError("polygons hold a vertex that is not finite")
    if fix is None:
        lon = geodesy.unwrap(corners[:, 0], corners[0, 0])
        fix = (lon.min() + lon.max()) / 2.0, (corners[:, 1].min() + corners[:, 1].max()) / 2.0
    frame = Frame(float(fix[0]), float(fix[1]))
    return in_frame(frame, [[frame.points(*ring.T) for ring in polygon] for polygon in polygons], rings)


def in_frame(frame: Frame, polygons_nm: list[list[np.ndarray]], rings: Clearances) -> Holding:
    """A holding area from polygons in the frame of the hold. Parameters: as holding, NM. Returns: Holding."""
    region = Region(nearness.polygons(polygons_nm))
    return Holding(frame, region, float(np.hypot(*region.corners.T).max()), rings)


def obstacles(of: shapes.Shapes, *, name, top_ft, height_ft=np.nan, vertical_ft=0.0) -> Obstacles:
    """Obstacles from their shapes on the earth, which are as much wider as they may be off.

    Long edges, straight in degrees as a layer draws them, are cut into pieces.
    Parameters: of, N features, each with a part, width_nm their horizontal accuracy; the rest (N,) or one for all:
    name; top_ft above sea level, NaN where unknown; height_ft above the ground, used where the top is not known;
    vertical_ft, accuracy of the top, not negative. Returns: Obstacles.
    """
    n = len(of)
    edges = shapes.edges(of)
    starts, ends, edge = shapes.cut_edges(edges.starts, edges.ends, PIECE_M)
    owner = np.repeat(np.arange(n), np.diff(edges.features))[edge]
    numbers = [np.broadcast_to(np.asarray(a, dtype=np.float64), (n,)) for a in (top_ft, height_ft, vertical_ft)]
    return Obstacles(
        np.broadcast_to(np.asarray(name, dtype=object), (n,)), *numbers, of.width_nm,
        nearness.Shapes(starts, ends, owner, of.filled), shapes.feature_boxes(of),
    )  # fmt: skip


def minimum_altitudes(
    holdings: list[Holding],
    grid: Grid | None,
    others: Obstacles | None,
    *,
    allowance_ft: float = 0.0,
    accuracy_ft: float = 0.0,
    tops: Tops | None = None,
) -> list[Minimum]:
    """What decides the lowest altitude of many holding areas.

    Every cell that touches an area or its rings counts, and every obstacle widened by its horizontal accuracy.
    required = top + accuracy + allowance + clearance of the ring of the nearest point.
    Parameters: holdings; grid and others, None where no terrain or no obstacles were given; allowance_ft for what
    grows on the terrain, accuracy_ft of its heights; tops, kept between calls over the same obstacles and grid.
    Returns: a Minimum for each. Source: clearances of the tables in clearances; the search is derived here.
    """
    near = [np.zeros(0, dtype=np.int64)] * len(holdings)
    if others is not None:
        tops = tops or Tops(grid, others)
        near = _near(holdings, others)
    return [_minimum(each, grid, tops, some, allowance_ft, accuracy_ft) for each, some in zip(holdings, near)]


def _minimum(area: Holding, grid: Grid | None, tops: Tops | None, near, allowance_ft, accuracy_ft) -> Minimum:
    terrain, unknown = None, None
    if grid is not None:
        reach = area.clearances.reach_nm
        unknown = terrain_cells.unknown(grid, area.frame, area.region, reach)

        def asked(distance):
            return clearances.moc_ft(area.clearances, distance)

        cell = terrain_cells.highest(grid, area.frame, area.region, asked, reach)
        if cell is not None:
            terrain = _control(
                area, "terrain", "", -1, (cell.lon, cell.lat), cell.height_ft, accuracy_ft, allowance_ft,
                cell.distance_nm,
            )  # fmt: skip
    obstacle, undecided = _obstacle(area, tops, near) if len(near) else (None, ())
    return Minimum(terrain, obstacle, unknown, undecided)


def _control(area: Holding, what, name, index, place, elev_ft, accuracy_ft, allowance_ft, distance_nm) -> Control:
    moc = float(clearances.moc_ft(area.clearances, distance_nm))
    part = area.clearances.parts[int(clearances.ring(area.clearances, distance_nm))]
    required = elev_ft + accuracy_ft + allowance_ft + moc
    return Control(
        what, str(name), int(index), float(place[0]), float(place[1]), float(elev_ft), float(accuracy_ft),
        float(allowance_ft), moc, float(distance_nm), part, float(required),
    )  # fmt: skip


def _obstacle(area: Holding, tops: Tops, near: np.ndarray) -> tuple[Control | None, tuple[int, ...]]:
    """The obstacle that decides, and those within reach whose top is not known."""
    others = tops.obstacles
    there = others.edges.taken(near)
    here = _in_plane(there, area.frame)
    distance = np.maximum(area.region.distances(here) - others.width_nm[near], 0.0)
    moc = clearances.moc_ft(area.clearances, distance)
    top = np.full(len(near), np.nan)
    within = np.flatnonzero(np.isfinite(moc))
    top[within] = [tops.of(i) for i in near[within].tolist()]
    undecided = tuple(near[within][np.isnan(top[within])].tolist())
    required = top + others.vertical_ft[near] + moc
    if not np.isfinite(required).any():
        return None, undecided
    i = np.lexsort((near, distance, -np.where(np.isfinite(required), required, -np.inf)))[0]
    mine = there.owner == i
    place = there.starts[mine][np.argmin(area.region.distance(here.starts[mine]))]
    return _control(
        area, "obstacle", others.name[near[i]], near[i], (geodesy.unwrap(place[0], area.frame.lon), place[1]), top[i],
        others.vertical_ft[near[i]], 0.0, distance[i],
    ), undecided  # fmt: skip


def _in_plane(of: nearness.Shapes, frame: Frame) -> nearness.Shapes:
    return of._replace(starts=frame.points(*of.starts.T), ends=frame.points(*of.ends.T))


def _near(holdings: list[Holding], others: Obstacles) -> list[np.ndarray]:
    """Obstacles whose boxes meet that of each area with its rings."""
    lon, lat = (np.array([getattr(each.frame, name) for each in holdings], dtype=float) for name in ("lon", "lat"))
    reach = np.array([each.radius_nm + each.clearances.reach_nm for each in holdings], dtype=float)
    boxes = shapes.grown(shapes.Boxes(lon, np.zeros_like(lon), lat, lat), reach)
    row, other = shapes.box_pairs(boxes, others.boxes, _AREAS_AT_A_TIME)
    return np.split(other, np.searchsorted(row, np.arange(1, len(holdings))))


class Tops:
    """The tops of obstacles; of those with a height above the ground, computed when asked for and then kept."""

    def __init__(self, grid: Grid | None, others: Obstacles):
        self.obstacles, self._grid = others, grid
        self._known: dict[int, float] = {}

    def of(self, i: int) -> float:
        """The top of an obstacle in feet above sea level; NaN where it is not known."""
        if i not in self._known:
            self._known[i] = self._top(i)
        return self._known[i]

    def _top(self, i: int) -> float:
        top, height = float(self.obstacles.top_ft[i]), float(self.obstacles.height_ft[i])
        if np.isfinite(top) or not np.isfinite(height):
            return top
        return height + self._ground_ft(i)

    def _ground_ft(self, i: int) -> float:
        """The highest terrain under an obstacle widened by its horizontal accuracy; NaN where any is unknown."""
        if self._grid is None:
            return float("nan")
        boxes = self.obstacles.boxes
        frame = Frame(float(boxes.lon[i]), float(boxes.south[i] + boxes.north[i]) / 2.0)
        region = Region(_in_plane(self.obstacles.edges.taken([i]), frame))
        reach = float(self.obstacles.width_nm[i])
        if terrain_cells.unknown(self._grid, frame, region, reach) is not None:
            return float("nan")
        cell = terrain_cells.highest(self._grid, frame, region, np.zeros_like, reach)
        return float("nan") if cell is None else cell.height_ft
