"""What a table of navaids gets wrong or leaves out, before anything is designed on it.

Each finding is a prompt to look at the state's own publication, not a verdict: stations are out of date by
design, and some are aligned to true north.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

import numpy as np

from . import geodesy, magnetism, navaids, text
from .angles import sind, wrap180
from .units import FT_M, NM_M

SEVERITIES = ("high", "medium", "low")
FINDINGS = (
    "out_of_service",
    "frequency",
    "declination_off",
    "no_declination",
    "no_elevation",
    "ambiguous_ident",
    "site_position",
    "site_elevation",
    "site_declination",
)
TOLD_AT_NM = 20.0
"""Distance at which the effect of a wrong north is told; common practice."""
ON_TRUE_DEG = 0.5
"""A declination this near zero, where the variation is large, may be that of a station on true north; chosen here."""


class Threshold(NamedTuple):
    """More than this is a finding of this severity. Mark: 'published', 'common practice' or 'chosen here'."""

    value: float
    unit: str
    severity: str
    mark: str
    source: str


THRESHOLDS = {
    "declination_off": (
        Threshold(2.0, "deg", "medium", "common practice", "a prompt to check the station's alignment"),
        Threshold(6.0, "deg", "high", "chosen here", "2 NM at 20 NM"),
    ),
    "site_position": (Threshold(10.0, "m", "low", "chosen here", "two antennas, or one position that is wrong"),),
    "site_elevation": (Threshold(50.0, "ft", "medium", "chosen here", "more than one site slopes"),),
    "site_declination": (Threshold(0.5, "deg", "medium", "chosen here", "published in whole degrees"),),
}
"""The first entry decides whether there is a finding, the last one passed its severity."""

SEVERITY = {
    "out_of_service": "high",
    "impossible": "high",
    "unusual": "low",
    "no_declination": "high",
    "no_elevation": "medium",
    "no_elevation_of_beacon": "low",
    "same_frequency": "high",
    "same_kind": "medium",
    "other_kind": "low",
}
"""Chosen here: high where a fix would be wrong or not received, medium where it may be, low where one should know."""

SOURCES = {
    "out_of_service": "the table's status",
    "frequency": "FAA AIM 1-1-2 a, 1-1-3 a; ICAO Annex 10, in part from memory",
    "declination_off": "World Magnetic Model 2025; threshold: common practice",
    "no_declination": "a radial needs the station's declination (aeronautical glossary, slaved declination)",
    "no_elevation": "a slant range needs the station's elevation (ICAO Doc 8168 Vol II, I-4-3-App C-13)",
    "ambiguous_ident": "common practice",
    "site_position": "common practice",
    "site_elevation": "common practice",
    "site_declination": "common practice",
}
NEEDED = (
    "id", "ident", "kind", "freq", "freq_check", "in_service", "elev_ft", "decl_deg", "status", "lon", "lat"
)  # fmt: skip


class Findings(NamedTuple):
    """Findings, the gravest first, then by row: one array a column.

    navaid, its ident; kind; finding, one of FINDINGS; severity, one of SEVERITIES; value in unit, NaN where
    there is none; text, a sentence; source; lon, lat; row, index of the navaid in the input.
    """

    navaid: np.ndarray
    kind: np.ndarray
    finding: np.ndarray
    severity: np.ndarray
    value: np.ndarray
    unit: np.ndarray
    text: np.ndarray
    source: np.ndarray
    lon: np.ndarray
    lat: np.ndarray
    row: np.ndarray


def audit(columns: Mapping[str, np.ndarray], year: float, *, same_ident_nm=300.0, together_nm=0.5) -> Findings:
    """What is doubtful in a table of navaids.

    The station's declination against the model's variation today; idents that several stations within reach
    share; aids of one ident and site that differ in position, elevation or declination; frequencies that
    cannot be; what is missing; what is out of service.
    Parameters: columns NEEDED, N rows each, as navaid_data.reading.read gives them, rows without a place being left
    out; year, decimal, of the model; same_ident_nm >= together_nm, within which one ident is ambiguous;
    together_nm >= 0, within which aids of one ident stand on one site.
    Returns: Findings. Errors: ValueError for missing columns, distances out of order, a year outside the model.
    Source: THRESHOLDS, SEVERITY, SOURCES.
    """
    missing = [name for name in NEEDED if name not in columns]
    if missing:
        raise ValueError(f"columns lack {', '.join(missing)}; give those of navaid_data.reading.read")
    if not 0.0 <= together_nm <= same_ident_nm:
        raise ValueError(f"together_nm is {together_nm}; it must be from 0 to same_ident_nm, {same_ident_nm}")
    table = _Table(columns)
    first, second, apart = _same_ident(table, same_ident_nm)
    together = apart <= together_nm
    sites = first[together], second[together], apart[together]
    parts = [
        _out_of_service(table),
        _frequency(table),
        _declination(table, year),
        *_missing(table),
        _ambiguous(table, first[~together], second[~together], apart[~together], same_ident_nm),
        *_sites(table, *sites),
    ]
    found = [np.concatenate(values) for values in zip(*parts)]
    rank = np.array([SEVERITIES.index(severity) for severity in found[Findings._fields.index("severity")]], dtype=int)
    order = np.lexsort((found[-1], rank)) if len(rank) else rank
    return Findings(*[values[order] for values in found])


class _Table:
    """The columns of navaids that have a place."""

    def __init__(self, columns: Mapping[str, np.ndarray]) -> None:
        lon, lat = (np.asarray(columns[name], dtype=np.float64) for name in ("lon", "lat"))
        with np.errstate(invalid="ignore"):
            self.row = np.flatnonzero((np.abs(lat) <= 90.0) & np.isfinite(lon))
        self.lon, self.lat = lon[self.row], lat[self.row]
        self.elev_ft, self.decl_deg = (
            np.asarray(columns[name], dtype=np.float64)[self.row] for name in ("elev_ft", "decl_deg")
        )
        self.id, self.ident, self.kind, self.freq, self.freq_check, self.status = (
            np.asarray(columns[name], dtype=object)[self.row]
            for name in ("id", "ident", "kind", "freq", "freq_check", "status")
        )
        self.in_service = np.asarray(columns["in_service"], dtype=bool)[self.row]
        self.radials = navaids.gives_radials(self.kind)
        self.beacon = navaids.gives_bearings(self.kind)

    def who(self, i: int) -> str:
        return f"{self.kind[i]} {self.ident[i]}".strip()

    def other(self, i: int) -> str:
        kind = self.kind[i] or "navaid"
        return f"the {kind} with id {self.id[i]}" if self.id[i] else f"the {kind}"


def _found(table: _Table, finding: str, rows, severity, value, unit: str, sentence: Callable[[int], str]) -> Findings:
    """Findings of rows (index). severity: one word or one for each; value: one for each or NaN; sentence(k) of k."""
    rows = np.asarray(rows, dtype=np.int64)

    def words(values) -> np.ndarray:
        out = np.empty(len(rows), dtype=object)
        out[:] = [values] * len(rows) if isinstance(values, str) else values
        return out

    return Findings(
        table.ident[rows],
        table.kind[rows],
        words(finding),
        words(severity),
        np.broadcast_to(np.asarray(value, dtype=np.float64), len(rows)),
        words(unit),
        words([sentence(k) for k in range(len(rows))]),
        words(SOURCES[finding]),
        table.lon[rows],
        table.lat[rows],
        table.row[rows],
    )


def _out_of_service(table: _Table) -> Findings:
    rows = np.flatnonzero(~table.in_service)

    def sentence(k: int) -> str:
        return f"{table.who(rows[k])} is out of service: its status is '{table.status[rows[k]]}'"

    return _found(table, "out_of_service", rows, SEVERITY["out_of_service"], np.nan, "", sentence)


def _frequency(table: _Table) -> Findings:
    rows = np.flatnonzero(table.freq_check != "")
    units = np.where(table.beacon[rows], "kHz", "MHz")

    def sentence(k: int) -> str:
        freq = f" {table.freq[rows[k]]} {units[k]}" if table.freq[rows[k]] else ""
        word = "is impossible" if table.freq_check[rows[k]] == "impossible" else "is outside the band of such beacons"
        return f"The frequency{freq} of {table.who(rows[k])} {word}"

    severity = [SEVERITY[check] for check in table.freq_check[rows]]
    values = [float(freq) if freq else np.nan for freq in table.freq[rows]]
    found = _found(table, "frequency", rows, severity, values, "", sentence)
    return found._replace(unit=units.astype(object))


def _passed(name: str, values: np.ndarray) -> list[str]:
    """Severity of values that are beyond the first threshold of a name."""
    return [[step.severity for step in THRESHOLDS[name] if value > step.value][-1] for value in values]


def _declination(table: _Table, year: float) -> Findings:
    rows = np.flatnonzero(table.radials & np.isfinite(table.decl_deg))
    height_km = np.nan_to_num(table.elev_ft[rows], nan=0.0) * (FT_M / 1000.0)
    field = magnetism.field(table.lon[rows], table.lat[rows], height_km, year)
    off = wrap180(table.decl_deg[rows] - field.d_deg)
    with np.errstate(invalid="ignore"):
        far = np.flatnonzero(np.abs(off) > THRESHOLDS["declination_off"][0].value)
    rows, off, today, weak = rows[far], off[far], field.d_deg[far], field.h_nt[far] < magnetism.CAUTION_NT
    side_nm = 2.0 * TOLD_AT_NM * sind(np.abs(off) / 2.0)
    on_true = (np.abs(table.decl_deg[rows]) <= ON_TRUE_DEG) & (np.abs(off) > THRESHOLDS["declination_off"][-1].value)

    def sentence(k: int) -> str:
        return (
            f"The declination of {table.who(rows[k])}, {text.format_variation(table.decl_deg[rows[k]])}, is "
            f"{abs(off[k]):.1f} degrees from today's variation, {text.format_variation(today[k])}: "
            f"{text.format_nm(side_nm[k])} at {text.format_nm(TOLD_AT_NM, 0)}"
            + ("; it may be aligned to true north" if on_true[k] else "")
            + ("; the field is weak there and the model's variation uncertain" if weak[k] else "")
        )

    return _found(table, "declination_off", rows, _passed("declination_off", np.abs(off)), off, "deg", sentence)


def _missing(table: _Table) -> list[Findings]:
    named = table.kind != ""
    radials = np.flatnonzero(table.radials & named & ~np.isfinite(table.decl_deg))
    received = (table.radials | navaids.gives_range(table.kind) | table.beacon) & named
    low = np.flatnonzero(received & ~np.isfinite(table.elev_ft))
    needs = navaids.gives_range(table.kind[low]) | table.radials[low]

    def no_declination(k: int) -> str:
        return f"{table.who(radials[k])} has no declination, so its radials cannot be drawn by its own north"

    def no_elevation(k: int) -> str:
        use = "slant range, service volume and line of sight" if needs[k] else "the cone overhead"
        return f"{table.who(low[k])} has no elevation, which {use} need{'' if needs[k] else 's'}"

    severity = [SEVERITY["no_elevation" if need else "no_elevation_of_beacon"] for need in needs]
    return [
        _found(table, "no_declination", radials, SEVERITY["no_declination"], np.nan, "", no_declination),
        _found(table, "no_elevation", low, severity, np.nan, "", no_elevation),
    ]


def _same_ident(table: _Table, within_nm: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Pairs of rows that share an ident and lie within a distance: first < second, and how far apart.

    Sorted by ident and latitude, each row is compared with its followers until one is too far north.
    """
    _, code = np.unique(np.array([ident.upper() for ident in table.ident], dtype=str), return_inverse=True)
    code = np.where(table.ident == "", -1, code)
    order = np.lexsort((table.lat, code))
    order = order[code[order] >= 0]
    band = within_nm / 59.5
    start, step, found = np.arange(len(order)), 1, []
    while len(start):
        start = start[start + step < len(order)]
        a, b = order[start], order[start + step]
        near = (code[a] == code[b]) & (table.lat[b] - table.lat[a] <= band)
        start = start[near]
        found.append((a[near], b[near]))
        step += 1
    a, b = (np.concatenate([pair[k] for pair in found] or [np.empty(0, dtype=np.int64)]) for k in (0, 1))
    _, _, apart = geodesy.inverse(table.lon[a], table.lat[a], table.lon[b], table.lat[b])
    near = apart <= within_nm
    first, second = np.minimum(a, b)[near], np.maximum(a, b)[near]
    by_row = np.lexsort((second, first))
    return first[by_row], second[by_row], apart[near][by_row]


def _ambiguous(table: _Table, first, second, apart, within_nm: float) -> Findings:
    """One finding for each navaid that others share their ident with, by the nearest of them."""
    one, two, both = np.concatenate([first, second]), np.concatenate([second, first]), np.concatenate([apart, apart])
    order = np.lexsort((both, one))
    one, two, both = one[order], two[order], both[order]
    rows, at, count = np.unique(one, return_index=True, return_counts=True)
    nearest, distance = two[at], both[at]
    same = (table.freq[one] == table.freq[two]) & (table.freq[one] != "") & (table.beacon[one] == table.beacon[two])
    alike = (table.beacon[one] == table.beacon[two]) & (table.radials[one] == table.radials[two])
    same_of_row, alike_of_row = (np.logical_or.reduceat(mask, at) if len(at) else at for mask in (same, alike))
    severity = [
        SEVERITY["same_frequency" if s else "same_kind" if a else "other_kind"]
        for s, a in zip(same_of_row, alike_of_row)
    ]

    def sentence(k: int) -> str:
        others = "another navaid" if count[k] == 1 else f"{count[k]} other navaids"
        tail = ", one of them on its frequency" if same_of_row[k] else ""
        return (
            f"{table.who(rows[k])} shares its ident with {others} within {text.format_nm(within_nm, 0)}{tail}; "
            f"{table.other(nearest[k])} is {text.format_nm(distance[k])} away"
        )

    return _found(table, "ambiguous_ident", rows, severity, distance, "NM", sentence)


def _sites(table: _Table, first, second, apart) -> list[Findings]:
    """Pairs of one ident and site that differ; the finding stands with the first of the two."""
    metres = apart * NM_M
    feet = table.elev_ft[second] - table.elev_ft[first]
    both_radials = table.radials[first] & table.radials[second]
    degrees = np.where(both_radials, wrap180(table.decl_deg[second] - table.decl_deg[first]), np.nan)

    def differ(finding: str, value: np.ndarray, unit: str, what: str, shown: Callable[[float], str]) -> Findings:
        with np.errstate(invalid="ignore"):
            k = np.flatnonzero(np.abs(value) > THRESHOLDS[finding][0].value)

        def sentence(n: int) -> str:
            pair = f"{table.who(first[k[n]])} and {table.other(second[k[n]])} of the same ident and site"
            return f"{pair} {what} by {shown(abs(value[k[n]]))}"

        return _found(table, finding, first[k], _passed(finding, np.abs(value[k])), value[k], unit, sentence)

    return [
        differ("site_position", metres, "m", "differ in position", lambda m: f"{m:.0f} m"),
        differ("site_elevation", feet, "ft", "differ in elevation", lambda ft: f"{ft:.0f} ft"),
        differ("site_declination", degrees, "deg", "differ in declination", lambda d: f"{d:.1f} degrees"),
    ]
