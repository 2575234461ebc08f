"""A layer as arrays: columns by field name, and shapes as one run of vertices with offsets."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np


class Layer(NamedTuple):
    """Columns (N,) by field name; coords (T, 2) of lon (unwrapped) and lat; offsets (N + 1,) of the shapes."""

    columns: dict[str, np.ndarray]
    coords: np.ndarray
    offsets: np.ndarray


class Shapes(NamedTuple):
    """A layer of polygons with holes: columns (N,) by field name; coords (T, 2), closed rings of lon (unwrapped) and
    lat; rings (R + 1,) where each begins; polygons (P + 1,) where the rings of each polygon begin, the outer one
    first; parts (N + 1,) where the polygons of each row begin: as wkb.polygons_with_holes takes them."""

    columns: dict[str, np.ndarray]
    coords: np.ndarray
    rings: np.ndarray
    polygons: np.ndarray
    parts: np.ndarray


class Paths(NamedTuple):
    """A layer of lines of several pieces: columns (N,) by field name; coords (T, 2); offsets (P + 1,) where each piece
    begins; parts (N + 1,) where the pieces of each row begin: as wkb.multilines takes them."""

    columns: dict[str, np.ndarray]
    coords: np.ndarray
    offsets: np.ndarray
    parts: np.ndarray
