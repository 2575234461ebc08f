"""Areas that must be clear of the ground: which clearances hold about the parts of a layer of areas."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from .. import clearances, obstacles
from ..obstacles import Holding

ICAO_PARTS, FAA_PARTS, SECONDARY = ("basic", "entry"), ("primary",), "secondary"
"""Parts that make up a holding area, by whose clearances, and the part that only tells how wide a secondary is."""
SECONDARY_NM = clearances.FAA[1].to_nm
EVEN_NM = 0.02
"""A secondary whose corners lie farther than this from one distance has no one width."""


class Options(NamedTuple):
    """Choices that hold for all areas: buffer, false for areas without their rings; helicopter, ICAO's category H;
    mountainous, the FAA's higher clearance; factor, 1 to 2, on ICAO's; secondary_nm, NaN for that of the polygon;
    metres, ICAO's values in metres."""

    buffer: bool = True
    helicopter: bool = False
    mountainous: bool = False
    factor: float = 1.0
    secondary_nm: float = float("nan")
    metres: bool = False


def cleared_area(
    polygons: Mapping[str, list], moc_ft: Mapping[str, float], options: Options, fix: tuple[float, float] | None = None
) -> tuple[Holding | None, str]:
    """A holding area with its clearances, out of the parts of the areas layer.

    Parameters: polygons by part, each a list of rings (K, 2) of longitude and latitude, outer first; moc_ft by part,
    a primary's or secondary's own clearance, NaN for the usual one; options; fix, origin of the frame, default the
    middle of the area. Returns: Holding, None where no part makes up a holding area; and '' or why its answer may not
    be taken as it is. Errors: ValueError as of clearances.
    """
    inside = [part for part in (*FAA_PARTS, *ICAO_PARTS) if polygons.get(part)]
    if not inside:
        return None, ""
    area = obstacles.holding([polygon for part in inside for polygon in polygons[part]], clearances.faa(), fix)
    if inside[0] not in FAA_PARTS:
        rings = clearances.icao(
            factor=options.factor, helicopter=options.helicopter, buffer=options.buffer, metres=options.metres
        )
        return area._replace(clearances=rings), ""
    width, doubt = _secondary_width(area, polygons.get(SECONDARY) or [], options)
    own = {
        name: moc_ft.get(part, float("nan")) for name, part in (("primary_ft", "primary"), ("secondary_ft", SECONDARY))
    }
    rings = clearances.faa(mountainous=options.mountainous, secondary_nm=width, buffer=options.buffer, **own)
    return area._replace(clearances=rings), doubt


def _secondary_width(area: Holding, polygons: list, options: Options) -> tuple[float, str]:
    """How far a secondary reaches from the primary, to the hundredth that drawing leaves; the most where it varies."""
    if np.isfinite(options.secondary_nm):
        return float(options.secondary_nm), ""
    if not polygons:
        return SECONDARY_NM, ""
    rings = [area.frame.points(*np.asarray(polygon[0], dtype=np.float64).T) for polygon in polygons]
    middles = [(ring + np.roll(ring, -1, axis=0)) / 2.0 for ring in rings]
    away = area.region.distance(np.concatenate(rings + middles))
    away = away[away > EVEN_NM]  # corners that it shares with the primary lie on it
    if not len(away):
        return SECONDARY_NM, ""
    widest = round(float(away.max()), 2)
    if widest - float(away.min()) <= EVEN_NM:
        return widest, ""
    return widest, (
        f"the secondary area is not of one width: its clearance is taken to fall evenly over the widest, {widest} NM"
    )
