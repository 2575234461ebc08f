"""Why a row failed: small codes with one sentence each.

Row functions return an array of codes beside their values; 0 means good. The sentences are what a user reads
in the rejects layer, so each says what to change.
"""

from __future__ import annotations

import numpy as np

OK = 0
NO_POSITION = 1
NEAR_POLE = 2
NOT_FINITE = 3
NO_DECLINATION = 4
NO_ELEVATION = 5
SLANT_TOO_SHORT = 6
NO_ALTITUDE = 7
NO_COURSE = 8
RADIAL_RANGE = 9
DISTANCE_RANGE = 10
NO_LEG_END = 11
NO_DME = 12
SAME_PLACE = 13
NO_BEARING = 14
NO_SPEED = 15
LEG_RANGE = 16
SPEED_RANGE = 17
ALTITUDE_RANGE = 18
BEARING_NOT_SOLVED = 19
TEMPERATURE_RANGE = 20
COURSE_RANGE = 21
SAME_STATION = 22
LINES_PARALLEL = 23
BEHIND_STATION = 24
CROSSING_RANGE = 25
ARC_NOT_REACHED = 26
CROSSING_NOT_SOLVED = 27
NO_RANGE = 28
ONE_CROSSING = 29
OFF_ROUTE = 30
NO_VERTEX = 31
NOT_SUBSONIC = 32
BLOCK_ORDER = 33
WIND_TOO_STRONG = 34
CIRCUIT_TOO_SHORT = 35
NO_CIRCUIT = 36
NO_INBOUND_LEG = 37
TOLERANCE_UNBOUNDED = 38
NO_OVERHEAD_TOLERANCE = 39
NO_CONE = 40
NOT_ABOVE_STATION = 41
OVER_POLE = 42
GNSS_RANGE = 43
NO_TERRAIN = 44
NOT_ON_ROUTE = 45
NO_ENTRY = 46

SENTENCES = {
    OK: "",
    NO_POSITION: "the row has no usable position",
    NEAR_POLE: "the position lies nearer a pole than 85 degrees of latitude",
    NOT_FINITE: "a number is missing, infinite or not a number",
    NO_DECLINATION: "the station's declination is missing, so a radial cannot be drawn; give it, or choose north "
    "'model' or 'true'",
    NO_ELEVATION: "the station's elevation is missing, so a slant range has no ground distance; give it, or choose "
    "the distance kind 'ground'",
    SLANT_TOO_SHORT: "the slant range is not longer than the height above or below the station",
    NO_ALTITUDE: "the altitude is missing",
    NO_COURSE: "there is no course, neither given nor from a navaid or a track",
    RADIAL_RANGE: "the radial is not between 0 and 360 degrees",
    DISTANCE_RANGE: "the distance is not between 0 and 400 NM",
    NO_LEG_END: "the outbound leg never reaches its DME distance",
    NO_DME: "the leg ends at a DME distance, but the fix has no station with an elevation and a distance",
    SAME_PLACE: "the two places are the same, so there is no course between them",
    NO_BEARING: "this kind of station gives no bearing",
    NO_SPEED: "the indicated airspeed is missing",
    LEG_RANGE: "the leg is not between 0.1 and 10 minutes or 0.5 and 100 NM",
    SPEED_RANGE: "the indicated airspeed is not between 30 and 500 kt",
    ALTITUDE_RANGE: "the altitude is outside -2 000 to 60 000 ft",
    BEARING_NOT_SOLVED: "no place on this bearing could be found",
    TEMPERATURE_RANGE: "the temperature deviation is not between -80 and +60 degrees",
    COURSE_RANGE: "the course is not between 0 and 360 degrees",
    SAME_STATION: "both lines start from the same place, so they have no crossing of their own",
    LINES_PARALLEL: "the lines are nearly parallel: they cut at less than 0.1 degree",
    BEHIND_STATION: "the lines meet only behind a station",
    CROSSING_RANGE: "the lines meet farther than 400 NM from a station",
    ARC_NOT_REACHED: "the lines do not meet: the arc is not reached",
    CROSSING_NOT_SOLVED: "the crossing could not be computed",
    NO_RANGE: "this kind of station gives no distance",
    ONE_CROSSING: "two radials cross once only",
    OFF_ROUTE: "the place lies off the ends of the route",
    NO_VERTEX: "the route has no such vertex",
    NOT_SUBSONIC: "the airspeed is not below the speed of sound at that altitude",
    BLOCK_ORDER: "the top of the altitude block lies below its bottom",
    WIND_TOO_STRONG: "the wind is too strong: the inbound course cannot be made good",
    CIRCUIT_TOO_SHORT: "the time is shorter than the shortest circuit in this wind",
    NO_CIRCUIT: "no outbound heading brings the aeroplane back to the course in this wind",
    NO_INBOUND_LEG: "no inbound leg is left in this wind",
    TOLERANCE_UNBOUNDED: "the limits of the two aids do not all cross, so the tolerance area has no bounds: "
    "the cut is too shallow, or the fix too near a station",
    NO_OVERHEAD_TOLERANCE: "the FAA's tolerance area overhead a station is not known here, so none is drawn; "
    "choose rules 'icao'",
    NO_CONE: "a tolerance area overhead is known for a VOR or NDB only",
    NOT_ABOVE_STATION: "the altitude is not above the station, so there is no cone at the aircraft",
    OVER_POLE: "the area reaches round a pole, so it cannot be drawn in longitude and latitude",
    GNSS_RANGE: "the along-track or cross-track tolerance is not more than 0 and at most 400 NM",
    NO_TERRAIN: "the terrain between the station and the fix is not known everywhere",
    NOT_ON_ROUTE: "no route passes within the distance allowed",
    NO_ENTRY: "the entry meets neither the inbound course nor the fix in this wind; leave the arrival out to see the "
    "circuits",
}


def first(*codes) -> np.ndarray:
    """The first non-zero code of each row.

    Parameters: arrays of codes that broadcast. Returns: int16 of the broadcast shape.
    """
    arrays = np.broadcast_arrays(*[np.asarray(c, dtype=np.int16) for c in codes])
    out = np.zeros(arrays[0].shape, dtype=np.int16)
    for code in arrays:
        out = np.where(out == OK, code, out)
    return out.astype(np.int16)


def where(mask, code: int) -> np.ndarray:
    """Code where mask is true, else OK."""
    return np.where(np.asarray(mask, dtype=bool), np.int16(code), np.int16(OK)).astype(np.int16)


def sentence(code) -> str:
    """The sentence of one code."""
    return SENTENCES[int(code)]


def sentences(codes) -> np.ndarray:
    """Sentences of many codes: object array of str, same shape."""
    codes = np.asarray(codes)
    out = np.empty(codes.shape, dtype=object)
    out.ravel()[:] = [SENTENCES[int(c)] for c in codes.ravel()]
    return out


def note(texts: np.ndarray, mask, write) -> None:
    """Add a sentence to the rows of a mask, in place.

    Parameters: texts, object array of str, N rows; mask, N rows; write(i) gives the sentence of row i.
    """
    for i in np.flatnonzero(mask):
        texts[i] = f"{texts[i]}; {write(i)}" if texts[i] else write(i)


def join(*texts) -> np.ndarray:
    """Sentences of each row joined with '; ', empty ones left out.

    Parameters: object arrays of str that broadcast. Returns: object array of the broadcast shape.
    """
    arrays = np.broadcast_arrays(*[np.asarray(t, dtype=object) for t in texts])
    out = np.full(arrays[0].shape, "", dtype=object)
    for text in arrays:
        both = (out != "") & (text != "")
        out = np.where(both, out + "; " + text, np.where(out == "", text, out))
    return out
