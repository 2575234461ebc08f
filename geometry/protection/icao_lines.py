"""The numbered lines of the ICAO holding template, each with its formula, paragraph and mark."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from ..angles import cosd, sind
from ..atmosphere import icao_holding_tas_kt, icao_k_factor, icao_wind_kt
from .areas import AS_ENTERED

DOC = "ICAO Doc 8168 Vol II, 5th ed. 2006"
K_UP_TO_FT = 14_000.0
"""Above this level the factor K, which ignores compressibility, overstates the speed; the document's own
compressible form (Part II, Section 4, Chapter 1, Appendix A) takes over."""
ISA_DEVIATION_C = 15.0


class Line(NamedTuple):
    """A numbered line of the template's table: name, formula, unit, paragraph, mark (published | from memory |
    derived | as entered)."""

    number: int
    name: str
    formula: str
    unit: str
    source: str
    mark: str


_C1 = f"{DOC}, Table I-4-3-App C-1 (form of the sister table)"
_C4 = f"{DOC}, Table I-4-3-App C-4"
_PUBLISHED = "published"
_MEMORY = "from memory"

LINES = (
    Line(1, "K", "conversion factor IAS to TAS at ISA+15", "", _C1, _PUBLISHED),
    Line(2, "V", "K * IAS", "kt", _C1, _PUBLISHED),
    Line(3, "v", "V / 3600", "NM/s", _C1, _PUBLISHED),
    Line(4, "R", "509.26 / V, at most 3", "deg/s", _C1, _PUBLISHED),
    Line(5, "r", "V / (62.83 R)", "NM", _C1, _PUBLISHED),
    Line(6, "h", "altitude", "1000 ft", _C1, _PUBLISHED),
    Line(7, "w", "2 h + 47", "kt", _C1, _PUBLISHED),
    Line(8, "w'", "w / 3600", "NM/s", _C1, _PUBLISHED),
    Line(9, "E45", "45 w' / R", "NM", _C4, _MEMORY),
    Line(10, "t", "60 T", "s", _C1, _PUBLISHED),
    Line(11, "L", "v t", "NM", _C1, _PUBLISHED),
    Line(12, "ab", "5 v", "NM", _C4, _MEMORY),
    Line(13, "ac", "11 v", "NM", _C4, _MEMORY),
    Line(14, "gi1", "(t - 5) v = gi3", "NM", _C4, _MEMORY),
    Line(15, "gi2", "(t + 21) v = gi4", "NM", _C4, _MEMORY),
    Line(16, "Wb", "5 w'", "NM", _C4, _MEMORY),
    Line(17, "Wc", "11 w'", "NM", _C4, _MEMORY),
    Line(18, "Wd", "Wc + E45", "NM", _C4, _MEMORY),
    Line(19, "We", "Wc + 2 E45", "NM", _C4, _MEMORY),
    Line(20, "Wf", "Wc + 3 E45", "NM", _C4, _MEMORY),
    Line(21, "Wg", "Wc + 4 E45", "NM", _C4, _MEMORY),
    Line(22, "Wh", "Wb + 4 E45", "NM", _C4, _MEMORY),
    Line(23, "Wo", "Wb + 5 E45", "NM", _C4, _MEMORY),
    Line(24, "Wp", "Wb + 6 E45", "NM", _C4, _MEMORY),
    Line(25, "Wi1", "(t + 6) w' + 4 E45 = Wi3", "NM", _C4, _MEMORY),
    Line(26, "Wi2", "Wi1 + 14 w' = Wi4", "NM", _C4, _MEMORY),
    Line(27, "Wj", "Wi2 + E45", "NM", _C4, _MEMORY),
    Line(28, "Wk", "Wi2 + 2 E45 = Wl", "NM", _C4, _MEMORY),
    Line(29, "Wm", "Wi2 + 3 E45", "NM", _C4, _MEMORY),
    Line(30, "Wn3", "Wi1 + 4 E45", "NM", _C4, _MEMORY),
    Line(31, "Wn4", "Wi2 + 4 E45", "NM", _C4, _MEMORY),
    Line(32, "XE", "2 r + (t + 15) v + (t + 26 + 195 / R) w'", "NM", _C4, _MEMORY),
    Line(33, "YE", "11 v cos 20 + r sin 20 + r + (t + 15) v tan 5 + (t + 26 + 125 / R) w'", "NM", _C4, _MEMORY),
)
"""Line numbers past 15 are our own counting; the document's numbering could not be seen."""

MEMORY_NOTE = (
    "template formulas from memory of ICAO Doc 8168 Vol II Table I-4-3-App C-4, to be confirmed against the document"
)


CONVERSIONS = ("document", "k", "compressible")


def tas_kt(ias_kt, alt_ft, conversion: str = "document") -> np.ndarray:
    """TAS of the area at ISA+15 by one of the document's conversions, or by the one that it asks for at that level.

    document: K up to 14 000 ft, compressible above. Just above 14 000 ft the compressible form gives less than K gave
    at that level; the greater stands, so that a higher area is never smaller (derived here). k: K at every level, NaN
    above the tropopause. compressible: the compressible form at every level.
    Parameters: ias_kt, alt_ft broadcast; conversion, one of CONVERSIONS. Returns: kt.
    Errors: ValueError for a conversion that is none. Source: Doc 8168 Vol II, Part I, Section 2, Chapter 1,
    Appendix, and Part II, Section 4, Chapter 1, Appendix A (from memory).
    """
    if conversion not in CONVERSIONS:
        raise ValueError(f"tas is {conversion!r}; it must be one of {', '.join(CONVERSIONS)}")
    alt, ias = np.broadcast_arrays(np.asarray(alt_ft, dtype=np.float64), np.asarray(ias_kt, dtype=np.float64))
    compressible = icao_holding_tas_kt(ias, alt, ISA_DEVIATION_C)
    if conversion == "compressible":
        return compressible
    if conversion == "k":
        return icao_k_factor(alt, ISA_DEVIATION_C) * ias
    by_factor = icao_k_factor(np.minimum(alt, K_UP_TO_FT), ISA_DEVIATION_C) * ias
    return np.where(alt <= K_UP_TO_FT, by_factor, np.fmax(by_factor, compressible))


_APPENDIX = f"{DOC}, Part II, Section 4, Chapter 1, Appendix A"
_HELD = f"{DOC}; K at that level, which this one's compressible form would make less than: derived here"
_WIND = "the wind given, by statistics: I-4-3-7 e) of the document allows it"


def own_lines(values: dict[str, np.ndarray], alt_ft, conversion: str = "document", wind_given: bool = False):
    """LINES as they are for each of N templates: where TAS is not K times IAS or the wind not the formula's, the line
    says so, with its own paragraph and mark.

    Parameters: values, the lines of N templates; alt_ft (N,); conversion, as tas_kt; wind_given, whether line 7 was put
    in. Returns: N tuples of Lines, in the order of LINES.
    """
    ias, alt = values["V"] / values["K"], np.asarray(alt_ft, dtype=np.float64)
    air = tas_kt(ias, alt, "compressible")
    by_factor = (conversion == "k") | ((conversion == "document") & (alt <= K_UP_TO_FT))
    held = ~by_factor & ~np.isclose(values["V"], air, rtol=1e-9, atol=0.0)
    speeds = {
        0: {},
        1: {
            "K": Line(1, "K", "V / IAS", "", _APPENDIX, _MEMORY),
            "V": Line(2, "V", "compressible, from IAS at ISA+15", "kt", _APPENDIX, _MEMORY),
        },
        2: {
            "K": Line(1, "K", f"that of {K_UP_TO_FT:.0f} ft", "", _HELD, "derived"),
            "V": Line(2, "V", "K * IAS", "kt", _HELD, "derived"),
        },
    }
    wind = {"w": Line(7, "w", "as given", "kt", _WIND, AS_ENTERED)} if wind_given else {}
    made = {k: tuple({**table, **wind}.get(line.name, line) for line in LINES) for k, table in speeds.items()}
    return [made[k] for k in np.where(by_factor, 0, np.where(held, 2, 1)).tolist()]


def template_tas_kt(ias_kt, alt_ft) -> np.ndarray:
    """TAS of the area by the document's own conversion at ISA+15. Parameters, source: tas_kt."""
    return tas_kt(ias_kt, alt_ft)


def lines(ias_kt, alt_ft, outbound_min, *, tas_kt=None, wind_kt=None) -> dict[str, np.ndarray]:
    """The numbered lines of the holding template.

    Parameters: ias_kt, alt_ft, outbound_min (still air) broadcast; tas_kt or wind_kt put a value in place of
    lines 2 and 7. Returns: arrays of the broadcast shape by line name, see LINES for units.
    Source: LINES, each with its table and mark.

    >>> values = lines(220.0, 10000.0, 1.0)
    >>> round(float(values["XE"]), 2), round(float(values["Wn4"]), 2)
    (13.28, 4.95)
    """
    ias, alt, minutes = np.broadcast_arrays(*[np.asarray(a, float) for a in (ias_kt, alt_ft, outbound_min)])
    out: dict[str, np.ndarray] = {}
    out["V"] = np.broadcast_to(template_tas_kt(ias, alt) if tas_kt is None else np.asarray(tas_kt, float), ias.shape)
    out["K"] = out["V"] / ias
    v = out["v"] = out["V"] / 3600.0
    rate = out["R"] = np.minimum(509.26 / out["V"], 3.0)
    r = out["r"] = out["V"] / (62.83 * rate)
    out["h"] = alt / 1000.0
    out["w"] = np.broadcast_to(icao_wind_kt(alt) if wind_kt is None else np.asarray(wind_kt, float), ias.shape)
    w = out["w'"] = out["w"] / 3600.0
    e45 = out["E45"] = 45.0 * w / rate
    t = out["t"] = 60.0 * minutes
    out["L"] = v * t
    out["ab"], out["ac"] = 5.0 * v, 11.0 * v
    out["gi1"], out["gi2"] = (t - 5.0) * v, (t + 21.0) * v
    out["Wb"], out["Wc"] = 5.0 * w, 11.0 * w
    for step, name in enumerate(("Wd", "We", "Wf", "Wg"), start=1):
        out[name] = out["Wc"] + step * e45
    for step, name in enumerate(("Wh", "Wo", "Wp"), start=4):
        out[name] = out["Wb"] + step * e45
    out["Wi1"] = (t + 6.0) * w + 4.0 * e45
    out["Wi2"] = out["Wi1"] + 14.0 * w
    for step, name in enumerate(("Wj", "Wk", "Wm"), start=1):
        out[name] = out["Wi2"] + step * e45
    out["Wn3"], out["Wn4"] = out["Wi1"] + 4.0 * e45, out["Wi2"] + 4.0 * e45
    out["XE"] = 2.0 * r + (t + 15.0) * v + (t + 26.0 + 195.0 / rate) * w
    out["YE"] = (
        11.0 * v * cosd(20.0)
        + r * sind(20.0)
        + r
        + (t + 15.0) * v * np.tan(np.radians(5.0))
        + (t + 26.0 + 125.0 / rate) * w
    )
    return out
