"""Many places for one hold: what each is found to be by the tests that a built area goes through, dear ones on demand.

All candidates share speed, levels, rules and leg, so the area and the flight in calm are made once in the frame of the
hold and placed.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from .. import airspace, clearances, geodesy, nearness, obstacles, planar, search_bounds, shapes
from ..airspace import CLEAR, Spaces
from ..meetings import meetings
from ..obstacles import Holding, Obstacles
from ..protection.areas import Designs, Options
from ..protection.constructions import CONSTRUCTIONS
from ..protection.placing import place_areas
from ..search_bounds import Marks, Table
from ..terrain_grid import Grid
from . import cleared
from .flight_day import CIRCUITS
from .flying import Wind, flown_rows, fly_rows
from .holding import HoldRows
from .protecting import POINT_FIX, outbound_min
from .reception import Terrain

CONSTRUCTION = "template"
FAR_NM = 10.0
"""Airspace farther beyond the distance allowed counts as this far: our own choice."""
_CELLS = 2.5
"""Diagonals of a cell about an airspace in which ground counts as under it: airspace.contacts takes up to two."""
LOOKS_AT_A_TIME = 256
INSIDE = ("basic", "entry")
"""Parts that make up the holding area."""


class Surroundings(NamedTuple):
    """What candidates are tested against, None for what is not given.

    grid, a raster of terrain, and terrain, the same for rays; obstacles; spaces, airspace; within_nm, within_ft, how
    near it is too near.
    """

    grid: Grid | None = None
    terrain: Terrain | None = None
    obstacles: Obstacles | None = None
    spaces: Spaces | None = None
    within_nm: float = 2.0
    within_ft: float = 500.0


class Candidates:
    """N holds that are alike but for their places.

    middle, lon and lat; radius_nm, within which all fixes lie; rows, the holds, all good; around; go_on(share), false
    to stop.
    """

    def __init__(
        self, middle: tuple[float, float], radius_nm: float, rows: HoldRows, around: Surroundings,
        go_on: Callable[[float], bool],
    ):  # fmt: skip
        self.rows, self.around, self._go_on = rows, around, go_on
        one = rows.take([0])
        self.low_ft = float(one.holds.alt_ft[0])
        self.high_ft = float(np.fmax(one.holds.alt_ft, one.holds.alt_to_ft)[0])
        self.parts = _area(one)
        self._track = _track(one)
        self._tops = None if around.obstacles is None else obstacles.Tops(around.grid, around.obstacles)
        self._middle, self._around_nm = middle, radius_nm
        self._radius_nm = max(float(np.hypot(*part.ring_nm.T).max()) for part in self.parts if part.part in INSIDE)
        inside = [polygon for part in self.parts if part.part in INSIDE for polygon in part.polygons_nm]
        self._outline = nearness.polygons([[search_bounds.thinned(ring) for ring in each] for each in inside])
        self._rings = clearances.icao()
        reach = max(self._rings.reach_nm, around.within_nm + FAR_NM if around.spaces is not None else 0.0)
        self._table = Table(inside, reach)
        holds = rows.holds
        self._frames = search_bounds.frames(
            middle, holds.lon, holds.lat, holds.inbound_true_deg, holds.side, self._table.reach_nm
        )
        self._ground = self._terrain()
        if around.spaces is not None:
            self._spaces = self._concerned(around.spaces)
            self._cell_nm = 0.0 if self._ground is None else self._widest_cell_nm()
            self._boxes = search_bounds.boxes(self._spaces.shapes, middle, self._cell_nm)

    # Cheap, for all

    def most_terrain_ft(self, index: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """How much some have at most between their lowest level and what terrain and obstacles ask for, infinity where
        nothing does; and whether terrain within reach is surely unknown. Parameters: index (K,). Returns: (K,) each."""
        marks = [] if self._ground is None else [self._ground]
        if self.around.obstacles is not None:
            them = self.around.obstacles
            marks.append(search_bounds.obstacle_marks(them.boxes, them.top_ft + them.vertical_ft, self._middle))
        least, unknown = np.full(len(index), -np.inf), np.zeros(len(index), dtype=bool)
        for k, i in enumerate(index.tolist()):
            if k % LOOKS_AT_A_TIME == 0 and not self._go_on(0.25 + 0.25 * k / len(index)):
                break
            for some in marks:
                required, missing = search_bounds.least_required_ft(some, self._table, self._rings, self._frames, i)
                least[k], unknown[k] = max(least[k], required), unknown[k] or missing
        return self.low_ft - clearances.minimum_ft(least), unknown

    def _terrain(self) -> Marks | None:
        if self.around.grid is None:
            return None
        reach = self._around_nm + self._table.reach_nm
        return search_bounds.terrain_marks(
            self.around.grid, self._middle, reach, lambda share: self._go_on(0.05 + 0.1 * share)
        )

    def _widest_cell_nm(self) -> float:
        """How far about an airspace its ground is looked for."""
        diagonal = float(self.around.terrain.cells(*(np.array([x]) for x in self._middle))[1][0])
        return _CELLS * diagonal if np.isfinite(diagonal) else 2.0 * _CELLS * self._ground.farthest_nm

    def most_airspace_nm(self) -> np.ndarray:
        """How much each has at most between airspace that shares its levels and the distance allowed, up to FAR_NM;
        below 0 where it is surely too near (N,)."""
        spaces, n = self._spaces, len(self.rows.good)
        state, of_ground = self._states(spaces)
        blocked = (state != CLEAR) & ~of_ground
        least = np.full(n, self.around.within_nm + FAR_NM)
        if not blocked.any():
            return least - self.around.within_nm
        of = search_bounds.taken(spaces.shapes, np.flatnonzero(blocked))
        marks = search_bounds.edge_marks(of, self._middle, self._around_nm + self._table.reach_nm + FAR_NM)
        least[search_bounds.inside(of, self._middle, self._frames.origin)] = 0.0
        for i in np.flatnonzero(least > 0.0).tolist():
            if i % LOOKS_AT_A_TIME == 0 and not self._go_on(0.15 + 0.1 * i / n):
                break
            least[i] = min(least[i], search_bounds.most_apart_nm(marks, self._table, self._frames, i))
        return np.where(least <= self.around.within_nm, -1.0, least - self.around.within_nm)

    def _states(self, spaces: Spaces) -> tuple[np.ndarray, np.ndarray]:
        """How the levels lie to airspaces, as airspace.contacts tells it; and which that may say more of one place than
        of another, since their limits count from the ground."""
        lower, upper = (
            airspace.altitude_ft(limits.reference, limits.value_ft, _qnh(self.rows), np.nan)
            for limits in (spaces.lower, spaces.upper)
        )
        surface = (spaces.lower.reference == airspace.GROUND) & (spaces.lower.value_ft <= 0.0)
        of_ground = (spaces.lower.reference == airspace.GROUND) & ~surface
        of_ground |= spaces.upper.reference == airspace.GROUND
        lower = np.where(surface, -np.inf, lower)
        unsound = lower > upper
        lower, upper = (np.where(unsound, np.nan, values) for values in (lower, upper))
        state = airspace.vertical(self.low_ft, self.high_ft, lower, upper, self.around.within_ft)[2]
        return state, of_ground & (self.around.grid is not None)

    def _concerned(self, spaces: Spaces) -> Spaces:
        """The airspaces that any candidate may come near, but for those that all are clear of in height."""
        reach = self._around_nm + self._table.reach_nm + self.around.within_nm + FAR_NM
        at = [np.array([value]) for value in (self._middle[0], 0.0, self._middle[1], self._middle[1])]
        _, index = shapes.box_pairs(shapes.grown(shapes.Boxes(*at), reach), shapes.feature_boxes(spaces.shapes))
        state, of_ground = self._states(spaces)
        index = index[((state != CLEAR) | of_ground)[index]]
        lower, upper = (type(limits)(*(a[index] for a in limits)) for limits in (spaces.lower, spaces.upper))
        return Spaces(search_bounds.taken(spaces.shapes, index), lower, upper, spaces.problems[index])

    # Exact, one by one

    def polygons(self, i: int) -> dict[str, list]:
        """The area of a candidate on the earth: polygons by part, each a list of rings (K, 2)."""
        at = self._at(i)
        placed = place_areas(*at, self.parts, Options().tolerance_m)
        out: dict[str, list] = {}
        for k, part in enumerate(self.parts):
            out[part.part] = [
                [placed.coords[placed.rings[r] : placed.rings[r + 1]] for r in range(*placed.polygons[q : q + 2])]
                for q in range(*placed.parts[k : k + 2])
            ]
        return out

    def airspace_nm(self, i: int) -> float:
        """What the area of a candidate has beyond the distance allowed to airspace that it is not clear of in height,
        up to FAR_NM; below 0 where it does not pass."""
        away, clear = self._contacts(self._shape(i), i, self._radius_nm, self.around.within_nm + FAR_NM)
        least = float(away[~clear].min(initial=self.around.within_nm + FAR_NM))
        return -1.0 if least <= self.around.within_nm else least - self.around.within_nm

    def overlap(self, i: int, j: int, closely: bool) -> bool:
        """Whether the areas of two candidates overlap or touch; a look that is not close may miss a small overlap."""
        at, to = self._frames.origin, self._frames.to_frame
        if np.hypot(*(at[i] - at[j])) > 2.0 * self._radius_nm + 1.0:
            return False
        for one, other in ((i, j), (j, i)):
            points = at[other] + self._outline.starts @ np.linalg.inv(to[other]).T
            points = (points - at[one]) @ to[one].T
            if planar.inside(points, *self._outline[:3]).any():
                return True
        return closely and bool(len(meetings(self._shape(i), self._shape(j), 0.0).row))

    def _shape(self, i: int) -> shapes.Shapes:
        parts = self.polygons(i)
        return shapes.gather([[polygon for name in INSIDE for polygon in parts.get(name, [])]], filled=True)

    def track_is_clear(self, i: int) -> bool:
        """Whether the flight of a candidate in calm passes the test against airspace."""
        lon, lat, inbound, side = self._at(i)
        x, y = geodesy.place(lon, lat, inbound, side, *np.concatenate(self._track).T)
        path = np.stack([x, y], axis=1)
        lines = np.split(path, np.cumsum([len(line) for line in self._track])[:-1])
        radius = float(np.hypot(*np.concatenate(self._track).T).max())
        flown = shapes.gather([[[line] for line in lines]], filled=False)
        return bool(self._contacts(flown, i, radius, self.around.within_nm)[1].all())

    def ground(self, i: int) -> tuple[float, bool]:
        """What a candidate's lowest level has above the minimum altitude, feet, infinity where nothing is in reach; and
        whether terrain or the top of an obstacle within reach is unknown."""
        holding = self.holding(i)
        found = obstacles.minimum_altitudes([holding], self.around.grid, self.around.obstacles, tops=self._tops)[0]
        required = clearances.minimum_ft(found.required_ft)
        margin = float("inf") if np.isnan(required) else self.low_ft - float(required)
        return margin, found.unknown is not None or bool(found.undecided)

    def holding(self, i: int) -> Holding:
        """The area of a candidate with its clearances, as a built area has it."""
        parts = self.polygons(i)
        fix = float(self.rows.holds.lon[i]), float(self.rows.holds.lat[i])
        return cleared.cleared_area(parts, dict.fromkeys(parts, float("nan")), cleared.Options(), fix)[0]

    def _at(self, i: int) -> tuple:
        made = self.rows.holds
        return tuple(a[i : i + 1] for a in (made.lon, made.lat, made.inbound_true_deg, made.side))

    def _contacts(self, first: shapes.Shapes, i: int, radius_nm: float, within_nm: float) -> tuple:
        """Distances of the airspaces within one, and whether the levels are surely clear of each; radius_nm, how far
        what is flown lies from the fix.

        Ground under an airspace is bounded from above, which may take an airspace as not clear that is, never the other
        way round.
        """
        found = airspace.contacts(
            first, self.low_ft, self.high_ft, self._spaces, within_nm=within_nm, within_ft=self.around.within_ft,
            qnh_hpa=_qnh(self.rows),
        )  # fmt: skip
        clear = found.state == CLEAR
        if self._ground is None:
            return found.distance_nm, clear
        lower, upper = self._spaces.lower, self._spaces.upper
        reach = np.sqrt(2.0) * (radius_nm + self.around.within_nm) + self._cell_nm  # whichever way its box is turned
        for k, s in enumerate(found.space.tolist()):
            of_lower = lower.reference[s] == airspace.GROUND and lower.value_ft[s] > 0.0
            of_upper = upper.reference[s] == airspace.GROUND
            if of_lower or of_upper:
                ground = search_bounds.highest_ft(self._ground, self._frames, i, reach, self._boxes[s])
                top = upper.value_ft[s] + ground if of_upper else found.upper_ft[k]
                bottom = lower.value_ft[s] + ground if of_lower else found.lower_ft[k]
                # a lower limit that may lie above the upper one is not known, and so not clear
                sound = bottom <= top if not of_upper or of_lower else bottom == -np.inf
                gap = self.low_ft - top
                clear[k] = sound and gap >= self.around.within_ft and gap > 0.0
        return found.distance_nm, clear


def _qnh(rows: HoldRows) -> float:
    return float(rows.holds.qnh_hpa[0])


def refusal(one: HoldRows) -> str:
    """Why no area can be made for a hold, in a sentence; '' where one can."""
    return str(CONSTRUCTIONS[CONSTRUCTION].refusals(_designs(one), Options())[0])


def _area(one: HoldRows) -> list:
    """The area of a hold in its frame, as protecting.area_rows makes it for a fix that is a point."""
    return CONSTRUCTIONS[CONSTRUCTION].areas(_designs(one), Options())


def _designs(one: HoldRows) -> Designs:
    made, nothing = one.holds, np.full(1, np.nan)
    top = np.fmax(made.alt_ft, made.alt_to_ft)
    minutes = outbound_min(made, top)
    return Designs(made.area_ias_kt, top, minutes, nothing, nothing, nothing, [POINT_FIX], [None], nothing)


def _track(one: HoldRows) -> list[np.ndarray]:
    """The lines of a hold's flight in calm in its frame, as flight_day.fly_plan flies a plan without wind or entry."""
    calm = np.zeros(1)
    layer = flown_rows(fly_rows(one, Wind(calm, calm), timing=0, arrival_true_deg=np.nan, circuits=CIRCUITS))
    made = one.holds
    uv = np.stack(
        geodesy.to_frame(made.lon[0], made.lat[0], made.inbound_true_deg[0], made.side[0], *layer.coords.T), axis=1
    )
    return np.split(uv, layer.offsets[1:-1])
