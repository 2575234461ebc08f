"""Rows about how well a fix can be made: its tolerance area, and how far off a slip puts it."""

from __future__ import annotations

import numpy as np

from .. import navaids, reasons, slips
from ..angles import wrap360
from ..fixes import Station
from ..flight import RULES
from ..magnetism import declination_deg
from ..tolerance import methods
from ..tolerance.areas import areas
from .layer import Layer

BASES = ("aids", "gnss")
AIDS, GNSS = range(2)
MEMORY_NOTE = {
    "icao": "accuracies of ICAO Doc 8168 Vol II, Table I-2-2-1, from memory, to be confirmed against the document",
    "faa": "accuracies of FAA Order 8260.3, from memory, to be confirmed against the document",
}
GNSS_NOTE = "along-track and cross-track values as given, not those of an aid"


def tolerance_rows(
    columns: dict[str, np.ndarray], *, basis, rules, along_nm, across_nm, tolerance_m: float = 5.0
) -> tuple[Layer, np.ndarray, np.ndarray]:
    """Fix tolerance areas of rows of the fixes or the holds layer.

    The aids that define the fix bound it: a radial and DME its annular sector, two lines their overlap, overhead
    a VOR or an NDB its cone; a fix by position, or by an aid that gives no distance, the values for GNSS. The
    inbound course is that of the hold (inbound_true_deg), else the course of the fix.
    Parameters: columns, N rows; basis, codes of BASES; rules, codes of flight.RULES; along_nm, across_nm;
    they broadcast; tolerance_m > 0. Returns: Layer of the good rows, index of the row of each, reasons (N,).
    Source: see tolerance.areas.areas.
    """
    n = len(columns["lon"])
    text, number = _readers(columns, n)
    method, kind, kind_2 = text("method"), text("navaid_kind"), text("navaid_2_kind")
    line, line_2 = text("line"), text("line_2")
    first = _first_station(text, number)
    second = Station.of(
        number("navaid_2_lon"), number("navaid_2_lat"), number("navaid_2_elev_ft"), number("navaid_2_decl_deg"), kind_2
    )
    swapped = (line == "distance") & (line_2 == "radial")
    one, two = _swap(swapped, first, second)
    dme = np.where(swapped, number("dme_2_nm"), number("dme_nm"))
    dme_2 = np.where(swapped, number("dme_nm"), number("dme_2_nm"))
    with_dme = navaids.gives_range(kind) & (navaids.gives_radials(kind) | navaids.gives_bearings(kind))
    measured = np.isin(method, ("radial_distance", "along_track", "route")) & with_dme & (kind != "")
    measured &= number("dist_nm") > 1e-3
    overhead = (method == "overhead") & (navaids.gives_radials(kind) | navaids.gives_bearings(kind)) & (kind != "")
    crossing = method == "crossing"
    which = np.select(
        [
            np.broadcast_to(basis, n) == GNSS,
            crossing & (line == "radial") & (line_2 == "radial"),
            crossing & (line == "distance") & (line_2 == "distance"),
            crossing | measured,
            overhead,
        ],
        [methods.GNSS, methods.RADIAL_RADIAL, methods.ARC_ARC, methods.RADIAL_ARC, methods.OVERHEAD],
        default=methods.GNSS,
    )
    course = np.where(np.isfinite(number("inbound_true_deg")), number("inbound_true_deg"), number("course_true_deg"))
    rules = np.broadcast_to(rules, n)
    made = areas(
        which,
        one,
        two,
        columns["lon"],
        columns["lat"],
        course,
        slant_1_nm=dme,
        slant_2_nm=np.where(which == methods.RADIAL_ARC, np.where(crossing, dme_2, dme), dme_2),
        alt_ft=number("alt_ft"),
        rules=rules,
        gnss_along_nm=along_nm,
        gnss_across_nm=across_nm,
        tolerance_m=tolerance_m,
    )
    good = np.flatnonzero(made.code == reasons.OK)
    names = np.array(RULES, dtype=object)[rules]
    limits = np.array([MEMORY_NOTE[name] for name in names], dtype=object)
    limits = np.where(which == methods.GNSS, GNSS_NOTE, limits)
    out = {
        "fix": text("fix"),
        "rules": names,
        "aids": np.array(methods.METHODS, dtype=object)[which],
        **{k: getattr(made, k) for k in ("along_ahead_nm", "along_behind_nm", "across_left_nm", "across_right_nm")},
        **{
            k: np.where(which <= methods.ARC_ARC, getattr(made, k), np.nan)
            for k in ("angle_1_deg", "angle_2_deg", "range_1_nm", "range_2_nm")
        },
        "area_nm2": made.area_nm2,
        "limits": limits,
    }
    pieces = [made.coords[made.offsets[i] : made.offsets[i + 1]] for i in good]
    coords = np.concatenate(pieces) if pieces else np.zeros((0, 2))
    offsets = np.concatenate([[0], np.cumsum([len(p) for p in pieces])]).astype(np.int64)
    layer = Layer({k: np.asarray(v)[good] for k, v in out.items()}, coords, offsets)
    return layer, good, reasons.sentences(made.code)


def slip_rows(columns: dict[str, np.ndarray], year: float, least_nm: float = 0.0) -> dict[str, np.ndarray]:
    """Columns of the slips layer for rows of the fixes layer: one row a fix and slip that applies.

    Parameters: columns, N rows; year of the magnetic model; least_nm, slips that move a fix by less are left
    out. Returns: columns, fix by fix, the farthest slip first.
    """
    n = len(columns["lon"])
    text, number = _readers(columns, n)
    station = _first_station(text, number)
    along = text("method") == "along_track"
    found = slips.slips(
        station,
        columns["lon"],
        columns["lat"],
        radial_deg=wrap360(number("radial_deg")),
        dme_nm=number("dme_nm"),
        var_station_deg=declination_deg(station.lon, station.lat, year=year),
        var_fix_deg=declination_deg(columns["lon"], columns["lat"], year=year),
        point_lon=np.where(along, station.lon, np.nan),
        point_lat=np.where(along, station.lat, np.nan),
    )
    distance = np.stack([found[slip.key] for slip in slips.SLIPS], axis=1)
    with np.errstate(invalid="ignore"):
        row, which = np.nonzero(distance >= least_nm)
    order = np.lexsort((-distance[row, which], row))
    row, which = row[order], which[order]

    def of(name: str) -> np.ndarray:
        return np.array([getattr(slip, name) for slip in slips.SLIPS], dtype=object)[which]

    return {
        "fix": text("fix")[row],
        "slip": of("key"),
        "distance_nm": distance[row, which],
        "text": of("sentence"),
        "source": of("source"),
    }


def _readers(columns: dict[str, np.ndarray], n: int):
    """How to read a text and a number column that may not be there."""

    def text(name: str) -> np.ndarray:
        return np.asarray(columns.get(name, np.full(n, "", dtype=object)), dtype=object)

    def number(name: str) -> np.ndarray:
        return np.asarray(columns.get(name, np.full(n, np.nan)), dtype=np.float64)

    return text, number


def _first_station(text, number) -> Station:
    """The first station of the rows, its DME where it stands apart if the layer tells."""
    names = ("navaid_lon", "navaid_lat", "navaid_elev_ft", "navaid_decl_deg")
    site = (number(name) for name in ("dme_lon", "dme_lat", "dme_elev_ft"))
    return Station.of(*map(number, names), text("navaid_kind"), *site)


def _swap(mask, first: Station, second: Station) -> tuple[Station, Station]:
    names = Station.__dataclass_fields__

    def mixed(a: Station, b: Station) -> Station:
        return Station(*[np.where(mask, getattr(b, n), getattr(a, n)) for n in names])

    return mixed(first, second), mixed(second, first)
