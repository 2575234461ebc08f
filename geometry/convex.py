"""Convex shapes by their support function, and polygons that contain them.

h(alpha) is how far a shape reaches in direction alpha. Sums of shapes are sums of h, hulls are maxima, an offset
adds its distance; the polygon cut out by support lines contains the shape.
"""

from __future__ import annotations

import numpy as np


def _normals(alpha_rad) -> np.ndarray:
    return np.stack([np.cos(alpha_rad), np.sin(alpha_rad)], axis=-1)


def _along(normals, points) -> np.ndarray:
    """How far points (K, 2) lie along normals (D, 2): (D, K). Not as a matrix product, whose last bits differ with the
    library that a process has linked."""
    return normals[:, :1] * points[:, 0] + normals[:, 1:] * points[:, 1]


def support_of_discs(alpha_rad, centres, radii) -> tuple[np.ndarray, np.ndarray]:
    """Support function of the hull of discs, and the disc that gives it.

    Parameters: alpha_rad (D,); centres (K, 2); radii (K,), any one unit. Returns: h (D,), index (D,).
    """
    reach = _along(_normals(alpha_rad), np.asarray(centres)) + np.asarray(radii)
    best = np.argmax(reach, axis=1)
    return reach[np.arange(len(best)), best], best


def edge_normals_of_discs(centres, radii, step_deg: float = 0.5) -> np.ndarray:
    """Directions of the common tangents on the hull of discs: where one disc takes over from another.

    Found between neighbouring directions of a search step, then refined: where a third disc reaches past a
    tangent, it stands between the two. Parameters: centres (K, 2); radii (K,). Returns: radians, (B,).
    """
    alpha = np.radians(np.arange(0.0, 360.0, step_deg))
    _, best = support_of_discs(alpha, centres, radii)
    after = np.roll(best, -1)
    change = np.flatnonzero(best != after)
    first, second, start = best[change], after[change], alpha[change]
    found = []
    for _ in range(8):
        if not len(first):
            break
        normal = _tangent_normals(np.asarray(centres), np.asarray(radii), first, second, start, np.radians(step_deg))
        found.append(normal)
        reach, third = support_of_discs(normal, centres, radii)
        own = np.einsum("ij,ij->i", _normals(normal), np.asarray(centres)[first]) + np.asarray(radii)[first]
        past = (reach > own + 1e-10) & (third != first) & (third != second)
        first, second, start = (
            np.concatenate([first[past], third[past]]),
            np.concatenate([third[past], second[past]]),
            np.concatenate([start[past], start[past]]),
        )
    return np.mod(np.concatenate(found), 2.0 * np.pi) if found else np.zeros(0)


def _tangent_normals(centres, radii, first, second, start, width: float) -> np.ndarray:
    """Normals of common tangents of pairs of discs, within a width from a start; its middle where there is none."""
    between = centres[second] - centres[first]
    gap = np.hypot(between[:, 0], between[:, 1])
    with np.errstate(invalid="ignore", divide="ignore"):
        half = np.arccos(np.clip((radii[first] - radii[second]) / gap, -1.0, 1.0))
    towards = np.arctan2(between[:, 1], between[:, 0])
    candidates = np.stack([towards - half, towards + half], axis=1)
    offset = np.mod(candidates - start[:, None], 2.0 * np.pi)
    inside = offset <= width
    return np.where(
        inside[:, 0], start + offset[:, 0], np.where(inside[:, 1], start + offset[:, 1], start + width / 2.0)
    )


def search_step_deg(size: float, tolerance: float) -> float:
    """Step of sampled directions whose own error on a shape of a size stays below a tenth of a tolerance.

    size (1 / cos(step / 2) - 1) <= tolerance / 10; at most 0.5 degree. Errors: ValueError for a tolerance that is
    not positive.
    """
    if not (np.isfinite(tolerance) and tolerance > 0.0):
        raise ValueError(f"tolerance is {tolerance}; it must be a positive number")
    step = 2.0 * np.degrees(np.arccos(1.0 / (1.0 + tolerance / (10.0 * max(size, 1e-9)))))
    return float(360.0 / np.ceil(360.0 / min(step, 0.5)))


def edge_normals_of_polygon(points) -> np.ndarray:
    """Outward normals of the edges of the hull of points, radians. Parameters: points (V, 2); V of 1 gives none."""
    points = hull(points)
    if len(points) < 2:
        return np.zeros(0)
    edge = np.roll(points, -1, axis=0) - points
    return np.mod(np.arctan2(-edge[:, 0], edge[:, 1]), 2.0 * np.pi)


def hull(points) -> np.ndarray:
    """Convex hull of points, counter-clockwise, no repeats. Parameters: (V, 2). Returns: (H, 2)."""
    points = np.unique(np.asarray(points, dtype=np.float64).reshape(-1, 2), axis=0)
    if len(points) < 3:
        return points

    def chain(rows):
        out: list[np.ndarray] = []
        for p in rows:
            while len(out) > 1 and _cross(out[-1] - out[-2], p - out[-2]) <= 0.0:
                out.pop()
            out.append(p)
        return out[:-1]

    return np.array(chain(points) + chain(points[::-1]))


def _cross(a, b) -> float:
    return float(a[0] * b[1] - a[1] * b[0])


def support_of_points(alpha_rad, points) -> np.ndarray:
    """Support function of points. Parameters: alpha_rad (D,); points (V, 2). Returns: (D,)."""
    return np.max(_along(_normals(alpha_rad), np.asarray(points, dtype=np.float64).reshape(-1, 2)), axis=1)


def circumscribed(alpha_rad, support, tolerance: float) -> np.ndarray:
    """Polygon that contains a convex shape and exceeds it by no more than a tolerance, with few vertices.

    Support lines are taken greedily: from one line, the farthest next line whose crossing with it still lies
    within the tolerance of the shape, judged at all sampled directions between.
    Parameters: alpha_rad (D,) ascending in [0, 2 pi), closer than 10 degrees apart; support (D,); tolerance in
    the same unit, > 0. Returns: vertices (M, 2), counter-clockwise.
    Errors: ValueError for a tolerance that is not positive or a support that is not finite. Derived here.
    """
    if not (np.isfinite(tolerance) and tolerance > 0.0):
        raise ValueError(f"tolerance is {tolerance}; it must be a positive number")
    if not np.isfinite(support).all():
        raise ValueError("support holds a value that is not finite")
    alpha, h = np.asarray(alpha_rad, float), np.asarray(support, float)
    count = len(alpha)
    normals = _normals(alpha)
    wrapped = np.concatenate([alpha, alpha + 2.0 * np.pi])
    n2, h2 = np.concatenate([normals, normals]), np.concatenate([h, h])
    limit = np.searchsorted(wrapped, wrapped + np.radians(60.0), side="right") - 1
    chosen, window = [0], 8
    while chosen[-1] < count:
        here = chosen[-1]
        furthest = int(min(limit[here], count))
        while True:
            last = min(here + window, furthest)
            ahead = np.arange(here + 1, last + 1)
            corners = _crossings(wrapped[here], h2[here], wrapped[ahead], h2[ahead])
            excess = _along(corners, n2[here : last + 1]) - h2[here : last + 1]
            excess = np.where(np.arange(here, last + 1) <= ahead[:, None], excess, -np.inf).max(axis=1)
            fits = np.flatnonzero(excess <= tolerance)
            if last == furthest or not len(fits) or fits[-1] < len(ahead) - 1:
                break
            window *= 2
        chosen.append(int(ahead[fits[-1]]) if len(fits) else here + 1)
        window = max(8, 2 * (chosen[-1] - here))
    chosen[-1] = count
    lines = np.array(chosen)
    return _crossings(wrapped[lines[:-1]], h2[lines[:-1]], wrapped[lines[1:]], h2[lines[1:]])


def _crossings(a1, h1, a2, h2) -> np.ndarray:
    """Crossings of support lines x cos a + y sin a = h, broadcast; (..., 2)."""
    turn = np.sin(a2 - a1)
    x = (h1 * np.sin(a2) - h2 * np.sin(a1)) / turn
    return np.stack([x, (h2 * np.cos(a1) - h1 * np.cos(a2)) / turn], axis=-1)
