"""Rasters in arrays for the tests of terrain, and the slow way through all their cells; not a test itself.

The slow way takes no step that the project's search takes: every cell of the whole raster as a shapely polygon, its
corners by the inverse geodesic of geographiclib, distances by shapely.
"""

from __future__ import annotations

import math

import numpy as np
from geographiclib.geodesic import Geodesic

from fixwright.geometry import terrain_grid

FT_M, NM_M = 0.3048, 1852.0


def array_grid(heights_ft, west: float, north: float, cell_deg: float, log=None):
    """A Grid over an array, its cells squares in degrees. log, a list that gets every window that is read."""

    def read(column, row, width, height):
        if log is not None:
            log.append((column, row, width, height))
        return heights_ft[row : row + height, column : column + width]

    def to_places(column, row):
        return west + np.asarray(column) * cell_deg, north - np.asarray(row) * cell_deg

    def to_cells(lon, lat):
        return (np.asarray(lon) - west) / cell_deg, (north - np.asarray(lat)) / cell_deg

    rows, columns = np.shape(heights_ft)
    return terrain_grid.Grid(columns, rows, read, to_places, to_cells, 360.0 / cell_deg)


def plane(lon0: float, lat0: float, lon: float, lat: float) -> tuple[float, float]:
    """East and north in NM in the azimuthal equidistant plane at a place."""
    line = Geodesic.WGS84.Inverse(lat0, lon0, lat, lon)
    azimuth, distance = math.radians(line["azi1"]), line["s12"] / NM_M
    return distance * math.sin(azimuth), distance * math.cos(azimuth)


def slow_distances(shape, lon0, lat0, west, north, cell_deg, rows: int, columns: int) -> np.ndarray:
    """Distances in NM of all cells of a raster from a shapely shape in the plane at a place (rows, columns)."""
    from shapely.geometry import Polygon

    corner = {
        (r, c): plane(lon0, lat0, west + c * cell_deg, north - r * cell_deg)
        for r in range(rows + 1)
        for c in range(columns + 1)
    }
    out = np.empty((rows, columns))
    for r in range(rows):
        for c in range(columns):
            ring = [corner[r, c], corner[r, c + 1], corner[r + 1, c + 1], corner[r + 1, c]]
            out[r, c] = Polygon(ring).distance(shape)
    return out


def slow_controlling(heights_ft, distance_nm, moc) -> tuple[int, int, float, float] | None:
    """Row, column, distance and required altitude of the cell that decides, one cell after another."""
    best = None
    for r in range(heights_ft.shape[0]):
        for c in range(heights_ft.shape[1]):
            clearance = moc(distance_nm[r, c])
            if clearance is None or math.isnan(heights_ft[r, c]):
                continue
            required = heights_ft[r, c] + clearance
            if best is None or required > best[3] or (required == best[3] and distance_nm[r, c] < best[2]):
                best = (r, c, distance_nm[r, c], required)
    return best


def icao_moc(distance_nm: float) -> float | None:
    """Steps of the buffer, written out. Source: ICAO Doc 8168 Vol II, II-4-1, the middle ones from memory."""
    for to_nm, feet in ((1, 984.0), (2, 492.0), (3, 394.0), (4, 294.0), (5, 197.0)):
        if distance_nm <= to_nm:
            return feet
    return None


def faa_moc(distance_nm: float) -> float | None:
    """Primary and a secondary of 2 NM, written out. Source: FAA-H-8261-1, chapter 3."""
    if distance_nm == 0.0:
        return 1000.0
    return 500.0 * (1.0 - distance_nm / 2.0) if distance_nm <= 2.0 else None
