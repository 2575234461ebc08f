"""A layer as arrays: columns by field name, and shapes as one run of vertices with offsets."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np


class Layer(NamedTuple):
    """Columns (N,) by field name; coords (T, 2) of lon (unwrapped) and lat; offsets (N + 1,) of the shapes."""

    columns: dict[str, np.ndarray]
    coords: np.ndarray
    offsets: np.ndarray
