"""The basic area of ICAO holds alone, template over fix tolerance area, with the fewest vertices."""

from __future__ import annotations

import numpy as np

from .. import convex
from ..units import NM_M
from . import parts
from .areas import Area
from .icao_lines import MEMORY_NOTE, lines
from .icao_template import POINT_FIX, discs
from .placing import protecting_ring

MOC_FT = parts.INSIDE.inner_ft


def basic_support(values, tolerance_area_nm=POINT_FIX, step_deg: float = 1.0, tolerance_m: float = 5.0):
    """Support function of one basic area: the template over the fix tolerance area.

    The document draws the template at each corner of the tolerance area and joins them by tangents, which is
    the sum of the two convex shapes (derived here).
    Parameters: values, the lines of one template; tolerance_area_nm (V, 2) in the frame; tolerance_m, for
    which the directions are fine enough. Returns: alpha (D,) radians ascending, h (D,) NM.
    Source: Doc 8168 Vol II, I-4-3-App C-11, 3.3.3.1.
    """
    centres, radii = discs(values, step_deg)
    fine = convex.search_step_deg(float(np.max(radii)), tolerance_m / NM_M)
    alpha = np.concatenate(
        [
            np.radians(np.arange(0.0, 360.0 - fine / 2.0, fine)),
            convex.edge_normals_of_discs(centres, radii, fine),
            convex.edge_normals_of_polygon(tolerance_area_nm),
        ]
    )
    alpha = np.unique(np.round(np.mod(alpha, 2.0 * np.pi), 12))
    alpha = alpha[alpha < 2.0 * np.pi - 1e-11]
    template_support, _ = convex.support_of_discs(alpha, centres, radii)
    return alpha, template_support + convex.support_of_points(alpha, tolerance_area_nm)


def basic_areas(
    ias_kt, alt_ft, outbound_min, *, tolerance_areas_nm=None, tolerance_m: float = 5.0, step_deg: float = 1.0
) -> list[Area]:
    """Basic holding areas of N holds.

    Parameters: ias_kt, the fastest that may use the hold; alt_ft, the highest level; outbound_min, still
    air; (N,) each; tolerance_areas_nm, N arrays (V, 2) in the frame or None for points; tolerance_m > 0.
    Returns: N Areas, part 'basic', whose rings contain the true area and exceed it by no more than the
    tolerance. Source: basic_support. Equal designs share one computation.
    """
    ias, alt, minutes = np.broadcast_arrays(
        *[np.atleast_1d(np.asarray(a, float)) for a in (ias_kt, alt_ft, outbound_min)]
    )
    values = lines(ias, alt, minutes)
    if not np.isfinite(values["YE"]).all():
        raise ValueError("a basic area needs finite speeds, altitudes and times; leave failed rows out")
    made: dict[tuple, np.ndarray] = {}
    out = []
    for i in range(len(ias)):
        tolerance_area = POINT_FIX if tolerance_areas_nm is None else np.asarray(tolerance_areas_nm[i], float)
        key = (ias[i], alt[i], minutes[i], tolerance_area.tobytes())
        if key not in made:
            one = {name: value[i] for name, value in values.items()}
            made[key] = protecting_ring(*basic_support(one, tolerance_area, step_deg, tolerance_m), tolerance_m)
        tas, wind = float(values["V"][i]), float(values["w"][i])
        out.append(Area(i, "basic", ((made[key],),), MOC_FT, float(alt[i]), tas, wind, MEMORY_NOTE))
    return out
