"""Tables of navaids as their publishers write them, to clean columns; a row that cannot be used says why.

Three forms are known by their headers: a government's survey table, the public-domain worldwide table, and
any plain table with our own column names. Cells are text, as a CSV reader gives them: NA is an ident and a
country, never a missing value.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from . import geodesy, navaids, reasons, text
from .units import NM_M

FORMS = ("government", "worldwide", "plain")
"""By the headers nav_id and nav_type; by latitude_deg, longitude_deg and type; any other with ident and a position."""

TEXTS = ("id", "ident", "name", "kind", "freq", "channel", "class", "status", "country", "limits")
NUMBERS = ("lon", "lat", "elev_ft", "decl_deg", "dme_lon", "dme_lat", "dme_elev_ft")
CHECKS = ("freq_check", "in_service")

SAME_SITE_M = 10.0
"""A DME this near its VOR stands with it, and two rows this near are one; derived here: the rounding of positions
published to a tenth of a second is 3 m, to a second 31 m."""


class Band(NamedTuple):
    """Frequencies a kind of navaid can have. Mark: 'published' (read in the source or a quotation) or 'from memory'."""

    low_khz: float
    high_khz: float
    step_khz: float
    mark: str
    source: str


BANDS = {
    "vhf": Band(108_000.0, 117_950.0, 50.0, "published", "FAA AIM 1-1-3 a; the step of 50 kHz from memory of Annex 10"),
    "ndb": Band(190.0, 1_750.0, 0.0, "published", "FAA AIM 1-1-2 a, quoting ICAO Annex 10; beacons below it exist"),
}
FREQ_CHECKS = ("", "unusual", "impossible")
POSSIBLE, UNUSUAL, IMPOSSIBLE = range(3)


class Pairing(NamedTuple):
    """VHF frequency of DME channels: first X channel, last, frequency of the first; 100 kHz a channel, Y 50 more."""

    first: int
    last: int
    first_khz: float
    spoken: bool
    mark: str
    source: str


_CHANNELS = "ICAO Annex 10 Vol I, table of DME channels"
PAIRINGS = (
    Pairing(1, 16, 134_400.0, False, "from memory", _CHANNELS),
    Pairing(17, 59, 108_000.0, True, "from memory", _CHANNELS),
    Pairing(60, 69, 133_300.0, False, "from memory", _CHANNELS),
    Pairing(70, 126, 112_300.0, True, "from memory", _CHANNELS),
)
"""spoken is false where no VHF navaid has the frequency: such a DME or TACAN is known by its channel alone."""

OUT_OF_SERVICE = (
    "unserviceable",
    "on test",
    "ontest",
    "false indication",
    "in construction",
    "out of service",
    "not operational",
    "not in service",
    "off the air",
    "inoperative",
    "decommissioned",
    "withdrawn",
    "suspended",
    "shutdown",
    "shut down",
    "closed",
    "u/s",
)
"""Words of a status that forbid use: the first five from the status values of AIXM 5.1, the others common practice."""

_SILENT = re.compile(r"(?<![a-z])(?:" + "|".join(re.escape(words) for words in OUT_OF_SERVICE) + r")(?![a-z])")
_PLAIN_DECIMAL = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
_FREQUENCY = re.compile(r"([^a-z]*?) ?(mhz|khz)?", re.IGNORECASE)
_CHANNEL = re.compile(r"(?:ch|chan|channel)?[ .]*0*([0-9]{1,3}) ?([xy])?", re.IGNORECASE)
_DECLINATION = re.compile(r"([EW])? ?([^A-Z°º]+?) ?[°º]? ?([EW])?", re.IGNORECASE)
_FEET = re.compile(r" ?(?:ft|feet)\.?$", re.IGNORECASE)
_USUAL_IDENT = re.compile(r"[A-Za-z0-9]{1,4}")

_PLAIN_NAMES = {
    "id": ("id", "navaid_id"),
    "ident": ("ident",),
    "name": ("name",),
    "kind": ("kind", "type"),
    "freq": ("freq", "frequency"),
    "channel": ("channel",),
    "elev_ft": ("elev_ft", "elevation_ft"),
    "decl_deg": ("decl_deg", "declination"),
    "class": ("class",),
    "status": ("status",),
    "country": ("country",),
    "lat": ("lat", "latitude"),
    "lon": ("lon", "longitude"),
    "position": ("position",),
    "dme_lat": ("dme_lat",),
    "dme_lon": ("dme_lon",),
    "dme_elev_ft": ("dme_elev_ft",),
}


@dataclass(frozen=True)
class NavaidTable:
    """Navaids of N rows in the order of the input.

    form, one of FORMS. columns: TEXTS, object arrays of str, '' where not given; NUMBERS, float64, NaN where
    not given: degrees, feet, declination east positive; the DME's own place only where it stands apart;
    limits, notes on what is doubtful. CHECKS: freq_check, words of FREQ_CHECKS; in_service, bool.
    reasons: object array, '' for the rows that can be used.
    """

    form: str
    columns: dict[str, np.ndarray]
    reasons: np.ndarray

    @property
    def good(self) -> np.ndarray:
        """Mask of the rows that can be used."""
        return self.reasons == ""

    def taken(self) -> dict[str, np.ndarray]:
        """The columns of the rows that can be used."""
        return {name: values[self.good] for name, values in self.columns.items()}


def read(columns: Mapping[str, Sequence]) -> NavaidTable:
    """Navaids from a table of text cells.

    The form is told from the headers, see FORMS. A government's declination is whole degrees with E or W, and
    none for a DME; the worldwide table's is rounded to 0.1, its last digits being a conversion's residue, and
    a name that says closed gives the status. A plain table takes positions in every notation of text, one
    cell or two, decimal commas, and E or W in a declination.
    Parameters: columns, header -> cells, all of N rows; headers are compared without case.
    Returns: NavaidTable of N rows. Rows without ident or position, of a kind not in navaids.KINDS, nearer a
    pole than 85 degrees, and repeats of an earlier row (ident, kind, and place within 10 m) carry a reason;
    rows in it are counted from 1.
    Errors: ValueError for headers of no known form and for columns of unequal length.
    Source: FAA NASR layout of NAV_BASE; column names of the worldwide table; common practice.
    """
    cells = _Cells(columns)
    form = _form(cells)
    out = {"government": _government, "worldwide": _worldwide, "plain": _plain}[form](cells)
    kinds = out["kind"]
    _write_frequencies(cells, out)
    _keep_separate_dme(cells, out)
    usual = [i == "" or k == "WPT" or bool(_USUAL_IDENT.fullmatch(i)) for i, k in zip(out["ident"], kinds)]
    odd = ~np.array(usual, dtype=bool)
    cells.note(odd, lambda i: f"the ident {out['ident'][i]} is not one to four letters or figures")
    why = _reasons(cells, out)
    _refuse_repeats(out, why)
    out["id"] = _keys(out["id"], out["ident"], kinds)
    out["limits"] = cells.notes
    out["in_service"] = in_service(out["status"])
    return NavaidTable(form, {name: out[name] for name in TEXTS + NUMBERS + CHECKS}, why)


def in_service(statuses) -> np.ndarray:
    """False where a status says that the aid cannot be used; an empty one counts as in service.

    Parameters: object array of str, any shape. Returns: bool of that shape. Source: OUT_OF_SERVICE.

    >>> in_service(["", "OPERATIONAL IFR", "Out of service", "UNSERVICEABLE"]).tolist()
    [True, True, False, False]
    """
    statuses = np.asarray(statuses, dtype=object)
    known: dict[str, bool] = {}
    flat = []
    for status in statuses.ravel():
        word = "" if status is None else str(status)
        if word not in known:
            known[word] = not _SILENT.search(" ".join(word.lower().replace("_", " ").split()))
        flat.append(known[word])
    return np.array(flat, dtype=bool).reshape(statuses.shape)


def parse_declination(cell: str) -> float | None:
    """A declination or variation as people write it, east positive.

    Parameters: cell, such as '4E', 'W 3.5', '3,5° W', '-3.5'. Returns: degrees, NaN for an empty cell, None
    for what is no declination. A sign and a letter together are refused. Source: common practice.

    >>> parse_declination("4E"), parse_declination("W 3,5"), parse_declination("-3.5"), parse_declination("4 N")
    (4.0, -3.5, -3.5, None)
    """
    if not cell.strip():
        return np.nan
    match = _DECLINATION.fullmatch(cell.strip())
    if not match or (match[1] and match[3]):
        return None
    letter = (match[1] or match[3] or "").upper()
    value = text.parse_number(match[2].replace(",", "."))
    if value is None or not abs(value) <= 180.0 or (letter and not match[2].strip()[0].isdigit()):
        return None
    return -value if letter == "W" and value else value


def frequency_khz(freqs, kinds) -> np.ndarray:
    """Frequencies in kHz from text as spoken: '113.90' of a VOR or DME is MHz, '365' of an NDB is kHz.

    A unit in the text goes before; 1 000 and more without one is kHz. Parameters: sequences of str of equal
    length. Returns: float64 (N,), NaN for empty text and for what is no frequency.

    >>> frequency_khz(["113.90", "365", "0.365 MHz", "113900"], ["VOR", "NDB", "NDB", "DME"]).tolist()
    [113900.0, 365.0, 365.0, 113900.0]
    """
    out = np.full(len(freqs), np.nan)
    medium = navaids.gives_bearings(kinds)
    for i, freq in enumerate(freqs):
        match = _FREQUENCY.fullmatch(str(freq).strip())
        value = text.parse_number(match[1]) if match else None
        if value is None:
            continue
        unit = (match[2] or "").lower() or ("khz" if medium[i] or abs(value) >= 1000.0 else "mhz")
        out[i] = round(value * (1000.0 if unit == "mhz" else 1.0), 3)
    return out


def frequency_text(khz: float, kind: str) -> str:
    """A frequency as spoken: MHz with two decimals, an NDB's kHz; '' for NaN.

    >>> frequency_text(113900.0, "VOR"), frequency_text(365.0, "NDB"), frequency_text(283.5, "NDB")
    ('113.90', '365', '283.5')
    """
    if not np.isfinite(khz):
        return ""
    if kind in ("NDB", "NDB/DME"):
        return f"{khz:.0f}" if khz == round(khz) else f"{khz:.3f}".rstrip("0").rstrip(".")
    return f"{khz / 1000.0:.2f}" if round(khz % 10.0, 3) == 0.0 else f"{khz / 1000.0:.3f}"


def frequency_codes(khz, kinds) -> np.ndarray:
    """POSSIBLE, UNUSUAL or IMPOSSIBLE for each frequency of a kind of navaid; NaN, WPT and '' are possible.

    An NDB outside its band is unusual only: such beacons are on the air. Parameters: (N,) each.
    Returns: int64 (N,). Source: BANDS.

    >>> frequency_codes([113900.0, 113920.0, 175.0, -1.0], ["VOR", "VOR", "NDB", "NDB"]).tolist()
    [0, 2, 1, 2]
    """
    khz = np.asarray(khz, dtype=np.float64)
    medium = navaids.gives_bearings(kinds)
    given = np.isfinite(khz) & ~np.isin(np.asarray(kinds, dtype=object), ["", "WPT"])
    vhf, ndb = BANDS["vhf"], BANDS["ndb"]
    with np.errstate(invalid="ignore"):
        in_band = (khz >= vhf.low_khz) & (khz <= vhf.high_khz)
        off_step = np.abs(khz / vhf.step_khz - np.round(khz / vhf.step_khz)) > 1e-6
        off_ndb = (khz < ndb.low_khz) | (khz > ndb.high_khz)
        impossible = given & np.where(medium, khz <= 0.0, ~in_band | off_step)
    return np.where(impossible, IMPOSSIBLE, np.where(given & medium & off_ndb, UNUSUAL, POSSIBLE))


def channel_khz(channel: str) -> tuple[float, bool]:
    """VHF frequency paired with a DME channel in kHz, and whether a VHF navaid can have it; NaN for no channel.

    Source: PAIRINGS.

    >>> channel_khz("84X"), channel_khz("51Y"), channel_khz("2X")
    ((113700.0, True), (111450.0, True), (134500.0, False))
    """
    match = _CHANNEL.fullmatch(channel.strip())
    if match:
        for pair in PAIRINGS:
            if pair.first <= int(match[1]) <= pair.last:
                y = 50.0 if (match[2] or "x").lower() == "y" else 0.0
                return pair.first_khz + 100.0 * (int(match[1]) - pair.first) + y, pair.spoken
    return np.nan, False


class _Cells:
    """Columns of text cells by name; collects the notes on what could not be read and the reasons of bad positions."""

    def __init__(self, columns: Mapping[str, Sequence]) -> None:
        self._columns = {name.strip("\ufeff \t\"").lower(): values for name, values in columns.items()}
        lengths = {len(values) for values in self._columns.values()}
        if len(lengths) > 1:
            raise ValueError(f"columns have {min(lengths)} to {max(lengths)} rows; they must be as many")
        self.rows = lengths.pop() if lengths else 0
        self.notes = np.full(self.rows, "", dtype=object)
        self.unreadable = np.full(self.rows, "", dtype=object)

    def has(self, *names: str) -> bool:
        return all(name in self._columns for name in names)

    @property
    def headers(self) -> list[str]:
        return sorted(self._columns)

    def note(self, mask, write: Callable[[int], str]) -> None:
        reasons.note(self.notes, mask, write)

    def text(self, *names: str) -> np.ndarray:
        """Trimmed cells of the first of the names that is there; '' for empty and missing ones."""
        out = np.full(self.rows, "", dtype=object)
        values = next((self._columns[name] for name in names if name in self._columns), None)
        if values is not None:
            out[:] = [v.strip() if type(v) is str else _cell(v) for v in values]
        return out

    def number(self, *names: str, parse: Callable[[str], float | None] | None = None) -> np.ndarray:
        """Numbers of cells; NaN for empty ones, and for unreadable ones, which are noted."""
        read_cell = parse or _number
        cells = self.text(*names)
        out = np.full(self.rows, np.nan)
        bad = []
        for i, cell in enumerate(cells):
            if cell:
                value = read_cell(cell)
                if value is None:
                    bad.append(i)
                else:
                    out[i] = value
        self.note(_mask(bad, self.rows), lambda i: f"{names[0]} '{cells[i][:40]}' cannot be read")
        return out

    def angle(self, *names: str, parse: Callable[[str], float]) -> np.ndarray:
        """Latitudes or longitudes in any notation of text; what cannot be read is the row's reason."""
        cells = self.text(*names)
        out = np.full(self.rows, np.nan)
        for i, cell in enumerate(cells):
            if not cell:
                continue
            if _PLAIN_DECIMAL.fullmatch(cell) and abs(float(cell)) <= 90.0:
                out[i] = float(cell)
                continue
            try:
                out[i] = parse(cell)
            except text.PositionError as error:
                self.unreadable[i] = str(error)
        return out


def _cell(value) -> str:
    """Text of a cell that is not; a number in full, since 1e-05 could be one degree east."""
    if value is None or value != value:
        return ""
    is_float = isinstance(value, (float, np.floating))
    return np.format_float_positional(value, trim="-") if is_float else str(value).strip()


def _mask(rows: list[int], n: int) -> np.ndarray:
    out = np.zeros(n, dtype=bool)
    out[rows] = True
    return out


def _number(cell: str) -> float | None:
    return float(cell) if _PLAIN_DECIMAL.fullmatch(cell) else text.parse_number(cell)


def _feet(cell: str) -> float | None:
    return _number(_FEET.sub("", cell))


def _form(cells: _Cells) -> str:
    if cells.has("nav_id", "nav_type"):
        return "government"
    if cells.has("ident", "type", "latitude_deg", "longitude_deg"):
        return "worldwide"
    if cells.has("ident") and (cells.has("position") or _has_both(cells, "lat", "lon")):
        return "plain"
    raise ValueError(
        f"the columns are {', '.join(cells.headers)[:200] or 'none'}; a table of navaids has ident and position, or "
        "ident, lat and lon, or is one of the two published forms (nav_id, nav_type; type, latitude_deg, longitude_deg)"
    )


def _has_both(cells: _Cells, *names: str) -> bool:
    return all(any(cells.has(name) for name in _PLAIN_NAMES[column]) for column in names)


def _government(cells: _Cells) -> dict[str, np.ndarray]:
    kind = _kinds(cells.text("nav_type"))
    lat, lon = _survey_position(cells, "")
    dme_lat, dme_lon = _survey_position(cells, "tacan_dme_")
    of_vor, of_dme, of_ndb = cells.text("alt_code"), cells.text("dme_ssv"), cells.text("ndb_class_code")
    classes = np.array([_class(*row) for row in zip(kind, of_vor, of_dme, of_ndb)], dtype=object)
    freq, medium = cells.number("freq"), navaids.gives_bearings(kind)
    return {
        "id": np.full(cells.rows, "", dtype=object),
        "ident": cells.text("nav_id"),
        "name": cells.text("name"),
        "kind": kind,
        "khz": np.where(medium, freq, freq * 1000.0),
        "channel": cells.text("chan"),
        "class": classes,
        "status": cells.text("nav_status"),
        "country": cells.text("country_code"),
        "elev_ft": cells.number("elev"),
        "decl_deg": _survey_declination(cells, kind),
        "lon": lon,
        "lat": lat,
        "dme_lon": dme_lon,
        "dme_lat": dme_lat,
        "dme_elev_ft": np.full(cells.rows, np.nan),
        "written": cells.text("nav_type"),
    }


def _class(kind: str, of_vor: str, of_dme: str, of_ndb: str) -> str:
    """One text for the classes of a station, the bearing's first: VH/DH where VOR and DME differ."""
    if kind in ("NDB", "NDB/DME"):
        return of_ndb
    return "/".join(dict.fromkeys(c for c in (of_vor, of_dme) if c))


def _survey_position(cells: _Cells, prefix: str) -> tuple[np.ndarray, np.ndarray]:
    """Signed decimals, or degrees, minutes, seconds and hemisphere where they are missing."""
    out = []
    by_parts = []
    for axis, letters in (("lat", "NS"), ("long", "EW")):
        decimal = cells.number(f"{prefix}{axis}_decimal")
        parts = [cells.number(f"{prefix}{axis}_{unit}") for unit in ("deg", "min", "sec")]
        letter = np.char.upper(cells.text(f"{prefix}{axis}_hemis").astype(str))
        sign = np.where(letter == letters[0], 1.0, np.where(letter == letters[1], -1.0, np.nan))
        with np.errstate(invalid="ignore"):
            good = (parts[0] >= 0.0) & (parts[1] >= 0.0) & (parts[1] < 60.0) & (parts[2] >= 0.0) & (parts[2] < 60.0)
        value = np.where(good, sign * (parts[0] + parts[1] / 60.0 + parts[2] / 3600.0), np.nan)
        by_parts.append(value)
        out.append(np.where(np.isfinite(decimal), decimal, value))
    (lat, lon), (lat2, lon2) = out, by_parts
    apart = _apart_m(lon, lat, lon2, lat2)
    with np.errstate(invalid="ignore"):
        cells.note(
            apart > SAME_SITE_M,
            lambda i: f"the decimal {'DME ' if prefix else ''}position and the degrees, minutes and seconds lie "
            f"{_metres(apart[i])} apart",
        )
    return lat, lon


def _survey_declination(cells: _Cells, kind: np.ndarray) -> np.ndarray:
    value = cells.number("mag_varn")
    letter = np.char.upper(cells.text("mag_varn_hemis").astype(str))
    used = np.isfinite(value) & ~np.isin(kind, ["", "DME"])
    with np.errstate(invalid="ignore"):
        lost = used & ((value < 0.0) | (value > 180.0) | ((value != 0.0) & ~np.isin(letter, ["E", "W"])))
    cells.note(lost, lambda i: f"the declination {value[i]:g} {letter[i]} has no side or no sense")
    return np.where(used & ~lost, np.where((letter == "W") & (value != 0.0), -value, value), np.nan)


def _worldwide(cells: _Cells) -> dict[str, np.ndarray]:
    name = cells.text("name")
    closed = np.array(["closed" in n.lower() for n in name], dtype=bool)
    return {
        "id": cells.text("id"),
        "ident": cells.text("ident"),
        "name": name,
        "kind": _kinds(cells.text("type")),
        "khz": cells.number("frequency_khz"),
        "channel": cells.text("dme_channel"),
        "class": np.full(cells.rows, "", dtype=object),
        "status": np.where(closed, "closed", "").astype(object),
        "country": cells.text("iso_country"),
        "elev_ft": cells.number("elevation_ft"),
        "decl_deg": np.round(cells.number("slaved_variation_deg"), 1) + 0.0,
        "lon": cells.number("longitude_deg"),
        "lat": cells.number("latitude_deg"),
        "dme_lon": cells.number("dme_longitude_deg"),
        "dme_lat": cells.number("dme_latitude_deg"),
        "dme_elev_ft": cells.number("dme_elevation_ft"),
        "written": cells.text("type"),
    }


def _plain(cells: _Cells) -> dict[str, np.ndarray]:
    def named(column: str) -> tuple[str, ...]:
        return _PLAIN_NAMES[column]

    out = {name: cells.text(*named(name)) for name in ("id", "ident", "name", "channel", "class", "status", "country")}
    out["written"] = cells.text(*named("kind"))
    out["kind"] = _kinds(out["written"])
    freq = cells.text(*named("freq"))
    out["khz"] = frequency_khz(freq, out["kind"])
    cells.note((freq != "") & np.isnan(out["khz"]), lambda i: f"freq '{freq[i][:40]}' cannot be read")
    out["elev_ft"] = cells.number(*named("elev_ft"), parse=_feet)
    out["decl_deg"] = cells.number(*named("decl_deg"), parse=parse_declination)
    out["lat"] = cells.angle(*named("lat"), parse=text.parse_latitude)
    out["lon"] = cells.angle(*named("lon"), parse=text.parse_longitude)
    for i, position in enumerate(cells.text("position")):
        if position and np.isnan(out["lat"][i]) and np.isnan(out["lon"][i]):
            try:
                out["lon"][i], out["lat"][i] = text.parse_position(position)
            except text.PositionError as error:
                cells.unreadable[i] = str(error)
    out["dme_lat"] = cells.angle(*named("dme_lat"), parse=text.parse_latitude)
    out["dme_lon"] = cells.angle(*named("dme_lon"), parse=text.parse_longitude)
    out["dme_elev_ft"] = cells.number(*named("dme_elev_ft"), parse=_feet)
    return out


def _kinds(cells: np.ndarray) -> np.ndarray:
    known = {word: navaids.clean_kind(word) for word in set(cells)}
    out = np.empty(len(cells), dtype=object)
    out[:] = [known[word] for word in cells]
    return out


def _write_frequencies(cells: _Cells, out: dict[str, np.ndarray]) -> None:
    """freq as spoken and channel as spoken, with notes on what cannot be."""
    khz, kinds, n = out["khz"], out["kind"], cells.rows
    paired = [channel_khz(channel) if channel else (np.nan, False) for channel in out["channel"]]
    of_channel, spoken = np.array([p[0] for p in paired], float), np.array([p[1] for p in paired], bool)
    has_channel = out["channel"] != ""
    cells.note(
        has_channel & np.isnan(of_channel),
        lambda i: f"the channel '{out['channel'][i][:40]}' is not 1 to 126 with X or Y",
    )
    medium = navaids.gives_bearings(kinds)
    # a frequency that only numbers a channel without a VHF partner is not a frequency
    numbered = np.isfinite(of_channel) & ~spoken & (khz == of_channel) & ~medium
    khz = np.where(numbered, np.nan, khz)
    freq = np.array([frequency_text(f, k) for f, k in zip(khz, kinds)], dtype=object)
    units = np.where(medium, "kHz", "MHz")
    codes = frequency_codes(khz, kinds)
    out["freq_check"] = np.array(FREQ_CHECKS, dtype=object)[codes]
    ndb = BANDS["ndb"]
    with np.errstate(invalid="ignore"):
        no_frequency = khz <= 0.0
    cells.note(no_frequency, lambda i: f"the frequency {khz[i]:g} kHz is not possible")
    cells.note(
        (codes == IMPOSSIBLE) & ~no_frequency, lambda i: f"the frequency {freq[i]} {units[i]} is not possible"
    )
    cells.note(
        codes == UNUSUAL,
        lambda i: f"the frequency {freq[i]} kHz is outside {ndb.low_khz:.0f} to {ndb.high_khz:.0f} kHz",
    )
    differs = np.isfinite(khz) & np.isfinite(of_channel) & (khz != of_channel) & ~medium
    cells.note(
        differs,
        lambda i: f"the channel {_channel_text(out['channel'][i])} belongs to {of_channel[i] / 1000.0:.2f} MHz, "
        f"not to {freq[i]}",
    )
    freq[no_frequency] = ""
    out["freq"] = freq
    channel = np.full(n, "", dtype=object)
    channel[:] = [_channel_text(c) if np.isfinite(f) else c for c, f in zip(out["channel"], of_channel)]
    out["channel"] = channel


def _channel_text(channel: str) -> str:
    match = _CHANNEL.fullmatch(channel.strip())
    return f"{int(match[1])}{(match[2] or 'X').upper()}" if match else channel


def _keep_separate_dme(cells: _Cells, out: dict[str, np.ndarray]) -> None:
    """The DME's own place where it stands apart, with a note; NaN where it stands with the other antenna."""
    has_range = navaids.gives_range(out["kind"])
    lon, lat = out["dme_lon"], out["dme_lat"]
    with np.errstate(invalid="ignore"):
        bad = (np.isfinite(lon) != np.isfinite(lat)) | (np.abs(lat) > 90.0) | (np.abs(lon) > 180.0)
        cells.note(bad, lambda i: "the place of the DME cannot be used")
        apart = _apart_m(out["lon"], out["lat"], np.where(bad, np.nan, lon), np.where(bad, np.nan, lat))
        keep = has_range & ~bad & (apart > SAME_SITE_M)
    cells.note(keep, lambda i: f"the DME stands {_metres(apart[i])} from the {_other_antenna(out['kind'][i])}")
    for name in ("dme_lon", "dme_lat", "dme_elev_ft"):
        out[name] = np.where(keep, out[name], np.nan)


def _other_antenna(kind: str) -> str:
    return {"NDB/DME": "NDB", "VOR/DME": "VOR", "VORTAC": "VOR"}.get(kind, "position given")


def _apart_m(lon1, lat1, lon2, lat2) -> np.ndarray:
    """Distance in metres where all four are places; NaN elsewhere."""
    out = np.full(len(lon1), np.nan)
    with np.errstate(invalid="ignore"):
        rows = np.flatnonzero(
            (np.abs(lat1) <= 90.0) & (np.abs(lat2) <= 90.0) & (np.abs(lon1) <= 180.0) & (np.abs(lon2) <= 180.0)
        )
    _, _, nm = geodesy.inverse(lon1[rows], lat1[rows], lon2[rows], lat2[rows])
    out[rows] = nm * NM_M
    return out


def _metres(metres: float) -> str:
    return f"{metres:.0f} m" if metres < 1000.0 else f"{metres / 1000.0:.1f} km"


def _reasons(cells: _Cells, out: dict[str, np.ndarray]) -> np.ndarray:
    lon, lat = out["lon"], out["lat"]
    with np.errstate(invalid="ignore"):
        somewhere = (np.abs(lat) <= 90.0) & (np.abs(lon) <= 180.0)
        polar = somewhere & (np.abs(lat) > geodesy.MAX_LATITUDE_DEG)
    why = np.full(cells.rows, "", dtype=object)
    why[polar] = reasons.SENTENCES[reasons.NEAR_POLE]
    why[~somewhere] = reasons.SENTENCES[reasons.NO_POSITION]
    unread = ~somewhere & (cells.unreadable != "")
    why[unread] = cells.unreadable[unread]
    for i in np.flatnonzero((out["kind"] == "") & (out["written"] != "")):
        why[i] = f"the kind '{out['written'][i][:40]}' is not one of {', '.join(navaids.KINDS)}"
    why[out["ident"] == ""] = "the row has no ident"
    return why


def _refuse_repeats(out: dict[str, np.ndarray], why: np.ndarray) -> None:
    """A reason for each row of an earlier row's ident, kind and place.

    Places are hashed into cubes of earth-centred space as wide as the tolerance, so that any two within it lie
    in the same or neighbouring cubes.
    """
    groups: dict[tuple[str, str], list[int]] = {}
    for i in np.flatnonzero(why == ""):
        groups.setdefault((out["ident"][i].upper(), out["kind"][i]), []).append(int(i))
    neighbours = [(x, y, z) for x in (-1, 0, 1) for y in (-1, 0, 1) for z in (-1, 0, 1)]
    for rows in groups.values():
        if len(rows) == 1:
            continue
        earth_centred = _earth_centred_m(out["lon"][rows], out["lat"][rows])
        cubes, xyz = np.floor(earth_centred / SAME_SITE_M).astype(np.int64).tolist(), earth_centred.tolist()
        kept: dict[tuple[int, int, int], list[int]] = {}
        for k, (cx, cy, cz) in enumerate(cubes):
            near = (j for x, y, z in neighbours for j in kept.get((cx + x, cy + y, cz + z), ()))
            same = min((j for j in near if math.dist(xyz[j], xyz[k]) <= SAME_SITE_M), default=-1)
            if same >= 0:
                why[rows[k]] = f"it repeats row {rows[same] + 1}: the same ident, kind and place"
            else:
                kept.setdefault((cx, cy, cz), []).append(k)


def _earth_centred_m(lon, lat) -> np.ndarray:
    phi, lam = np.radians(lat), np.radians(lon)
    e2 = geodesy.GEOD.es
    normal = geodesy.GEOD.a / np.sqrt(1.0 - e2 * np.sin(phi) ** 2)
    across = normal * np.cos(phi)
    return np.stack([across * np.cos(lam), across * np.sin(lam), normal * (1.0 - e2) * np.sin(phi)], axis=-1)


def _keys(given: np.ndarray, idents: np.ndarray, kinds: np.ndarray) -> np.ndarray:
    """The table's own ids; where there are none, ident and kind, numbered from the second on."""
    out = given.copy()
    seen: dict[str, int] = {}
    for i in np.flatnonzero(given == ""):
        key = f"{idents[i]} {kinds[i]}".strip()
        seen[key] = seen.get(key, 0) + 1
        out[i] = key if seen[key] == 1 else f"{key} {seen[key]}"
    return out
